"""Writes a handout and looks at it as its reader's browser does, apart from the code that wrote it.

Asked: every src and href is data: or a place on the page; headless Chromium loads it without a word on its console and without
a request; every picture has a size; five audio elements an exercise, decoded by ffmpeg, the first three as long as the take and
the others longer by cue and count; nothing wider than a screen of 500 pixels; a hostile title stays text; axe-core, when npm can
fetch it, finds no serious or critical fault. The same of the review of a take: one audio element, as long as the take and without the
count before it, also of one at 44.1 kHz; none where it was not asked for.
"""
import base64
import json
import re
import shutil
import subprocess
import sys
import tempfile
from html.parser import HTMLParser
from pathlib import Path

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
AXE = "axe-core@4.10.3"
EXERCISES = ["14", "19"]
PLAYER = "Tuba-1"  # of the invented ensemble: a player with takes
TITLE = '</title><script>console.error("carried out")</script> "two" & <b>one</b>'
TAKE = "14"
TAKE_CENTS = 20  # how high the voice of the take is
LONGEST_TAIL = 1.5  # seconds that tones may ring on after the take
bad = 0


def check(what, holds):
    global bad
    bad += not holds
    print(f"{'ok     ' if holds else 'WRONG  '}{what}", flush=True)


class Page(HTMLParser):
    def __init__(self, text):
        super().__init__()
        self.addresses, self.audio, self.ids, self.tags, self.unnamed = [], [], set(), [], 0
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        self.tags.append(tag)
        self.addresses += [attrs[name] for name in ("src", "href", "poster", "srcset", "action") if name in attrs]
        self.ids.add(attrs.get("id"))
        if tag == "audio":
            self.audio.append(attrs["src"])
            self.unnamed += "controls" not in attrs or not attrs.get("aria-label")
        if tag == "img":
            self.unnamed += not attrs.get("alt")


def seconds(address, place):
    place.write_bytes(base64.b64decode(address.split(",", 1)[1], validate=True))
    raw = subprocess.run(["ffmpeg", "-v", "error", "-i", str(place), "-ac", "1", "-ar", "48000", "-f", "s16le", "-"], capture_output=True, check=True).stdout
    return len(raw) / 2 / 48000, any(raw)


def take_seconds(exercise):
    shown = json.loads(subprocess.check_output(PROGRAM + ["exercise", "show", exercise, "--json"]))
    plan = json.loads(next(Path("presets/exercises").glob(f"*{shown['id']}.json")).read_text())
    steps = [step["durationSeconds"] for step in shown["steps"]]
    return sum(steps) + (len(steps) - 1) * plan["playAlong"].get("gapSeconds", 0)


def browse(html, folder, *options):
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or sys.exit("no chromium: apt-get install chromium")
    return subprocess.run(
        [chromium, "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder}/chromium", "--enable-logging=stderr", "--v=0",
         "--virtual-time-budget=8000", *options, html.as_uri()], capture_output=True, text=True, timeout=90)


def probed(html, folder, script, *options):
    """What a script added at the end of a copy of the page found: it is left in an element of its own."""
    copy = folder / "probed.html"
    copy.write_text(html.read_text().replace("</body>", f"{script}</body>"))
    found = re.search(r'<pre id="probe">(.*?)</pre>', browse(copy, folder, "--dump-dom", *options).stdout, re.S)
    return json.loads(base64.b64decode(found[1])) if found else None


REPORT = "const tell=v=>{const p=document.createElement('pre');p.id='probe';p.textContent=btoa(unescape(encodeURIComponent(JSON.stringify(v))));document.body.append(p)};"


def axe(folder):
    if not shutil.which("npm"):
        return None
    ran = subprocess.run(["npm", "install", "--silent", "--no-audit", "--no-fund", "--ignore-scripts", "--fetch-retries=0", "--fetch-timeout=15000", "--prefix", str(folder), AXE],
                         capture_output=True, text=True, timeout=60)
    script = folder / "node_modules/axe-core/axe.min.js"
    return script.read_text() if ran.returncode == 0 and script.exists() else None


def main(folder):
    html = folder / "handout.html"
    subprocess.run(PROGRAM + ["demo", "--data", str(folder)], check=True, capture_output=True)
    subprocess.run(PROGRAM + ["handout", *EXERCISES, "--title", TITLE, "--data", str(folder), "--demo", "--player", PLAYER, "--output", str(html)], check=True, stdout=subprocess.DEVNULL)
    text = html.read_text()
    page = Page(text)
    check(f"{len(page.addresses)} addresses, all data: or on the page", page.addresses and all(
        a.startswith("data:") or (a.startswith("#") and a[1:] in page.ids) for a in page.addresses) and "url(" not in text and "@import" not in text)
    check("a hostile title stays text; no script, no element of it", not {"script", "b"} & set(page.tags))
    check("every player has controls and a name, every picture its words", page.unnamed == 0)

    drawn = re.findall(r'<svg role="img" aria-labelledby="(\w+) (\w+)"', text)
    check(f"{len(drawn)} courses of the player's takes are drawn, each with a title and a text in its place", drawn and all(f'<title id="{t}">' in text and f'<desc id="{d}">' in text for t, d in drawn))

    check(f"{len(page.audio)} audio elements for {len(EXERCISES)} exercises", len(page.audio) == 5 * len(EXERCISES))
    for i, exercise in enumerate(EXERCISES):
        take = take_seconds(exercise)
        lengths = [seconds(address, folder / "sound.opus") for address in page.audio[5 * i:5 * i + 5]]
        told = ", ".join(f"{length:.2f}" for length, _ in lengths)
        check(f"exercise {exercise}: {told} s for a take of {take:.2f} s", all(
            sounds and take <= length - (0 if n < 3 else 2) and (n >= 3 or length <= take + LONGEST_TAIL) for n, (length, sounds) in enumerate(lengths)))
        check(f"exercise {exercise}: tracks of a kind end together", len({f"{l:.2f}" for l, _ in lengths[:3]}) == len({f"{l:.2f}" for l, _ in lengths[3:]}) == 1)

    rules = axe(folder)
    if rules is None:
        print(f"skipped {AXE}: npm is not there or cannot fetch it")
    look(html, folder, len(page.audio), len(EXERCISES), rules)
    a_take(folder, rules)


