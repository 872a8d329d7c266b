"""Survivors and score of mutation runs, from their JSON reports: python3 mutation_report.py [--again] REPORT.json...

Killed and timed-out mutants count as noticed; survivors and those that no test reaches as not. What did not compile, or was left out, counts as nothing.
Of several reports on the same sources, oldest first, a mutant that one of them killed is noticed, else the last that tried it counts: a later run with
further tests need only try what survived or timed out. --again prints where that stands, as patterns for such a run.
"""
import collections
import json
import os
import sys

NOT_NOTICED = ("Survived", "NoCoverage")
TRIED = ("Killed", "Timeout", *NOT_NOTICED)

again = sys.argv[1] == "--again"
mutants, sources = {}, {}
for name in sys.argv[2 if again else 1:]:
    for path, file in json.load(open(name))["files"].items():
        short = path[path.rfind("/BrassVox."):].lstrip("/")
        if sources.setdefault(short, file["source"]) != file["source"]:
            sys.exit(f"mutation_report.py: {short} is not the same in all reports")
        for mutant in file["mutants"]:
            start, end = mutant["location"]["start"], mutant["location"]["end"]
            key = short, start["line"], start["column"], end["line"], end["column"], " ".join(mutant["replacement"].split())
            if mutants.get(key) != "Killed" and (mutant["status"] in TRIED or key not in mutants):
                mutants[key] = mutant["status"]

if again:
    places = set()
    for (short, line, column, last, end, _), status in mutants.items():
        if status in ("Timeout", *NOT_NOTICED):
            begins = [0]
            for text in sources[short].split("\n"):
                begins.append(begins[-1] + len(text) + 1)
            places.add(f"{short.split('/', 1)[1]}{{{begins[line - 1] + column - 1}..{begins[last - 1] + end - 1}}}")
    sys.stdout.writelines(place + "\n" for place in sorted(places))
    sys.exit()

counts, by_file = collections.Counter(), {}
for (short, line, column, last, end, replacement), status in sorted(mutants.items()):
    counts[status] += 1
    mine = by_file.setdefault(os.path.basename(short), collections.Counter())
    mine[status] += 1
    if status in NOT_NOTICED:
        there = sources[short].splitlines()[line - 1][column - 1:end - 1 if last == line else None].strip()
        print(f"{status:<10} {os.path.basename(short)}:{line}:{column}  {there[:90]}  ->  {replacement[:90]}")


def score(mine):
    noticed, not_noticed = mine["Killed"] + mine["Timeout"], mine["Survived"] + mine["NoCoverage"]
    return f"{noticed} of {noticed + not_noticed}" + (f", {100 * noticed / (noticed + not_noticed):.1f} %" if noticed + not_noticed else "")


for name, mine in by_file.items():
    if mine["Killed"] + mine["Timeout"] + mine["Survived"] + mine["NoCoverage"]:
        print(f"{name:<28} {score(mine)}")
print(f"noticed: {score(counts)}   (survived {counts['Survived']}, no test reaches {counts['NoCoverage']}, timed out {counts['Timeout']}, do not compile {counts['CompileError']})")
