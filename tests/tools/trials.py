"""Faults that readers of sound, scores and numbers are known for, each made for real and put to the program.

Usage: python3 trials.py [PROGRAM...]

Every trial makes its own input, runs the program as a user would, and looks at what it prints and the code it ends with. The numbers
are those of the table in DEVELOPERS.md; what needs a device, a terminal or a second process is proved by the tests named there.
Needs python3-numpy and, for S14, unshare (util-linux). The last line is "N passed, N failed".
"""
import io
import json
import os
import re
import struct
import subprocess
import sys
import tempfile
import time
import zipfile

import numpy as np

PROGRAM = [os.path.abspath(p) if os.path.exists(p) else p for p in sys.argv[1:]] or [os.path.abspath("src/BrassVox.App/bin/Debug/net10.0/brassvox")]
RATE = 48000
results = []


def check(number, what, good, said=""):
    results.append(good)
    print(f"{'ok     ' if good else 'FAILED '} {number}  {what}" + ("" if good else f"\n        {said}"))


def run(*arguments, locale=None, before=(), **env):
    environment = dict(os.environ, BRASSVOX_DATA=DATA, LC_ALL=locale or "C.UTF-8", LANG=locale or "C.UTF-8", **env)
    start = time.monotonic()
    done = subprocess.run([*before, *PROGRAM, *arguments], capture_output=True, env=environment, stdin=subprocess.DEVNULL, timeout=60)
    out, err = done.stdout.decode(errors="replace"), done.stderr.decode(errors="replace")
    if "\x1b" in out + err or "   at " in err or "Unhandled" in err:
        check("---", f"no escape codes and no stack trace: {' '.join(arguments)}", False, err[:300])
    return done.returncode, out, err, time.monotonic() - start


def write(name, data):
    with open(name, "wb") as file:
        file.write(data)
    return name


def sine(hz, seconds=1.0, rate=RATE, peak=0.5):
    return peak * np.sin(2 * np.pi * hz * np.arange(int(rate * seconds)) / rate)


def wav(samples, rate=RATE, bits=16, channels=1, form=None, riff=None, data=None, cut=None):
    if bits == 16:
        body = (np.round(np.asarray(samples) * 32767)).astype("<i2").tobytes()
    else:
        body = np.asarray(samples, "<f4").tobytes()
    size = bits // 8 * channels
    form = form or struct.pack("<4sIHHIIHH", b"fmt ", 16, 3 if bits == 32 else 1, channels, rate, rate * size, size, bits)
    if cut is not None:
        body = body[:cut]
    head = b"RIFF" + struct.pack("<I", 4 + len(form) + 8 + len(body) if riff is None else riff) + b"WAVE"
    return head + form + b"data" + struct.pack("<I", len(body) if data is None else data) + body


def pitch(name, *more):
    """The one pitch of a file, its length, and what was said."""
    code, out, err, _ = run("measure", name, "--json", *more)
    if code:
        return code, None, None, err
    report = json.loads(out)
    found = report["oneSeries"] or report["played"] or report["sung"]
    return code, found["frequencyHz"] if found else None, report["durationSeconds"], err


def near(hz, true):
    return hz is not None and abs(1200 * np.log2(hz / true)) <= 0.5


def s02():
    nothing = dict(ALSA_CONFIG_PATH="/dev/null", PULSE_SERVER="unix:/nonexistent")
    write("s02.wav", wav(sine(233.08)))
    plain = run("measure", "s02.wav", "--json")
    for arguments in (["--version"], ["--help"], ["measure", "s02.wav", "--json"]):
        code, out, err, _ = run(*arguments, **nothing)
        check("S02", f"no sound system: {arguments[0]} works", code == 0 and err == "" and (arguments[0] != "measure" or out == plain[1]), err)
    code, out, err, _ = run("devices", "--json", **nothing)
    check("S02", "no sound system: an empty list, code 0", code == 0 and not json.loads(out), out + err)


def s03():
    write("s03.conf", b"pcm.!default { type hw card 99 }\n")
    code, out, err, _ = run("devices", "--json", ALSA_CONFIG_PATH=os.path.abspath("s03.conf"), PULSE_SERVER="unix:/nonexistent")
    good = code == 0 and json.loads(out) is not None and len(err.splitlines()) <= 1 and "ALSA lib" not in err
    check("S03", "nothing of the sound library's own words", good, err)


