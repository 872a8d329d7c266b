"""Every screen in a real terminal (tmux), in every theme and size, kept as text and looked at by rule.

    tui_screens.py [PROGRAM] [--to FOLDER] [--sizes 80x24,200x60] [--modes dark,light,none,ascii]

Each screen goes to FOLDER/SIZE-MODE/NAME.txt, with its colours to NAME.ansi. Of each it is checked that
- its first row begins with its name, and its last two rows say how to get help, or to leave where all keys type;
- no text runs over the right edge: in a window twelve columns wider no row goes on with the same word;
- it fills no more rows and columns than there are, and holds no two-column sign.
Of all that a run sends: in ASCII no byte over 0x7E; without colour no escape that sets one; at the end nothing on stderr.
Each run has its own data folder, without sound devices, and the invented ensemble. The last line is "N passed, N failed".
Needs tmux, nothing else.
"""
import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import unicodedata

SOCKET = f"brassvox-screens-{os.getpid()}"
WIDER = 12
COLOUR = re.compile(rb"\x1b\[(?:[0-9;:]*[;:])?(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:[;:][0-9;:]*)?m")
HELP = ("h keys", "F1 keys", "F1: keys")
# Where nothing but a line being typed, the list of keys itself or a blanked stage stands.
HELPLESS = {"keys", "keys-found", "box-pair", "box-file", "stage-blank", "too-small"}

# name, keys before, what the first row begins with. A number is a pause in seconds, a tuple a text that has to stand there first.
OWN = [
    ("welcome", [], "WELCOME"),
    ("welcome-answers", ["Enter", "Down"], "WELCOME"),
    ("start", ["Escape"], "START"),
    ("explore", ["1"], "EXPLORE"),
    ("explore-sounding", ["Enter", 0.6], "EXPLORE"),
    ("explore-breath", ["a"], "EXPLORE"),
    ("explore-approach", ["a"], "EXPLORE"),
    ("explore-far", ["a"], "EXPLORE"),
    ("box-pair", ["a", "n"], "EXPLORE"),
    ("keys", ["Escape", "h"], "KEYS"),
    ("listen", ["Escape", "Escape", "2"], "LISTEN"),
    ("listen-ready", ["4", "Enter", ("trial 1",)], "LISTEN"),
    ("listen-sounding", ["Enter", 0.8], "LISTEN"),
    ("listen-answered", ["Enter", 0.3, "Enter", 0.3, "Enter", 5.2, "Enter", ("It was",)], "LISTEN"),
    ("listen-choice", ["Escape", "1", "Enter", ("trial 1",), "Enter", 0.5], "LISTEN"),
    ("listen-adjust", ["Escape", "6", "Enter", ("trial 1",), "Enter", 0.5], "LISTEN"),
    ("section", ["Escape", "n"], "SECTION"),
    ("section-trials", ["Down", "Enter"], "SECTION, WHO IS OFF"),
    ("section-asked", ["Enter"], "SECTION, WHO IS OFF"),
    ("section-answered", ["1"], "SECTION, WHO IS OFF"),
    ("play", ["Escape", "Escape", "Escape", "3"], "PLAY ALONG"),
    ("play-ready", ["1", "4", "Enter", ("begin",)], "PLAY ALONG"),
    ("play-cue", ["Enter", ("BEGIN IN",)], "PLAY ALONG"),
    ("play-dark", [("SECONDS LEFT",)], "PLAY ALONG"),
    ("play-sentence", [("finish the sentence",)], "PLAY ALONG"),
    ("play-reveal", ["Right", "Enter", "Enter", "Enter", "Enter", "Enter", ("NEXT",)], "PLAY ALONG"),
    ("body", ["y"], "BODY"),
    ("passage", ["Escape", "Escape", "Escape", "4"], "PASSAGE"),
    ("passage-text", ["n"], "PASSAGE, AS TEXT"),
    ("box-file", ["Escape", "Up", "Up", "Enter"], "PASSAGE"),
    ("takes", ["Escape", "Escape", "5", ("kept here",)], "TAKES"),
    ("set-up", ["Escape", "8"], "SET-UP"),
    ("set-up-marks", ["Tab", "Tab", "Tab", "Tab"], "SET-UP"),
    ("stage", ["Escape", "7"], "STAGE"),
    ("stage-fifth", ["Enter", "2", 0.4], "STAGE"),
    ("stage-grain", ["4", 0.4], "STAGE"),
    ("stage-landing", ["6", 0.4], "STAGE"),
    ("stage-spotlight", ["Tab"], "STAGE"),
    ("stage-blank", ["b"], ""),
]
DEMO = [
    ("demo-start", [("NEXT",)], "START"),
    ("demo-takes", ["5", ("kept here",)], "TAKES"),
    ("demo-map", ["Tab"], "TAKES"),
    ("demo-take", ["Tab", "Enter", ("AIM",)], "TAKE"),
    ("demo-two-takes", ["Escape", "k", "Down", "k", ("UNDER",), 0.4], "TWO TAKES"),
    ("demo-players", ["Escape", "Escape", "5", ("kept here",), "Left", "Left", "Enter"], "PLAYERS"),
    ("demo-plan", ["Escape", "Escape", "6", ("TODAY",)], "PLAN"),
]
MODES = {
    "dark": ([], {}),
    "light": ([], {}),
    "none": ([], {"NO_COLOR": "1"}),
    "ascii": (["--ascii"], {}),
}


