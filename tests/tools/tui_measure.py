"""Measures the screens in a pseudo-terminal: start-up, updates, bytes, processor share, key to screen; beside a private sound
server also key to sound and silence key to silence.

    tui_measure.py [PROGRAM]

Prints one figure a line with its limit, and fails when a limit that the design sets is broken. Times from the sound are read
off a recording of the sink's monitor: where the recording stood when the key was written, so they hold the server's and the
recorder's own delay (about 30 ms) on top of the program's.
"""
import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time

import numpy as np

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else "src/BrassVox.App/bin/Debug/net10.0/brassvox"
SOUND = os.environ.get("BRASSVOX_SOUND_SERVER") == "1"
RATE = 48000
FAULTS = []
ESCAPES = re.compile(r"\x1b\[[0-9;?]*[ -/]*[@-~]")


def say(what, value, unit, limit=None):
    wrong = limit is not None and not value <= limit
    FAULTS.extend([what] if wrong else [])
    asked = "" if limit is None else f"   asked: {limit:g} at most"
    print(f"{what:44s} {value:10.1f} {unit}{asked}{'   WRONG' if wrong else ''}", flush=True)


class Screens:
    def __init__(self, folder, columns=80, rows=24):
        self.started = time.monotonic()
        self.pid, self.terminal = pty.fork()
        if self.pid == 0:
            os.environ.update(LC_ALL="C.UTF-8", TERM="xterm-256color", BRASSVOX_DATA=folder)
            os.execv(PROGRAM, [PROGRAM])
        fcntl.ioctl(self.terminal, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        self.text = ""
        self.bytes = 0
        self.reads = []

    def listen(self, seconds, until=None):
        """Reads for some time, or until a text has come; answers whether it came, and when."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if not select.select([self.terminal], [], [], 0.01)[0]:
                continue
            try:
                data = os.read(self.terminal, 65536)
            except OSError:
                return None
            now = time.monotonic()
            self.bytes += len(data)
            if ESCAPES.sub("", data.decode("utf-8", "replace")).strip("\r\n"):
                self.reads.append(now)
            self.text = (self.text + data.decode("utf-8", "replace"))[-60000:]
            if b"\x1b[c" in data or b"\x1b[0c" in data:
                os.write(self.terminal, b"\x1b[?64;22c")
            if until and until in ESCAPES.sub("", self.text):
                return now
        return None

    def press(self, keys):
        self.text = ""
        pressed = time.monotonic()
        os.write(self.terminal, keys.encode())
        return pressed

    def processor_seconds(self):
        fields = open(f"/proc/{self.pid}/stat").read().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def end(self):
        try:
            os.kill(self.pid, signal.SIGTERM)
        except ProcessLookupError:
            pass
        end = time.monotonic() + 10
        while time.monotonic() < end:
            self.listen(0.1)
            if os.waitpid(self.pid, os.WNOHANG)[0]:
                return
        os.kill(self.pid, signal.SIGKILL)


def drawn(screens, seconds):
    """Updates and bytes a second, and the processor's share, over some seconds."""
    screens.listen(1)
    screens.bytes, screens.reads = 0, []
    used, began = screens.processor_seconds(), time.monotonic()
    screens.listen(seconds)
    passed = time.monotonic() - began
    share = 100 * (screens.processor_seconds() - used) / passed
    # Writes less than 10 ms apart belong to one update.
    updates = sum(1 for a, b in zip([0.0] + screens.reads, screens.reads) if b - a > 0.01)
    return updates / passed, screens.bytes / passed, share


def loud_from(path, place):
    samples = np.fromfile(path, dtype="<f4")[place // 4 :]
    over = np.flatnonzero(np.abs(samples) > 1e-4)
    return samples, over


def main():
    with tempfile.TemporaryDirectory() as folder:
        screens = Screens(folder)
        first = screens.listen(20, "WELCOME")
        if first is None:
            print("the screens did not come")
            return 1
        say("start to first screen", 1000 * (first - screens.started), "ms")
        recorder, recording = None, os.path.join(folder, "sound.raw")
        if SOUND:
            recorder = subprocess.Popen(["parec", "--device=brassvox.monitor", "--rate=48000", "--channels=1", "--format=float32le",
                                         "--raw", "--latency-msec=5"], stdout=open(recording, "wb"))
        screens.listen(2)
        screens.press("\x1b")
        screens.listen(5, "START")
        screens.press("1")
        screens.listen(5, "EXPLORE")
        screens.listen(1)
        still_updates, still_bytes, still_share = drawn(screens, 5)
        say("Explore, silent: updates", still_updates, "a second")
        say("Explore, silent: processor", still_share, "% of a core")
        # Nothing else is drawn in silence: what is drawn next is the answer.
        taken = []
        for key in ["\x1b[C", "\x1b[D"] * 10:
            screens.reads = []
            pressed = screens.press(key)
            screens.listen(0.4)
            taken.append(1000 * ((screens.reads[0] if screens.reads else pressed + 1) - pressed))
        say("key to screen, median of 20", float(np.median(taken)), "ms", 100)
        say("key to screen, slowest of 20", max(taken), "ms")
        place = os.path.getsize(recording) if SOUND else 0
        screens.press("\r")
        screens.listen(3)
        if SOUND:
            _, over = loud_from(recording, place)
            say("Enter to sound", 1000 * over[0] / RATE if len(over) else 9999, "ms", 300)
        for _ in range(3):
            screens.press("\x1b[C")
            screens.listen(0.3)
        updates, amount, share = drawn(screens, 8)
        say("Explore, a swell: updates", updates, "a second")
        say("Explore, a swell: bytes", amount, "a second", 48000)
        say("Explore, a swell: processor", share, "% of a core")
        if SOUND:
            silences = []
            for _ in range(8):
                screens.press("\r")
                screens.listen(1.2)
                place = os.path.getsize(recording)
                screens.press(" ")
                screens.listen(0.6)
                _, over = loud_from(recording, place)
                silences.append(1000 * (over[-1] if len(over) else 0) / RATE)
            say("Space to silence, median of 8", float(np.median(silences)), "ms", 120)
            say("Space to silence, slowest of 8", max(silences), "ms")
            recorder.terminate()
            recorder.wait()
        screens.end()
    return 1 if FAULTS else 0


sys.exit(main())
