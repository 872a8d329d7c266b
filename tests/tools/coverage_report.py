"""Lines and branches that tests reach, by room, and the files they reach least, from a Cobertura report: python3 coverage_report.py REPORT.xml"""
import collections
import sys
import xml.etree.ElementTree

WORST = 15
LEAST_LINES = 20

rooms, files = collections.defaultdict(collections.Counter), collections.defaultdict(dict)
for package in xml.etree.ElementTree.parse(sys.argv[1]).iter("package"):
    for one in package.iter("class"):
        for line in one.iter("line"):
            covered = int(line.get("hits")) > 0
            done, all_ways = (int(x) for x in line.get("condition-coverage", "0% (0/0)").split("(")[1].rstrip(")").split("/"))
            key = (one.get("filename"), int(line.get("number")))
            before = files[package.get("name")].get(key, (False, 0, 0))
            files[package.get("name")][key] = (before[0] or covered, max(before[1], done), max(before[2], all_ways))

total = collections.Counter()
by_file = collections.defaultdict(collections.Counter)
print(f"{'room':<24}{'lines':>16}{'branches':>18}")
for room, lines in sorted(files.items()):
    mine = collections.Counter()
    for (name, _), (covered, done, ways) in lines.items():
        for counter in (mine, total, by_file[name]):
            counter.update(lines=1, reached=covered, ways=ways, done=done)
    print(f"{room:<24}{mine['reached']:>7} {100 * mine['reached'] / mine['lines']:>6.1f} %{mine['done']:>9} {100 * mine['done'] / max(1, mine['ways']):>6.1f} %")
if not total["lines"]:
    sys.exit("coverage_report.py: the report holds no line")
print(f"{'all':<24}{total['reached']:>7} {100 * total['reached'] / total['lines']:>6.1f} %{total['done']:>9} {100 * total['done'] / max(1, total['ways']):>6.1f} %")
print(f"\nleast reached, of files with {LEAST_LINES} lines and more:")
worst = sorted((x["reached"] / x["lines"], name, x) for name, x in by_file.items() if x["lines"] >= LEAST_LINES)
for share, name, x in worst[:WORST]:
    print(f"  {100 * share:>5.1f} %  {x['reached']:>4} of {x['lines']:<4} {name[name.find('src/'):]}")
