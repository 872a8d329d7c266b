"""Runs every command printed in a Markdown file and compares what it prints.

Usage: python3 readme_tour.py README.md

Blocks fenced as ```console hold lines "$ command" and, below each, the output expected. A line "..." stands for any lines.
Blocks fenced as ```sh hold commands whose output is not compared. Commands that need a terminal or a device carry the
comment "# by hand" and are skipped here; they are walked through elsewhere. All run with the repository root as folder
and in an order that lets a later one use a file an earlier one wrote; files named *.wav and the like that appear in the root
are removed afterwards.
"""
import os
import re
import shutil
import subprocess
import sys


def blocks(text):
    for kind, body in re.findall(r"^```(console|sh)\n(.*?)^```$", text, flags=re.M | re.S):
        yield kind, body.splitlines()


def commands(kind, lines):
    if kind == "sh":
        for line in lines:
            if line.strip():
                yield line, None
        return
    command, expected = None, []
    for line in lines:
        if line.startswith("$ "):
            if command:
                yield command, expected
            command, expected = line[2:], []
        elif command:
            expected.append(line)
    if command:
        yield command, expected


# LilyPond's notes are a hundredth of a MB and fonts' pictures a few; a size printed to a tenth may differ by one.
MB_APART = 0.1


def matches(expected, got):
    """True when the lines are those expected; a line "..." stands for any, and sizes in MB may differ by MB_APART."""
    size = re.compile(r"(\d+\.\d) MB")
    pattern = "".join(
        r"(?:.*\n)*?" if line.strip() == "..."
        else r"(\d+\.\d) MB".join(re.escape(part) for part in size.split(line.rstrip())[::2]) + r"[ \t]*\n"
        for line in expected)
    found = re.fullmatch(pattern, "".join(line.rstrip() + "\n" for line in got))
    sizes = [float(mb) for line in expected if line.strip() != "..." for mb in size.findall(line.rstrip())]
    return found is not None and all(abs(float(one) - other) <= MB_APART + 1e-9 for one, other in zip(found.groups(), sizes))


def main(path):
    before = set(os.listdir("."))
    ran = bad = 0
    for kind, lines in blocks(open(path, encoding="utf-8").read()):
        for command, expected in commands(kind, lines):
            if "# by hand" in command or command.strip().startswith(("git clone", "cd ", "dotnet test")):
                continue
            # README names the installed program; here it is the one just built.
            script = "brassvox() { dotnet src/BrassVox.App/bin/Debug/net10.0/brassvox.dll \"$@\"; }\n" + command
            run = subprocess.run(["bash", "-c", script], capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=300)
            ran += 1
            got = run.stdout.splitlines()
            if run.returncode != 0 or (expected is not None and not matches(expected, got)):
                bad += 1
                print(f"NOT AS PRINTED: {command}\n  exit {run.returncode}\n  " + "\n  ".join(got + run.stderr.splitlines()))
    for name in set(os.listdir(".")) - before:
        if name.endswith((".wav", ".csv", ".json", ".html")):
            os.remove(name)
        elif os.path.isdir(name):
            shutil.rmtree(name)
    print(f"{ran} commands ran, {bad} not as printed")
    return 1 if bad or not ran else 0


sys.exit(main(sys.argv[1]))