def s05():
    tone = sine(233.08)
    for name, how in (("all ones", dict(riff=0xFFFFFFFF, data=0xFFFFFFFF)), ("zero", dict(riff=0, data=0))):
        write("s05.wav", wav(tone, **how))
        before = open("s05.wav", "rb").read()
        code, hz, seconds, err = pitch("s05.wav")
        good = code == 0 and near(hz, 233.08) and seconds == 1 and len(err.splitlines()) == 1 and before == open("s05.wav", "rb").read()
        check("S05", f"length field {name}: 1 s, 233.08 Hz, one note", good, f"{hz} {seconds} {err}")
    write("s05.wav", wav(tone, data=96000, cut=48000))
    code, hz, seconds, err = pitch("s05.wav")
    check("S05", "shorter than stated: 0.5 s and a note", code == 0 and seconds == 0.5 and near(hz, 233.08) and err.strip() != "", f"{hz} {seconds} {err}")


def s06():
    both = np.stack([sine(116.54), sine(174.81)], 1).reshape(-1)
    whole = wav(both, channels=2, data=192003)
    write("s06.wav", whole[:-1])
    left, right = pitch("s06.wav", "--channel", "1"), pitch("s06.wav", "--channel", "2")
    check("S06", "a broken last frame: left stays left", near(left[1], 116.54) and near(right[1], 174.81) and "3" in left[3], f"{left} {right}")
    for name, data in (("only 12 bytes", whole[:12]), ("cut in the format block", whole[:26])):
        code, out, err, _ = run("measure", write("s06.wav", data))
        check("S06", f"{name}: code 3, one line", code == 3 and len(err.splitlines()) == 1, err)


def s07():
    tone = np.round(sine(233.08) * (2 ** 23)).astype("<i4")
    body = (tone << 8).astype("<i4").tobytes()
    guid = bytes.fromhex("0100000000001000800000AA00389B71")
    for spare in (0, 2):
        form = struct.pack("<4sIHHIIHHHHI", b"fmt ", 40 + spare, 0xFFFE, 1, RATE, RATE * 4, 4, 32, 22 + spare, 24, 4) + guid + b"\0" * spare
        write("s07.wav", b"RIFF" + struct.pack("<I", 4 + len(form) + 8 + len(body)) + b"WAVE" + form + b"data" + struct.pack("<I", len(body)) + body)
        code, out, err, _ = run("measure", "s07.wav", "--json")
        played = json.loads(out)["oneSeries"] if code == 0 else None
        good = played is not None and near(played["frequencyHz"], 233.08) and abs(played["levelDbfs"] - -9.03) < 0.2
        check("S07", f"24 bits in 32, {spare} spare bytes: level and pitch", good, f"{played} {err}")
    eight = (128 + np.round(64 * np.sin(2 * np.pi * 233.08 * np.arange(RATE) / RATE))).astype("u1").tobytes()
    form = struct.pack("<4sIHHIIHH", b"fmt ", 16, 1, 1, RATE, RATE, 1, 8)
    write("s07.wav", b"RIFF" + struct.pack("<I", 4 + len(form) + 8 + len(eight)) + b"WAVE" + form + b"data" + struct.pack("<I", len(eight)) + eight)
    code, out, err, _ = run("measure", "s07.wav", "--json")
    played = json.loads(out)["oneSeries"] if code == 0 else None
    check("S07", "8 bits are unsigned", played is not None and near(played["frequencyHz"], 233.08) and abs(played["levelDbfs"] - -9.03) < 0.2, f"{played} {err}")


def s09():
    for rate in (8000, 22050, 44100, 48000, 96000, 192000):
        write("s09.wav", wav(sine(440, 2, rate), rate))
        code, hz, seconds, err = pitch("s09.wav")
        check("S09", f"440 Hz at {rate} Hz", code == 0 and near(hz, 440), f"{hz} {err}")


