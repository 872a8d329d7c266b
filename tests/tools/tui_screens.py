"""Every screen in a real terminal (tmux), in every theme and size, kept as text and looked at by rule.

    tui_screens.py [PROGRAM] [--to FOLDER] [--sizes 80x24,92x24,200x60] [--modes dark,light,none,ascii] [--at-once N]

Each screen goes to FOLDER/SIZE-MODE/NAME.txt, with its colours to NAME.ansi. Of each it is checked that
- its first row begins with its name, and its last two rows say how to get help, or to leave where all keys type;
- no text runs over the right edge: in a window twelve columns wider, where that is among the sizes, no row goes on with the same word;
- it fills no more rows and columns than there are, holds no two-column sign, and cuts no text short with an ellipsis;
- what can hurt stands there whole, under whatever message.
Dark and without colour the same text stands on every screen that does not move. Of all that a run sends: in ASCII no byte over 0x7E;
without colour no escape that sets one; at the end nothing on stderr. Each run has its own data folder, without sound devices, and the
invented ensemble; N of them at once. The last line is "N passed, N failed".
Needs tmux, nothing else.
"""
import argparse
import concurrent.futures
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import unicodedata

WIDER = 12
ALL_PANELS = 44
ALL_COLUMNS = 130
COLOUR = re.compile(rb"\x1b\[(?:[0-9;:]*[;:])?(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:[;:][0-9;:]*)?m")
HELP = ("h keys", "F1 keys", "F1: keys")
# Where nothing but a line being typed, the list of keys itself or a blanked stage stands.
HELPLESS = {"keys", "keys-found", "box-pair", "box-file", "stage-blank", "too-small"}
# What moves, and what chance decides, differs from run to run.
RUNS = ("box-pair", "play-cue", "play-dark", "listen-", "stage-landing", "stage-spotlight", "section-answered")
# Sentences that have to stand there whole.
WHOLE = {
    "welcome": ["Stop at pain, scratch or lost high notes", "ask a physician before long, loud or high notes.", "Dizzy: stop and sit down."],
    "listen": ["Start quietly; one ear free."],
    "play": ["Stop at pain, scratch or lost high notes; hoarse for weeks: see a laryngologist."],
    "play-ready": ["one ear stays free. Care:", "five minutes, then as much rest; stop at pain"],
    "set-up": ["Headphones keep the drone out of the microphone. One ear stays free."],
    "body": ["Hoarse for weeks: see a laryngologist. Dizzy: sit down."],
}

# name, keys before, what the first row begins with. A number is a pause in seconds, a tuple a text that has to stand there first, with
# "low" where only a low window has it, "large" where a high and wide one does.
OWN = [
    ("welcome", [("no sound",), ("h keys",)], "WELCOME"),
    ("welcome-answers", ["Enter", 0.6, "Down"], "WELCOME"),
    ("start", ["Escape", ("VOICE",), ("none yet",)], "START"),
    ("explore", ["1"], "EXPLORE"),
    ("explore-sounding", ["Enter", 0.6], "EXPLORE"),
    ("explore-breath", ["a", ("+20 c", "low")], "EXPLORE"),
    ("explore-approach", ["a", ("APPROACH", "low")], "EXPLORE"),
    ("explore-far", ["a", ("BEATS  a second", "low")], "EXPLORE"),
    ("box-pair", ["a", "n", ("name a pair",)], "EXPLORE"),
    ("keys", ["Escape", "h"], "KEYS"),
    ("listen", ["Escape", "Escape", "2", ("not yet", "large")], "LISTEN"),
    ("listen-ready", ["4", "Enter", ("trial 1",)], "LISTEN"),
    ("listen-sounding", ["Enter", 0.8], "LISTEN"),
    ("listen-answered", ["Enter", 0.3, "Enter", 0.3, "Enter", 6.0, "Enter", ("It was",)], "LISTEN"),
    ("listen-choice", ["Escape", "1", "Enter", ("trial 1",), "Enter", 0.5], "LISTEN"),
    ("listen-adjust", ["Escape", "6", "Enter", ("trial 1",), "Enter", 0.5], "LISTEN"),
    ("section", ["Escape", "n"], "SECTION"),
    ("section-trials", ["Down", "Enter"], "SECTION, WHO IS OFF"),
    ("section-asked", ["Enter"], "SECTION, WHO IS OFF"),
    ("section-answered", ["1"], "SECTION, WHO IS OFF"),
    ("play", ["Escape", "Escape", "Escape", "3", ("not yet", "large")], "PLAY ALONG"),
    ("play-ready", ["1", "4", "Enter", ("begin",)], "PLAY ALONG"),
    ("play-cue", ["Enter", ("BEGIN IN",)], "PLAY ALONG"),
    ("play-dark", [("SECONDS LEFT",)], "PLAY ALONG"),
    ("play-sentence", ["Enter", ("finish the sentence",)], "PLAY ALONG"),
    ("play-reveal", ["2", "1", "1", "1", "1", ("NEXT",)], "PLAY ALONG"),
    ("body", ["y", ("NOTED", "large")], "BODY"),
    ("passage", ["Escape", "Escape", "Escape", "4", ("HELP LEFT",)], "PASSAGE"),
    ("passage-text", ["n", ("line 7, column 1",)], "PASSAGE, AS TEXT"),
    ("box-file", ["Escape", "Up", "Up", "Enter", ("Path of a passage",)], "PASSAGE"),
    ("takes", ["Escape", "Escape", "5", ("kept here",)], "TAKES"),
    ("set-up", ["Escape", "8", ("1 SPEAKER",)], "SET-UP"),
    ("set-up-marks", ["Tab", "Tab", "Tab", "Tab", ("▸ 5 delay",)], "SET-UP"),
    ("stage", ["Escape", "7"], "STAGE"),
    ("stage-fifth", ["Enter", "2", 0.4], "STAGE"),
    ("stage-grain", ["4", 0.4], "STAGE"),
    ("stage-landing", ["6", 0.4], "STAGE"),
    ("stage-spotlight", ["Tab"], "STAGE"),
    ("stage-blank", ["b"], ""),
]
DEMO = [
    ("demo-start", [("VOICE",), ("kept on this machine",)], "START"),
    ("demo-takes", ["5", ("kept here",)], "TAKES"),
    ("demo-map", ["Tab", ("Tab list",)], "TAKES"),
    ("demo-take", ["Tab", ("Tab map",), "Enter", ("AS ASKED?",)], "TAKE"),
    ("demo-two-takes", ["Escape", ("WHERE IT FAILS",), "k", "Down", "k", ("EARLIER",), 0.4], "TWO TAKES"),
    ("demo-players", ["Escape", "Escape", "5", ("kept here",), "Left", "Left", "Enter", ("lowest sung",)], "PLAYERS"),
    ("demo-plan", ["Escape", "Escape", "6", ("days a week",)], "PLAN"),
]
MODES = {
    "dark": ([], {}),
    "light": ([], {}),
    "none": ([], {"NO_COLOR": "1"}),
    "ascii": (["--ascii"], {}),
}