def tmux(*arguments):
    return subprocess.run(["tmux", "-L", SOCKET, "-f", "/dev/null", *arguments], capture_output=True, text=True, check=False).stdout


def shown(colours=False):
    return tmux("capture-pane", "-t", "walk", "-p", *(["-e"] if colours else [])).split("\n")


class Walk:
    def __init__(self, program, folder, keep, size, mode):
        self.program, self.folder, self.keep, self.mode = program, folder, keep, mode
        self.columns, self.rows = (int(part) for part in size.split("x"))
        self.where = f"{size} {mode}"
        self.passed, self.faults = 0, []

    def check(self, what, holds):
        if holds:
            self.passed += 1
        else:
            self.faults.append(f"{self.where}: {what}")

    def begin(self, *arguments):
        tmux("kill-server")
        time.sleep(0.2)
        flags, variables = MODES[self.mode]
        setting = " ".join(f"{name}={value}" for name, value in variables.items())
        command = (f"env LC_ALL=C.UTF-8 TERM=tmux-256color COLORTERM=truecolor BRASSVOX_DATA={self.folder}/data ALSA_CONFIG_PATH=/dev/null "
                   f"PULSE_SERVER=unix:/nonexistent {setting} '{self.program}' {' '.join([*flags, *arguments])} "
                   f"2>{self.folder}/errors; echo $? >{self.folder}/exit; sleep 600")
        tmux("new-session", "-d", "-s", "walk", "-x", str(self.columns), "-y", str(self.rows), "sleep 0.3; " + command)
        tmux("pipe-pane", "-t", "walk", f"cat >>{self.folder}/sent")

    def stands(self, text, seconds=25):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if any(text in row for row in shown()):
                return True
            time.sleep(0.05)
        return False

    def settle(self):
        """Waits until two looks in a row are the same, at most half a second: what moves goes on moving."""
        before = None
        for _ in range(8):
            now = shown()
            if now == before:
                return now
            before = now
            time.sleep(0.06)
        return before

    def walk(self, screens):
        for name, keys, title in screens:
            for key in keys:
                if isinstance(key, tuple):
                    self.check(f"{name}: waits for {key[0]}", self.stands(key[0]))
                elif isinstance(key, float):
                    time.sleep(key)
                else:
                    tmux("send-keys", "-t", "walk", key)
                    time.sleep(0.6 if key == "Escape" else 0.12)
            self.check(f"{name}: the first row begins with {title}", title == "" or self.stands(title, 5))
            self.look(name, title)

    def look(self, name, title):
        rows = self.settle()
        place = f"{self.keep}/{self.columns}x{self.rows}-{self.mode}"
        os.makedirs(place, exist_ok=True)
        with open(f"{place}/{name}.txt", "w", encoding="utf-8") as file:
            file.write("\n".join(rows))
        with open(f"{place}/{name}.ansi", "w", encoding="utf-8") as file:
            file.write("\n".join(shown(colours=True)))
        self.check(f"{name}: the first row begins with {title}: {rows[0]}", rows[0].startswith(title))
        foot = " ".join(rows[self.rows - 2:self.rows])
        self.check(f"{name}: says how to get help: {foot}", name in HELPLESS or any(way in foot for way in HELP))
        self.check(f"{name}: one column a sign", all(unicodedata.east_asian_width(sign) not in "WF" for row in rows for sign in row))
        self.check(f"{name}: within {self.columns} columns", all(len(row) <= self.columns for row in rows) and len(rows) <= self.rows + 1)
        if name.startswith(("play-cue", "play-dark", "listen-")):
            return  # What runs would be another screen by the time the window has changed twice.
        self.edges(name, rows)

    def edges(self, name, rows):
        tmux("resize-window", "-t", "walk", "-x", str(self.columns + WIDER), "-y", str(self.rows))
        time.sleep(0.35)
        wide = shown()
        tmux("resize-window", "-t", "walk", "-x", str(self.columns), "-y", str(self.rows))
        time.sleep(0.25)
        for row, wider in zip(rows, wide):
            cut = len(row) >= self.columns - 1 and len(wider) > len(row) and wider.startswith(row) and row[-1:].isalnum() and wider[len(row)].isalnum()
            self.check(f"{name}: cut at the right edge: {row}", not cut)

    def end(self):
        tmux("send-keys", "-t", "walk", "C-c")
        for _ in range(100):
            if os.path.exists(f"{self.folder}/exit") and os.path.getsize(f"{self.folder}/exit"):
                break
            time.sleep(0.1)
        code = self.read("exit").decode().strip()
        self.check(f"Ctrl-C ends with 130, not {code}", code == "130")
        self.check(f"nothing on stderr: {self.read('errors')[:200]}", not self.read("errors"))
        sent = self.read("sent")
        self.check("something was sent", len(sent) > 1000)
        if self.mode == "ascii":
            self.check("no byte over 0x7E", not re.search(rb"[\x7f-\xff]", sent))
        if self.mode == "none":
            self.check(f"no colour is set: {COLOUR.search(sent)}", not COLOUR.search(sent))
        else:
            self.check("colours are set", COLOUR.search(sent))
        for name in ("exit", "errors", "sent"):
            if os.path.exists(f"{self.folder}/{name}"):
                os.remove(f"{self.folder}/{name}")

    def read(self, name):
        try:
            with open(f"{self.folder}/{name}", "rb") as file:
                return file.read()
        except FileNotFoundError:
            return b""


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program", nargs="?", default=os.path.join(os.path.dirname(__file__), "..", "..", "src/BrassVox.App/bin/Debug/net10.0/brassvox"))
    parser.add_argument("--to")
    parser.add_argument("--sizes", default="80x24,200x60")
    parser.add_argument("--modes", default=",".join(MODES))
    given = parser.parse_args()
    program = os.path.abspath(given.program)
    work = tempfile.mkdtemp()
    keep = os.path.abspath(given.to) if given.to else f"{work}/screens"
    passed, faults = 0, []
    try:
        subprocess.run([program, "demo", "--data", f"{work}/invented"], capture_output=True, check=True)
        for size in given.sizes.split(","):
            for mode in given.modes.split(","):
                folder = f"{work}/{size}-{mode}"
                os.makedirs(folder)
                walk = Walk(program, folder, keep, size, mode)
                walk.begin()
                walk.check("WELCOME comes first", walk.stands("WELCOME"))
                if mode == "light":
                    tmux("send-keys", "-t", "walk", "t")
                walk.walk(OWN)
                walk.end()
                shutil.copytree(f"{work}/invented/demo", f"{folder}/data/demo")
                walk.begin("--demo")
                if mode == "light" and walk.stands("START"):
                    tmux("send-keys", "-t", "walk", "t")
                walk.walk(DEMO)
                walk.end()
                passed += walk.passed
                faults += walk.faults
                print(f"{size} {mode}: {walk.passed} passed, {len(walk.faults)} failed", flush=True)
    finally:
        tmux("kill-server")
        shutil.rmtree(work, ignore_errors=True)
    for fault in faults:
        print(f"FAILED  {fault}")
    print(f"{passed} passed, {len(faults)} failed")
    return 1 if faults else 0


sys.exit(main())
