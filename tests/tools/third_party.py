"""The list of other people's packages that are handed out with the program, from what was restored.

Usage: python3 third_party.py [--write]     (from the repository's root, after a build)

Reads what the program's project resolved to and each package's own description. Without --write it compares with the list that is kept, and
with what may be handed out: a package without a licence, or with one that is not known here, fails. The last line is "N passed, N failed".
"""
import glob
import json
import os
import re
import sys
import xml.etree.ElementTree as ET

ASSETS = "src/BrassVox.App/obj/project.assets.json"
LIST = "src/BrassVox.App/THIRD-PARTY.md"
# Licences that let a program be handed out with a notice.
KNOWN = {"MIT", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "MS-PL", "ISC", "public domain"}


def described(folder):
    """Licence and copyright in the words of the package."""
    root = ET.parse(glob.glob(f"{folder}/*.nuspec")[0]).getroot()
    found = {}
    for element in root.iter():
        found.setdefault(element.tag.split("}")[-1], element)
    licence = found.get("license")
    words = ""
    if licence is not None and licence.get("type") == "expression":
        words = licence.text.strip()
    else:
        # A file of the package, or none: told by its first words.
        names = [licence.text.strip().replace("\\", "/")] if licence is not None else ["LICENSE", "LICENSE.txt", "LICENSE.md", "License.txt"]
        text = "".join(open(f"{folder}/{name}", errors="replace").read() for name in names if os.path.exists(f"{folder}/{name}"))
        flat = re.sub(r"\s+", " ", text)
        words = ("MIT" if "Permission is hereby granted, free of charge" in flat else "Apache-2.0" if "Apache License" in flat
                 else "BSD-3-Clause" if "Redistribution and use in source and binary forms" in flat and "Neither the name" in flat
                 else "BSD-2-Clause" if "Redistribution and use in source and binary forms" in flat else "public domain" if "is Public Domain" in flat else "")
        if not words and found.get("licenseUrl") is not None and re.search(r"/(mit|MIT)\b", found["licenseUrl"].text or ""):
            words = "MIT"
    copyright = found["copyright"].text or "" if "copyright" in found else ""
    return words, re.sub(r"\s+", " ", copyright).strip() or (found["authors"].text or "").strip()


assets = json.load(open(ASSETS))
homes = list(assets["packageFolders"])
rows, problems = [], []
for name, library in sorted(assets["libraries"].items(), key=lambda item: item[0].lower()):
    if library["type"] != "package":
        continue
    folder = next(f"{home}{library['path']}" for home in homes if os.path.isdir(f"{home}{library['path']}"))
    licence, copyright = described(folder)
    package, version = name.split("/")
    rows.append(f"| {package} | {version} | {licence} | {copyright.replace('|', '/')} |")
    if licence not in KNOWN:
        problems.append(f"{name}: licence \"{licence}\" is not one that is known here")
text = "\n".join([
    "# Packages of others in this program", "",
    "Made by `tests/tools/third_party.py --write` from the packages' own descriptions. An executable with the runtime holds that of .NET as well (MIT).", "",
    "| package | version | licence | copyright or authors |", "|---|---|---|---|", *rows, ""])
if "--write" in sys.argv:
    open(LIST, "w").write(text)
kept = open(LIST).read() if os.path.exists(LIST) else ""
if kept != text:
    problems.append(f"{LIST} is not what was restored: python3 tests/tools/third_party.py --write")
for problem in problems:
    print(f"FAILED  {problem}")
print(f"{len(rows)} packages")
print(f"{len(rows) + 1 - len(problems)} passed, {len(problems)} failed")
sys.exit(1 if problems or not rows else 0)
