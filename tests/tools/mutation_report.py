"""Survivors and score of a mutation run, from its JSON report: python3 mutation_report.py REPORT.json

Killed and timed-out mutants count as noticed; survivors and those that no test reaches as not. What did not compile, or was left out, counts as nothing.
"""
import collections
import json
import os
import sys

report = json.load(open(sys.argv[1]))
counts, by_file = collections.Counter(), {}
for path, file in sorted(report["files"].items()):
    lines = file["source"].splitlines()
    for mutant in file["mutants"]:
        status = mutant["status"]
        counts[status] += 1
        mine = by_file.setdefault(os.path.basename(path), collections.Counter())
        mine[status] += 1
        if status in ("Survived", "NoCoverage"):
            start, end = mutant["location"]["start"], mutant["location"]["end"]
            there = lines[start["line"] - 1][start["column"] - 1:end["column"] - 1 if end["line"] == start["line"] else None].strip()
            print(f"{status:<10} {os.path.basename(path)}:{start['line']}:{start['column']}  {there[:90]}  ->  {' '.join(mutant['replacement'].split())[:90]}")


def score(mine):
    noticed, not_noticed = mine["Killed"] + mine["Timeout"], mine["Survived"] + mine["NoCoverage"]
    return f"{noticed} of {noticed + not_noticed}" + (f", {100 * noticed / (noticed + not_noticed):.1f} %" if noticed + not_noticed else "")


for name, mine in by_file.items():
    if mine["Killed"] + mine["Timeout"] + mine["Survived"] + mine["NoCoverage"]:
        print(f"{name:<28} {score(mine)}")
print(f"noticed: {score(counts)}   (survived {counts['Survived']}, no test reaches {counts['NoCoverage']}, timed out {counts['Timeout']}, do not compile {counts['CompileError']})")
