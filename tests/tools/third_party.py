"""The list of other people's packages that are handed out with the program, from what was restored, and their licences' texts beside it.

Usage: python3 third_party.py [--write] [FOLDER...]     (from the repository's root, after a build)

Reads what the program's project resolved to and each package's own description. Without --write it compares with the list that is kept, and
with what may be handed out: a package without a licence, or with one that is not known here, fails. In each FOLDER made for takers (the built
program's own, unless given) every package must have its licence's text: the file that came with it, to the byte, or else the licence's standard
text; where the runtime lies too (no runtimeconfig.json beside the program), the runtime's. The last line is "N passed, N failed".
"""
import glob
import itertools
import json
import os
import re
import sys
import xml.etree.ElementTree as ET

ASSETS = "src/BrassVox.App/obj/project.assets.json"
LIST = "src/BrassVox.App/THIRD-PARTY.md"
# Licences that let a program be handed out with a notice.
BUILT = "src/BrassVox.App/bin/Debug/net10.0"
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


# What the full text of a licence cannot be without.
WORDS = {
    "MIT": ["Permission is hereby granted, free of charge", "shall be included in all copies or substantial portions"],
    "Apache-2.0": ["TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION", "END OF TERMS AND CONDITIONS"],
    "BSD-2-Clause": ["Redistributions of source code must retain", "Redistributions in binary form must reproduce"],
    "BSD-3-Clause": ["Redistributions of source code must retain", "Redistributions in binary form must reproduce", "Neither the name"],
    "public domain": ["Public Domain"],
}


def own_files(folder):
    """The files in which a package itself tells its licence or those of what it holds."""
    found = itertools.chain(glob.glob(f"{folder}/*"), glob.glob(f"{folder}/Notices/*"))
    return [path for path in found if os.path.isfile(path) and re.match("licen|.*notice", os.path.basename(path), re.I)]


def text_missing(place, package, licence, folder):
    """What a folder that is handed out lacks of a package's licence, or nothing."""
    whole = ""
    for path in own_files(folder):
        copy = f"{place}/Licences/{package}/{os.path.basename(path)}"
        if not os.path.exists(copy):
            return f"{copy} is missing"
        if open(copy, "rb").read() != open(path, "rb").read():
            return f"{copy} is not the package's own"
        whole += open(copy, errors="replace").read()
    standard = f"{place}/Licences/{licence}.txt"
    if os.path.exists(standard):
        whole += open(standard).read()
    flat = re.sub(r"\s+", " ", whole)
    lacks = [words for words in WORDS.get(licence, ["?"]) if words not in flat]
    return f"no text of {licence} with the words \"{lacks[0]}\" in {place}/Licences" if lacks else None


assets = json.load(open(ASSETS))
homes = list(assets["packageFolders"])
rows, problems, texts = [], [], 0
places = [argument for argument in sys.argv[1:] if argument != "--write"] or [BUILT]
for name, library in sorted(assets["libraries"].items(), key=lambda item: item[0].lower()):
    if library["type"] != "package":
        continue
    folder = next(f"{home}{library['path']}" for home in homes if os.path.isdir(f"{home}{library['path']}"))
    licence, copyright = described(folder)
    package, version = name.split("/")
    rows.append(f"| {package} | {version} | {licence} | {copyright.replace('|', '/')} |")
    if licence not in KNOWN:
        problems.append(f"{name}: licence \"{licence}\" is not one that is known here")
    for place in places:
        texts += 1
        missing = text_missing(place, package, licence, folder)
        if missing:
            problems.append(f"{name}: {missing}")
for place in places:
    if not os.path.exists(f"{place}/brassvox.runtimeconfig.json"):
        texts += 1
        runtime = "".join(open(path, errors="replace").read() for path in glob.glob(f"{place}/Licences/Microsoft.NETCore.App/*"))
        if any(words not in re.sub(r"\s+", " ", runtime) for words in WORDS["MIT"]):
            problems.append(f"the runtime: its licence is not in {place}/Licences/Microsoft.NETCore.App")
text = "\n".join([
    "# Packages of others in this program", "",
    "Made by `tests/tools/third_party.py --write` from the packages' own descriptions. An executable with the runtime holds that of .NET as well (MIT).",
    "The texts lie in the folder `Licences` beside this file: what a package brought, in a folder of its name; else its licence's standard text.", "",
    "| package | version | licence | copyright or authors |", "|---|---|---|---|", *rows, ""])
if "--write" in sys.argv:
    open(LIST, "w").write(text)
kept = open(LIST).read() if os.path.exists(LIST) else ""
if kept != text:
    problems.append(f"{LIST} is not what was restored: python3 tests/tools/third_party.py --write")
for problem in problems:
    print(f"FAILED  {problem}")
print(f"{len(rows)} packages, {texts} licence texts")
print(f"{len(rows) + texts + 1 - len(problems)} passed, {len(problems)} failed")
sys.exit(1 if problems or not rows else 0)
