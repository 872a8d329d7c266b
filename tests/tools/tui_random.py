"""Random keys and random sizes in a real terminal (tmux), seeded: no crash, no hang, the terminal left as it was found.

    tui_random.py [PROGRAM] [--seeds N] [--first SEED] [--keys N] [--plain]

Each seed has its own data folder, empty at first, without sound devices. Every 25 keys the screens have to answer: F1 opens the list of
keys, Esc closes it, each within 2 s. Where chance marks "quit" and presses Enter, the program has to end with 0 and is begun again; at
the end Ctrl-C leaves it. A fault prints the seed, the last keys and the screen. Needs tmux, nothing else.
"""
import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time

SIZES = [(80, 24), (200, 60), (120, 40), (79, 24), (60, 20), (20, 5), (1, 1), (2, 60), (200, 1), (132, 43), (80, 100), (250, 80)]
NAMED = ["Enter", "Space", "Escape", "Tab", "BTab", "Up", "Down", "Left", "Right", "PageUp", "PageDown", "Home", "End", "Delete",
         "BSpace", "Insert", "F1", "F5", "C-t", "C-h", "C-a", "C-l", "M-x", "S-Up", "C-Left"]
LETTERS = list("abcdefghijklmnoprstuvwxyzABCDEFGHIKZ0123456789,.-+=/?'\"#~;:") + ["ä", "ß", "≈", "漢"]
ANSWER_SECONDS = 2.0
CHECK_EVERY = 25


class Fault(Exception):
    pass


class Ended(Exception):
    pass


class Terminal:
    def __init__(self, program, folder, plain):
        self.folder = folder
        self.socket = f"brassvox-random-{os.getpid()}"
        self.program = program
        self.keys = []
        self.plain = plain
        self.begin()

    def begin(self):
        self.tmux("kill-server")
        for name in ("before", "after", "exit"):
            if os.path.exists(f"{self.folder}/{name}"):
                os.remove(f"{self.folder}/{name}")
        folder, plain, program = self.folder, self.plain, self.program
        time.sleep(0.2)
        inner = (f"stty -g >{folder}/before; env LC_ALL=C.UTF-8 TERM=tmux-256color BRASSVOX_DATA={folder}/data ALSA_CONFIG_PATH=/dev/null "
                 f"PULSE_SERVER=unix:/nonexistent '{program}' {'--plain' if plain else ''} 2>{folder}/errors; echo $? >{folder}/exit; "
                 f"stty -g >{folder}/after; sleep 600")
        self.tmux("new-session", "-d", "-s", "walk", "-x", "80", "-y", "24", inner)

    def tmux(self, *arguments):
        return subprocess.run(["tmux", "-L", self.socket, "-f", "/dev/null", *arguments], capture_output=True, text=True, check=False).stdout

    def shown(self):
        return self.tmux("capture-pane", "-t", "walk", "-p")

    def resize(self, columns, rows):
        self.keys.append(f"[{columns}x{rows}]")
        self.tmux("resize-window", "-t", "walk", "-x", str(columns), "-y", str(rows))

    def press(self, *keys):
        for key in keys:
            self.keys.append(key)
            if key in NAMED:
                self.tmux("send-keys", "-t", "walk", key)
            else:
                self.tmux("send-keys", "-t", "walk", "-l", "--", key)

    def is_there(self):
        return any(word in self.shown() for word in ("WELCOME", "START", "STAGE", "Welcome", "Start", "Stage", "wants 80x24"))

    def flags(self):
        return self.tmux("display", "-t", "walk", "-p", "#{alternate_on}#{cursor_flag}#{mouse_any_flag}#{keypad_flag}#{keypad_cursor_flag}").strip()

    def ended(self):
        return os.path.exists(f"{self.folder}/after") and os.path.getsize(f"{self.folder}/after") > 0

    def wait(self, what, holds, seconds):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if holds():
                return
            if self.ended():
                raise Ended
            time.sleep(0.03)
        raise Fault(f"not within {seconds:g} s: {what}")

    def read(self, name):
        try:
            with open(f"{self.folder}/{name}", encoding="utf-8") as file:
                return file.read().strip()
        except FileNotFoundError:
            return ""