def s10():
    random = np.random.default_rng(1)
    quiet = {
        "zeros": np.zeros(RATE), "constant": np.full(RATE, 0.25), "one step of 16 bits": random.integers(-1, 2, RATE) / 32767,
        "noise at -40 dBFS": np.clip(0.01 * random.standard_normal(RATE), -1, 1), "one sample": np.eye(1, RATE, 24000)[0],
    }
    for name, samples in quiet.items():
        write("s10.wav", wav(samples))
        code, out, err, _ = run("measure", "s10.wav", "--json", "--csv", "s10.csv")
        if code == 3 and name == "zeros":
            check("S10", "zeros: said to be silent, code 3", len(err.splitlines()) == 1 and "ilen" in err, err)
            continue
        report = json.loads(out) if code == 0 else {}
        words = (out + open("s10.csv").read()).lower() if code == 0 else "nan"
        good = code == 0 and report["played"] is None and report["sung"] is None and report["oneSeries"] is None and not re.search(r"\bnan\b|infinity|∞", words)
        check("S10", f"{name}: no pitch, nothing that is no number", good, out + err)
    write("s10.wav", wav(np.concatenate([np.zeros(RATE // 2), sine(233.08, 0.5)])))
    code, hz, seconds, err = pitch("s10.wav")
    check("S10", "half silent: the pitch of the other half", near(hz, 233.08), f"{hz} {err}")


def s11():
    for hz in (228.515625, 231.4453125, 232.91015625, 233.642578125):
        write("s11.wav", wav(sine(hz, 2)))
        found = pitch("s11.wav")
        check("S11", f"{hz} Hz, half-way between two bins", near(found[1], hz), found)
    worst = before = None
    for hz in np.linspace(110, 120, 41):
        # Six partials: lips and voices make no sine, and a lone line is read up to 0.6 c off between two points of a transform.
        write("s11.wav", wav(sum(sine(k * hz, 0.6, peak=0.2 / k) for k in range(1, 7))))
        found = pitch("s11.wav")[1]
        error = 1200 * np.log2(found / hz) if found else 1e9
        worst = max(worst or 0, abs(error), abs(error - before) if before is not None else 0)
        before = error
    check("S11", f"41 tones from 110 to 120 Hz: no error and no jump over 0.5 c ({worst:.3f})", worst <= 0.5, worst)


MIDI = bytes.fromhex("4D546864000000060000000101E04D54726B0000001A00903A5083603A0000FF0103616263004150836041 0000FF2F00".replace(" ", ""))


def s12():
    sysex = MIDI.replace(bytes.fromhex("FF0103616263"), bytes.fromhex("F001F7")).replace(b"\0\0\0\x1a", b"\0\0\0\x17")
    for name, data in (("a text event", MIDI), ("a system-exclusive event", sysex), ("an overlong track", MIDI.replace(b"\0\0\0\x1a", b"\x7f\xff\xff\xff")), ("no end", MIDI[:-3])):
        write("s12.mid", data)
        code, out, err, took = run("passage", "text", "s12.mid")
        check("S12", f"running status over {name}: Bb3 then F4", code == 0 and re.findall(r"\b(?:Bb3|F4)\b", out)[:2] == ["Bb3", "F4"] and took < 5, out + err)


SCORE = """<score-partwise version="4.0"><part-list><score-part id="A"><part-name>x</part-name></score-part></part-list>
<part id="A"><measure number="1"><attributes><divisions>2</divisions>{0}</attributes>
<note><pitch><step>C</step><octave>5</octave></pitch><duration>8</duration></note></measure></part></score-partwise>"""
WHOLE_TONE = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>"


def s13():
    for name, transpose, note in (
            ("B flat", WHOLE_TONE, "Bb4"), ("F", "<transpose><diatonic>-4</diatonic><chromatic>-7</chromatic></transpose>", "F4"),
            ("B flat, two octaves", WHOLE_TONE.replace("</transpose>", "<octave-change>-2</octave-change></transpose>"), "Bb2")):
        code, out, err, _ = run("passage", "text", write("s13.musicxml", SCORE.format(transpose).encode()))
        check("S13", f"written C5 of a part in {name} sounds {note}", code == 0 and re.search(rf"\b{note}\b", out) is not None and "A#" not in out, out + err)
    code, out, err, _ = run("passage", "text", write("s13.musicxml", SCORE.format("<transpose><diatonic>-1</diatonic></transpose>").encode()))
    check("S13", "no chromatic step: code 3 and one line", code == 3 and len(err.splitlines()) == 1, out + err)


def s14():
    doctype = '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">\n'
    text = doctype + SCORE.format(WHOLE_TONE)
    alone = ("unshare", "-rn") if subprocess.run(["unshare", "-rn", "true"], capture_output=True).returncode == 0 else ()
    names = [("with a document type", "s14.musicxml", text.encode()), ("in UTF-16", "s14b.musicxml", ('<?xml version="1.0" encoding="UTF-16"?>' + text).encode("utf-16"))]
    container = b'<container><rootfiles><rootfile full-path="%s"/></rootfiles></container>'
    for label, entries in (
            ("score first", [("score.xml", None), ("META-INF/container.xml", container % b"score.xml")]),
            ("container first", [("META-INF/container.xml", container % b"score.xml"), ("score.xml", None)]),
            ("in a folder", [("META-INF/container.xml", container % b"in/score.xml"), ("in/score.xml", None)]),
            ("no container", [("score.xml", None)])):
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for entry, data in entries:
                archive.writestr(entry, text.encode() if data is None else data)
        names.append((f"compressed, {label}", "s14.mxl", packed.getvalue()))
    for label, name, data in names:
        code, out, err, _ = run("passage", "text", write(name, data), before=alone)
        check("S14", f"{label}{', no network' if alone else ''}: Bb4", code == 0 and re.search(r"\bBb4\b", out) is not None, out + err)
    bomb = "<!DOCTYPE score-partwise [<!ENTITY a0 \"x\">" + "".join(f'<!ENTITY a{i + 1} "{f"&a{i};" * 10}">' for i in range(10)) + "]>"
    for label, start in (("nested entities", bomb), ("an entity of a file", '<!DOCTYPE score-partwise [<!ENTITY a10 SYSTEM "file:///etc/hostname">]>')):
        write("s14.musicxml", (start + SCORE.format(WHOLE_TONE).replace(">x<", ">&a10;<")).encode())
        code, out, err, took = run("passage", "text", "s14.musicxml")
        secret = open("/etc/hostname").read().strip() if os.path.exists("/etc/hostname") else ""
        check("S14", f"{label}: code 3, quickly, nothing shown", code == 3 and took < 3 and len(err.splitlines()) == 1 and not (secret and secret in out + err), out + err)


def cultures(names):
    """Locales need not be installed: .NET takes them from the name alone."""
    return [f"{name}.UTF-8" for name in names]


def s19():
    write("s19.wav", wav(sine(233.08)))
    plain = {}
    for locale in ["C.UTF-8", *cultures(["de_DE", "fr_FR", "fi_FI", "pt_BR", "th_TH", "ar_SA", "tr_TR", "az_AZ"])]:
        code, out, err, _ = run("resultants", "Bb1", "F2", "--a4", "442.5", "--json", locale=locale)
        data = out + run("measure", "s19.wav", "--json", "--csv", "s19.csv", locale=locale)[1] + open("s19.csv").read()
        plain.setdefault("data", data)
        comma = run("resultants", "Bb1", "F2", "--a4", "442,5", "--json", locale=locale)
        grouped = run("resultants", "Bb1", "F2", "--a4", "1.234,5", locale=locale)
        good = code == 0 and data == plain["data"] and comma[0] == 2 and "4425" not in comma[1] and grouped[0] == 2
        check("S19", f"{locale}: 442.5 is 442.5, 442,5 is refused, the same bytes", good, f"{code} {comma} {err}")


def s20():
    write("TAKE.WAV", wav(sine(233.08)))
    write("SCALE.MID", MIDI)
    write("SOLI.MUSICXML", SCORE.format(WHOLE_TONE).encode())
    write("\u0130nce.wav", wav(sine(233.08)))
    plain = None
    for locale in ["C.UTF-8", *cultures(["tr_TR", "az_AZ"])]:
        said = [run(*a.split(" "), locale=locale)[:3] for a in (
            "measure TAKE.WAV", "passage text SCALE.MID", "passage text SOLI.MUSICXML", "measure \u0130nce.wav",
            "exercise show 14 --instrument TRUMPET --voice hIGH --json", "exercise show OPEN-HOME-PAIR --aim iii", "resultants Bb1 F2 --tuning PYTHAGOREAN")]
        plain = plain or said
        check("S20", f"{locale}: capital letters of endings and words", said == plain and all(code == 0 for code, _, _ in said[:6]) and "\u0130nce.wav" in said[3][1], [s for s in said if s[0]])


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    DATA = os.path.join(folder, "data")
    for trial in (s02, s03, s05, s06, s07, s09, s10, s11, s12, s13, s14, s19, s20):
        try:
            trial()
        except Exception as error:  # a trial that breaks off has failed
            check(trial.__name__.upper(), "ran to its end", False, repr(error))
print(f"{sum(results)} passed, {len(results) - sum(results)} failed")
sys.exit(0 if all(results) and results else 1)