def a_take(folder, rules):
    """A take at 44.1 kHz with a second of something else before it, kept and handed out."""
    html, data = folder / "take.html", ["--data", str(folder / "taker")]
    run = lambda *words: subprocess.run([*PROGRAM, *words], check=True, capture_output=True, text=True)
    run("profile", "set", "Horn-4", "--instrument", "horn", "--voice", "high", "--note-names", "german", *data)
    run("profile", "use", "Horn-4", *data)
    shown = json.loads(run("exercise", "show", TAKE, "--instrument", "horn", "--voice", "high", "--json").stdout)
    run("render", shown["played"], shown["sung"], "--tuning", "just", "--detune-sung", str(TAKE_CENTS), "--seconds", "30", "--output", str(folder / "whole.wav"))
    subprocess.run(["ffmpeg", "-v", "error", "-y", "-i", str(folder / "whole.wav"), "-ar", "44100", str(folder / "take.wav")], check=True)
    run("exercise", "run", TAKE, "--input", str(folder / "take.wav"), "--start", "1", "--keep", *data)
    run("handout", "--take", "last", "--no-takes", "--output", str(html), *data)
    check("a take goes out without its sound where that was not asked for", not Page(html.read_text()).audio)
    run("handout", "--take", "last", "--with-sound", "--output", str(html), *data)
    page = Page(html.read_text())
    asked = take_seconds(TAKE)
    heard, sounds = seconds(page.audio[0], folder / "sound.opus")
    check(f"a take of {asked:.2f} s sounds for {heard:.2f} s, without the second before it", len(page.audio) == 1 and sounds and asked <= heard <= asked + LONGEST_TAIL)
    told = re.search(r'<th scope="row">Sung</th><td>\+(\d+)&nbsp;c</td>', html.read_text())
    check(f"its sung tone, {TAKE_CENTS} c high, is told {told and told[1]} c high", told and abs(int(told[1]) - TAKE_CENTS) <= 2)
    look(html, folder, 1, 1, rules)


def look(html, folder, sounds, pictures, rules):
    loaded = browse(html, folder, "--dump-dom")
    spoken = [line for line in loaded.stderr.splitlines() if ":CONSOLE" in line]
    check("loads without a word on the console" + "".join(f"\n         {line}" for line in spoken), loaded.returncode == 0 and "</html>" in loaded.stdout and not spoken)
    facts = probed(html, folder, "<script>" + REPORT + """
      addEventListener('load', async () => {
        await Promise.all([...document.querySelectorAll('audio')].map(a => a.readyState > 0 || a.error ? 0 : new Promise(r => { a.onloadedmetadata = a.onerror = r; })));
        tell({ images: [...document.images].map(i => i.naturalWidth), durations: [...document.querySelectorAll('audio')].map(a => a.error ? 0 : a.duration),
               wide: document.documentElement.scrollWidth, screen: innerWidth, requests: performance.getEntriesByType('resource').filter(r => !r.name.startsWith('data:')).length });
      });</script>""", "--window-size=500,900")
    check("the browser answers", facts is not None)
    if facts:
        check(f"{len(facts['images'])} pictures shown", len(facts["images"]) >= pictures and all(facts["images"]))
        check("the browser can play every sound", len(facts["durations"]) == sounds and all(facts["durations"]))
        check("no request to anywhere", facts["requests"] == 0)
        check(f"nothing wider than the screen ({facts['wide']} of {facts['screen']} pixels)", facts["wide"] <= facts["screen"])

    if rules is None:
        return
    for scheme in ("light", "dark"):
        faults = probed(html, folder, f"<script>{rules}</script><script>{REPORT}" + """
          addEventListener('load', () => axe.run({ exclude: ['#probe'] }).then(r => tell({ ran: r.passes.length,
            faults: r.violations.filter(v => ['serious', 'critical'].includes(v.impact)).map(v => v.id + ': ' + v.nodes[0].html.slice(0, 160)) })));</script>""",
                        f"--blink-settings=preferredColorScheme={0 if scheme == 'dark' else 1}")
        check(f"{AXE}, {scheme}: {faults and faults['ran']} rules hold" + "".join(f"\n         {fault}" for fault in (faults or {}).get("faults", [])),
              faults is not None and faults["ran"] > 10 and not faults["faults"])


with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as temporary:
    main(Path(temporary))
sys.exit(bad > 0)