def answers(terminal):
    """h opens the list of keys and Esc closes it. A line being typed takes letters and the list of keys h itself, so Esc comes first."""
    for _ in range(3):
        terminal.press("Escape")
        time.sleep(0.25)
    began = time.monotonic()
    terminal.press("F1")
    terminal.wait("F1 lists the keys", lambda: terminal.shown().startswith("KEYS"), ANSWER_SECONDS)
    terminal.press("Escape")
    terminal.wait("Esc closes the list", lambda: not terminal.shown().startswith("KEYS"), ANSWER_SECONDS)
    return time.monotonic() - began


def has_left(terminal, code):
    """It ended with this code; modes, screen, cursor, mouse and keys of the terminal are as they were. What the screen holds is not looked
    at: tmux itself leaves parts of the picture there when its window changed size meanwhile."""
    if terminal.read("exit") != code:
        raise Fault(f"it ended with {terminal.read('exit')}, not {code}: {terminal.read('errors')}")
    if terminal.read("errors"):
        raise Fault(f"on stderr: {terminal.read('errors')}")
    if terminal.read("before") != terminal.read("after"):
        raise Fault("the terminal's modes are not as they were")
    if terminal.flags() != "01000":
        raise Fault("the terminal is not as it was found")


def walk(program, seed, count, plain):
    chance = random.Random(seed)
    folder = tempfile.mkdtemp()
    terminal = Terminal(program, folder, plain)
    slowest, quits = 0.0, 0
    try:
        terminal.wait("a first screen", terminal.is_there, 20)
        done = 0
        while done < count:
            draw = chance.random()
            try:
                if draw < 0.04:
                    terminal.resize(*chance.choice(SIZES))
                elif draw < 0.06:
                    terminal.resize(chance.randint(1, 220), chance.randint(1, 70))
                elif draw < 0.50:
                    terminal.press(chance.choice(NAMED))
                else:
                    terminal.press(chance.choice(LETTERS))
                if chance.random() < 0.1:
                    time.sleep(chance.random() * 0.3)
                done += 1
                if done % CHECK_EVERY == 0 and not plain:
                    terminal.resize(*chance.choice(SIZES[:3]))
                    slowest = max(slowest, answers(terminal))
                if terminal.ended():
                    raise Ended
            except Ended:
                has_left(terminal, "0")
                quits += 1
                terminal.begin()
                terminal.wait("a first screen", terminal.is_there, 20)
        terminal.tmux("send-keys", "-t", "walk", "C-c")
        try:
            terminal.wait("the end", lambda: False, 12)
        except Ended:
            has_left(terminal, "0" if terminal.read("exit") == "0" else "130")
        return slowest, quits
    except (Fault, Ended) as fault:
        print(f"FAILED  seed {seed} after {len(terminal.keys)} keys: {fault}")
        print(f"        last keys: {' '.join(terminal.keys[-40:])}")
        print(f"        alternate screen, cursor, mouse, keypad, cursor keys: {terminal.flags()}")
        print("\n".join("        |" + row for row in terminal.shown().splitlines()))
        return None
    finally:
        terminal.tmux("kill-server")
        shutil.rmtree(folder, ignore_errors=True)


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("program", nargs="?", default="src/BrassVox.App/bin/Debug/net10.0/brassvox")
    options.add_argument("--seeds", type=int, default=3)
    options.add_argument("--first", type=int, default=1)
    options.add_argument("--keys", type=int, default=400)
    options.add_argument("--plain", action="store_true", help="lines instead of screens: no crash, and a clean end")
    given = options.parse_args()
    failed = 0
    for seed in range(given.first, given.first + given.seeds):
        walked = walk(os.path.abspath(given.program), seed, given.keys, given.plain)
        failed += walked is None
        if walked is not None:
            slowest, quits = walked
            answered = "" if given.plain else f", F1 and Esc answered within {slowest:.1f} s"
            print(f"ok      seed {seed}: {given.keys} keys{answered}, quit and begun again {quits} times", flush=True)
    print(f"{given.seeds - failed} passed, {failed} failed")
    return 1 if failed else 0


sys.exit(main())
