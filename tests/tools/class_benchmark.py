"""How long a studio's handouts take, and how much memory: brassvox class for 30 students, 12 exercises each.

Usage: python3 class_benchmark.py [--students N] [--exercises N] [--workers 1,2] [--debug]
Needs `dotnet build src/BrassVox.App -c Release` first. Two studios: "one ensemble" differs as students do who play together (instrument,
voice, note names, clef, aim; one A4), "nothing shared" gives everybody a tuning of their own. Every file is looked at: whole, with its
exercises. CPU seconds are the kernel's, the engraver's included; memory is the program's largest resident size.
"""
import argparse
import itertools
import os
import re
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

EXERCISES = ["10", "11", "12", "13", "14", "15", "16", "17", "18", "19", "25", "26", "28", "20", "24"]
INSTRUMENTS = ["tuba", "euphonium", "trombone", "horn", "trumpet"]


def ensemble(count):
    """Student by student, options for profile set."""
    kinds = itertools.cycle(itertools.product(["english", "german", "solfege"], ["low", "high"], INSTRUMENTS))
    for number, (names, voice, instrument) in zip(range(count), kinds):
        yield f"{instrument.capitalize()}-{number + 1}", ["--instrument", instrument, "--voice", voice, "--note-names", names, "--a4", "442",
                                                          "--aim", ["I", "II", "III"][number % 3]]


def apart(count):
    for number, (name, options) in enumerate(ensemble(count)):
        yield name, [*options, "--a4", f"{430 + 0.5 * number}"]


def run(program, folder, students, exercises, workers):
    data = folder / "data"
    for name, options in students:
        one = {key: value for key, value in zip(options[::2], options[1::2])}
        subprocess.run([*program, "profile", "set", name, "--data", str(data), *itertools.chain(*one.items())], check=True, stdout=subprocess.DEVNULL)
    out = folder / "out"
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    child = subprocess.Popen([*program, "class", *exercises, "--data", str(data), "--output", str(out), "--workers", str(workers)],
                             stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    largest = 0
    while child.poll() is None:
        try:
            largest = max(largest, int(re.search(r"VmHWM:\s+(\d+)", Path(f"/proc/{child.pid}/status").read_text())[1]))
        except (OSError, TypeError):
            pass
        time.sleep(0.2)
    wall, after = time.monotonic() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    if child.returncode != 0:
        sys.exit(f"brassvox class ended with {child.returncode}")
    files = list(out.glob("*.html"))
    sheets = 0
    for file in files:
        text = file.read_text()
        sheets += text.count("<article ")
        if not text.endswith("</html>\n"):
            sys.exit(f"{file} is not whole")
    if len(files) != len(students) or sheets < 0.8 * len(students) * len(exercises):
        sys.exit(f"{len(files)} files with {sheets} exercises for {len(students)} students")
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    print(f"{workers} worker{'s' if workers > 1 else ' '}  {len(files)} handouts, {sheets} exercises, {sum(f.stat().st_size for f in files) / 1e6:.0f} MB: "
          f"{wall:.0f} s, {cpu:.0f} s CPU ({cpu / sheets:.2f} an exercise), at most {largest / 1024:.0f} MB resident", flush=True)


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--students", type=int, default=30)
    options.add_argument("--exercises", type=int, default=12)
    options.add_argument("--workers", default="1,2")
    options.add_argument("--studio", choices=["ensemble", "apart", "both"], default="both")
    options.add_argument("--debug", action="store_true")
    asked = options.parse_args()
    program = ["dotnet", f"src/BrassVox.App/bin/{'Debug' if asked.debug else 'Release'}/net10.0/brassvox.dll"]
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
    for name, title, make in [("ensemble", "one ensemble", ensemble), ("apart", "nothing shared", apart)]:
        if asked.studio not in (name, "both"):
            continue
        print(title)
        for workers in map(int, asked.workers.split(",")):
            with tempfile.TemporaryDirectory() as folder:
                run(program, Path(folder), list(make(asked.students)), EXERCISES[:asked.exercises], workers)


main()