class Walk:
    def __init__(self, program, folder, keep, size, mode):
        self.program, self.folder, self.keep, self.mode = program, folder, keep, mode
        self.columns, self.rows = (int(part) for part in size.split("x"))
        self.where = f"{size} {mode}"
        self.socket = f"brassvox-screens-{os.getpid()}-{size}-{mode}"
        self.seen, self.news, self.last = {}, {}, []
        self.passed, self.faults = 0, []

    def tmux(self, *arguments):
        return subprocess.run(["tmux", "-L", self.socket, "-f", "/dev/null", *arguments], capture_output=True, text=True, check=False).stdout

    def shown(self, colours=False):
        return self.tmux("capture-pane", "-t", "walk", "-p", *(["-e"] if colours else [])).split("\n")

    def check(self, what, holds):
        if holds:
            self.passed += 1
        else:
            self.faults.append(f"{self.where}: {what}")

    def begin(self, *arguments):
        self.tmux("kill-server")
        time.sleep(0.2)
        flags, variables = MODES[self.mode]
        setting = " ".join(f"{name}={value}" for name, value in variables.items())
        command = (f"env LC_ALL=C.UTF-8 TERM=tmux-256color COLORTERM=truecolor BRASSVOX_DATA={self.folder}/data ALSA_CONFIG_PATH=/dev/null "
                   f"PULSE_SERVER=unix:/nonexistent {setting} '{self.program}' {' '.join([*flags, *arguments])} "
                   f"2>{self.folder}/errors; echo $? >{self.folder}/exit; sleep 600")
        self.tmux("new-session", "-d", "-s", "walk", "-x", str(self.columns), "-y", str(self.rows), "sleep 0.3; " + command)
        self.tmux("pipe-pane", "-t", "walk", f"cat >>{self.folder}/sent")

    def stands(self, text, seconds=25):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if any(text in row for row in self.shown()):
                return True
            time.sleep(0.05)
        return False

    def settle(self):
        """Waits until two looks in a row are the same, at most half a second: what moves goes on moving."""
        before = None
        for _ in range(8):
            now = self.shown()
            if now == before:
                return now
            before = now
            time.sleep(0.06)
        return before

    def room(self):
        return re.match("[A-Z,-]*( [A-Z,-]+)*", self.shown()[0]).group()

    def until(self, holds, seconds):
        end = time.monotonic() + seconds
        while time.monotonic() < end and not holds():
            time.sleep(0.04)

    def walk(self, screens):
        for name, keys, title in screens:
            for key in keys:
                if isinstance(key, tuple) and (("low" in key[1:] and self.rows >= ALL_PANELS)
                                               or ("large" in key[1:] and (self.rows < ALL_PANELS or self.columns < ALL_COLUMNS))):
                    continue
                if isinstance(key, tuple):
                    text = key[0].replace("▸", ">") if self.mode == "ascii" else key[0]
                    self.check(f"{name}: waits for {text}", self.stands(text))
                elif isinstance(key, float):
                    time.sleep(key)
                else:
                    room, before = self.room(), self.shown()
                    self.tmux("send-keys", "-t", "walk", key)
                    time.sleep(0.14)
                    if key == "Escape":
                        # Terminals hold Esc back, to see whether a sequence follows: on a busy machine a key right after it makes Alt with it.
                        self.until(lambda: self.room() != room, 1.5)
                        self.until(lambda: self.shown() != before, 6)
            self.check(f"{name}: the first row begins with {title}", title == "" or self.stands(title, 5))
            self.look(name, title)

    def look(self, name, title):
        self.until(lambda: self.shown() != self.last, 1)
        rows = self.last = self.settle()
        place = f"{self.keep}/{self.columns}x{self.rows}-{self.mode}"
        os.makedirs(place, exist_ok=True)
        with open(f"{place}/{name}.txt", "w", encoding="utf-8") as file:
            file.write("\n".join(rows))
        with open(f"{place}/{name}.ansi", "w", encoding="utf-8") as file:
            file.write("\n".join(self.shown(colours=True)))
        self.check(f"{name}: the first row begins with {title}: {rows[0]}", rows[0].startswith(title))
        foot = " ".join(rows[self.rows - 2:self.rows])
        self.check(f"{name}: says how to get help: {foot}", name in HELPLESS or any(way in foot for way in HELP))
        self.check(f"{name}: one column a sign", all(unicodedata.east_asian_width(sign) not in "WF" for row in rows for sign in row))
        self.check(f"{name}: within {self.columns} columns", all(len(row) <= self.columns for row in rows) and len(rows) <= self.rows + 1)
        self.check(f"{name}: nothing cut short", not any("…" in row for row in rows))
        text = " ".join(" ".join(rows).split())
        for sentence in WHOLE.get(name, []):
            self.check(f"{name}: holds \"{sentence}\"", sentence in text)
        if name.startswith(RUNS):
            return
        self.news[name] = rows[self.rows - 2]
        # The swell moves on, takes are dated, and messages go after a while.
        self.seen[name] = [re.sub(r"\d\d:\d\d", "--:--", row) for y, row in enumerate(rows) if not row.startswith("SWELL") and y != self.rows - 2]

    def end(self):
        self.tmux("send-keys", "-t", "walk", "C-c")
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

    def whole(self, invented):
        """The player's own screens, then those of the invented ensemble."""
        os.makedirs(self.folder)
        try:
            self.begin()
            self.check("WELCOME comes first", self.stands("WELCOME"))
            if self.mode == "light":
                self.tmux("send-keys", "-t", "walk", "t")
            self.walk(OWN)
            self.end()
            shutil.copytree(invented, f"{self.folder}/data/demo")
            self.begin("--demo")
            if self.mode == "light" and self.stands("START"):
                self.tmux("send-keys", "-t", "walk", "t")
            self.walk(DEMO)
            self.end()
        finally:
            self.tmux("kill-server")
        return self

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
    parser.add_argument("--sizes", default="80x24,92x24,200x60")
    parser.add_argument("--modes", default=",".join(MODES))
    parser.add_argument("--at-once", type=int, default=3)
    given = parser.parse_args()
    program = os.path.abspath(given.program)
    work = tempfile.mkdtemp()
    keep = os.path.abspath(given.to) if given.to else f"{work}/screens"
    passed, faults = 0, []
    try:
        subprocess.run([program, "demo", "--data", f"{work}/invented"], capture_output=True, check=True)
        walks = [Walk(program, f"{work}/{size}-{mode}", keep, size, mode) for size in given.sizes.split(",") for mode in given.modes.split(",")]
        with concurrent.futures.ThreadPoolExecutor(given.at_once) as crew:
            for walk in crew.map(lambda walk: walk.whole(f"{work}/invented/demo"), walks):
                passed += walk.passed
                faults += walk.faults
                print(f"{walk.where}: {walk.passed} passed, {len(walk.faults)} failed", flush=True)
        seen = {walk.where: walk.seen for walk in walks}
        for walk in walks:
            for name, wide in seen.get(f"{walk.columns + WIDER}x{walk.rows} {walk.mode}", {}).items():
                walks_on = [row for row, wider in zip(walk.seen.get(name, []), wide) if len(row) >= walk.columns - 1 and len(wider) > len(row)
                            and wider.startswith(row) and row[-1:].isalnum() and wider[len(row)].isalnum()]
                faults += [f"{walk.where}: {name}: cut at the right edge: {row}" for row in walks_on[:1]]
                passed += not walks_on
        for where, screens in seen.items():
            plain = seen.get(where.replace(" dark", " none"), {})
            for name in screens if where.endswith(" dark") else []:
                if name in plain and screens[name] != plain[name]:
                    news = [walk.news[name] for walk in walks if walk.where in (where, where.replace(" dark", " none"))]
                    faults.append(f"{where}: {name} reads otherwise without colour: {[pair for pair in zip(screens[name], plain[name]) if pair[0] != pair[1]][:2]}, said meanwhile: {news}")
                passed += name in plain
    finally:
        shutil.rmtree(work, ignore_errors=True)
    for fault in faults:
        print(f"FAILED  {fault}")
    print(f"{passed} passed, {len(faults)} failed")
    return 1 if faults else 0


sys.exit(main())
