"""Reads engraved scores back: every note head's height, kind and order against the MusicXML of the same score.

A round head on the upper staff is played, a diamond on the lower one sung. The picture holds no script and points to nothing outside;
a hostile title carries nothing out. Cents stand beside one another, each under its own note. The MusicXML of an exercise is engraved
as well, by the way of LilyPond's own reader of it.
"""
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from collections import defaultdict
from pathlib import Path

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
STEPS = "CDEFGAB"
MIDDLE_LINE = {"G": 4 * 7 + 6, "F": 3 * 7 + 1}  # B4 and D3, counted in steps from C0
HOSTILE = 'title: "} #(system "touch @/carried-out") \\include "x" <script>\ntime: 3/4\nP: F2/4 Bb2/2 | C#3/2. |\nS: F#3/4. G3/8 r/4 | Ab3/2 r/4 |\n'
bad = 0


def check(what, holds):
    global bad
    bad += not holds
    print(f"{'ok     ' if holds else 'WRONG  '}{what}", flush=True)


def parts_of(path):
    return ElementTree.parse(path).getroot().findall("part")


def written(path):
    """By part: what its heads look like, and their steps above the middle line, in order."""
    parts = []
    for part in parts_of(path):
        middle = MIDDLE_LINE[part.findtext(".//clef/sign")]
        heads = defaultdict(list)
        for note in part.iter("note"):
            if note.find("pitch") is not None:
                kind = note.findtext("type")
                kind = kind if kind in ("whole", "half") else "black"
                heads[kind].append(STEPS.index(note.findtext("pitch/step")) + 7 * int(note.findtext("pitch/octave")) - middle)
        parts.append(heads)
    return parts


def engraved(text, parts):
    """By part: steps above the middle line of its staff of each shape that occurs, in order."""
    placed = r'<g transform="translate\(([-\d.]+), ([-\d.]+)\)">\s*'
    lines = sorted(float(y) for _, y, x2 in re.findall(placed + r'<line [^>]*x2="([\d.]+)"', text) if float(x2) > 20)
    staves = [lines[i + 2] for i in range(0, len(lines), 5)]
    if not staves or len(lines) % 5 or len(staves) % parts:
        return [], 0
    found = [defaultdict(list) for _ in range(parts)]
    for x, y, shape in re.findall(placed + r'<path[^>]* d="([^"]*)"', text):
        for part in range(parts):  # a low head may lie nearer to the staff below; its shape tells whose it is
            # Played notes and resultants are both round: the sung staff lies between them.
            staff = min((i for i in range(len(staves)) if i % parts % 2 == part % 2), key=lambda i: abs(staves[i] - float(y)))
            if staff % parts != part:
                continue
            found[part][shape].append((staff // parts, float(x), 2 * (staves[staff] - float(y))))
    return [{shape: [round(step, 2) for _, _, step in sorted(places)] for shape, places in shapes.items()} for shapes in found], len(staves)


def words(text):
    """Texts of cents: from where to where, on which height. DejaVu's letters are at most 0.66 of their size wide."""
    found = re.findall(r'<g transform="translate\(([-\d.]+), ([-\d.]+)\)">\s*<text [^>]*font-size="([\d.]+)"[^>]*>\s*<tspan[^>]*>\s*([^<]*? c)\s*</tspan>', text)
    return [(float(x), float(x) + 0.66 * float(size) * len(said), float(y), float(size)) for x, y, size, said in found]


def crowded(found):
    """Texts of one system over or under another: whose they are could not be told. Systems lie farther apart than four such lines."""
    return [(a, b) for i, a in enumerate(found) for b in found[i + 1:] if a[0] < b[1] and b[0] < a[1] and abs(a[2] - b[2]) < 4 * a[3]]


def read_by_another(folder):
    """The MusicXML of an exercise through musicxml2ly: an engraver that knows nothing of ours has to find its notes."""
    subprocess.run([*PROGRAM, "notation", "28", "--treble", "-o", str(folder / "other.musicxml")], check=True, stdout=subprocess.DEVNULL)
    subprocess.run(["musicxml2ly", "-o", "other.ly", "other.musicxml"], cwd=folder, check=True, capture_output=True)
    made = subprocess.run(["lilypond", "--loglevel=ERROR", "-dbackend=svg", "-dno-point-and-click", "-o", "other", "other.ly"], cwd=folder, capture_output=True, text=True)
    check(f"28 --treble: its MusicXML is engraved by the way of musicxml2ly {made.stderr.strip()}", made.returncode == 0 and made.stderr.strip() == "")
    parts = written(folder / "other.musicxml")
    shapes, staves = engraved((folder / "other.svg").read_text(), len(parts)) if made.returncode == 0 else ([], 0)
    check(f"28 --treble: read so, all heads stand where they are written, on {staves} staves",
          staves > 0 and all(any(place == steps for place in shapes[i].values()) for i, heads in enumerate(parts) for steps in heads.values()))


def main(folder):
    if not shutil.which("lilypond"):
        sys.exit("no lilypond: apt-get install lilypond")
    hostile = folder / "hostile.txt"
    hostile.write_text(HOSTILE.replace("@", str(folder)))
    for what, options in [("two-breaths-one-pipe", []), ("two-breaths-one-pipe", ["--instrument", "horn", "--voice", "high", "--resultants"]), ("28", ["--treble"]), (str(hostile), [])]:
        told = f"{Path(what).stem} {' '.join(options)}".strip()
        for form in ("svg", "musicxml"):
            subprocess.run([*PROGRAM, "notation", what, "-o", str(folder / f"score.{form}"), *options], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        text = (folder / "score.svg").read_text()
        ElementTree.fromstring(text)
        check(f"{told}: no script, nothing from outside", not re.search(r"<script|<image|href=\"(?!#)|\bon\w+=", text) and not (folder / "carried-out").exists())
        parts = written(folder / "score.musicxml")
        shapes, staves = engraved(text, len(parts))
        count = sum(len(steps) for heads in parts for steps in heads.values())
        missing = [(i, kind) for i, heads in enumerate(parts) for kind, steps in heads.items()
                   if not any(place == steps for place in (shapes[i].values() if shapes else []))]
        check(f"{told}: {count} heads on {staves} staves stand where they are written" + "".join(f"\n         not the {kind} heads of part {i + 1}" for i, kind in missing), not missing and count > 0)
        kinds = [{shape for kind, steps in heads.items() for shape, place in (shapes[i].items() if shapes else []) if place == steps and len(steps) > 1} for i, heads in enumerate(parts)]
        check(f"{told}: played and sung heads are different shapes", not kinds[0] & kinds[1])
        if "--resultants" in options:
            cents, texts = [note.text for part in parts_of(folder / "score.musicxml")[2:] for note in part.iter("words")], words(text)
            check(f"{told}: {len(texts)} texts of cents for {len(cents)} notes of the staff S-P, none over or under another", len(texts) == len(cents) > 5 and not crowded(texts))
    read_by_another(folder)


with tempfile.TemporaryDirectory() as temporary:
    main(Path(temporary))
sys.exit(bad > 0)
