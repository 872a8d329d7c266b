"""Plays our MIDI files on an independent synthesiser and measures the pitches with numpy: within 2 cents of what was asked.

The synthesiser is fluidsynth, a general-purpose one. Its sound is a sine that this script writes as a SoundFont 2.01 file, tuned to
440 Hz by its length, so no recorded sample's own tuning comes in. Asked: a passage in just tuning, at A4 = 442, in meantone, with
its difference tones; a glide, followed along its way; every semitone of an octave 1 to 49 cents off.
"""
import json
import re
import shutil
import struct
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
RATE = 48000
MOST_CENTS = 2.0
LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
bad = 0


def check(what, holds):
    global bad
    bad += not holds
    print(f"{'ok     ' if holds else 'WRONG  '}{what}", flush=True)


def sine_font(path, programs):
    """A SoundFont with one looped sine, 100 samples a period at 44,000 Hz, for each of the General MIDI programs."""
    period, rate = 100, 44000
    wave = np.round(20000 * np.sin(2 * np.pi * np.arange(9 * period) / period)).astype("<i2").tobytes()

    def chunk(name, body):
        return name + struct.pack("<I", len(body)) + body + b"\0" * (len(body) % 2)

    def name(text):
        return text.encode().ljust(20, b"\0")

    info = chunk(b"ifil", struct.pack("<HH", 2, 1)) + chunk(b"isng", b"EMU8000\0") + chunk(b"INAM", b"Sine\0\0")
    sample = chunk(b"smpl", wave + b"\0" * 92)
    heads = b"".join(name(f"Sine {p}") + struct.pack("<HHHIII", p, 0, i, 0, 0, 0) for i, p in enumerate(programs))
    heads += name("EOP") + struct.pack("<HHHIII", 0, 0, len(programs), 0, 0, 0)
    bags = b"".join(struct.pack("<HH", i, 0) for i in range(len(programs) + 1))
    instrument = struct.pack("<Hh", 41, 0)
    # The format's own bend, 12700 c times range / 128, is 1/128 short of MIDI's; in its place wheel (14, both ways) and range (16) move fine tuning (52).
    bend = struct.pack("<HHhHH", 0x020E, 52, 12800, 0x0010, 0)
    # Looped until the end, then the sample; generators 54 and 53.
    zone = struct.pack("<HhHh", 54, 1, 53, 0)
    hydra = (chunk(b"phdr", heads) + chunk(b"pbag", bags) + chunk(b"pmod", bytes(10)) + chunk(b"pgen", instrument * len(programs) + bytes(4))
             + chunk(b"inst", name("Sine") + struct.pack("<H", 0) + name("EOI") + struct.pack("<H", 1))
             + chunk(b"ibag", struct.pack("<HHHH", 0, 0, 2, 1)) + chunk(b"imod", bend + bytes(10)) + chunk(b"igen", zone + bytes(4))
             + chunk(b"shdr", name("Sine") + struct.pack("<IIIIIBbHH", 0, 9 * period, period, 8 * period, rate, 69, 0, 0, 1)
                     + name("EOS") + bytes(26)))
    body = b"sfbk" + chunk(b"LIST", b"INFO" + info) + chunk(b"LIST", b"sdta" + sample) + chunk(b"LIST", b"pdta" + hydra)
    path.write_bytes(chunk(b"RIFF", body))


def played(midi, font):
    out = midi.with_suffix(".wav")
    subprocess.run(["fluidsynth", "-q", "-n", "-i", "-R", "0", "-C", "0", "-g", "0.5", "-r", str(RATE), "-O", "s16", "-F", str(out), str(font), str(midi)],
                   check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    raw = subprocess.check_output(["sox", str(out), "-t", "f32", "-c", "1", "-"])
    return np.frombuffer(raw, dtype="<f4").astype("f8")


def cents_off(sound, from_s, to_s, hz):
    """How far the strongest line within 60 cents of hz is from it: the vertex of a parabola on a padded Hann transform."""
    part = sound[int(from_s * RATE):int(to_s * RATE)]
    size = 1 << int(np.ceil(np.log2(8 * len(part))))
    spectrum = np.abs(np.fft.rfft(part * np.hanning(len(part)), size))
    step = RATE / size
    low, high = int(hz * 2 ** (-60 / 1200) / step), int(hz * 2 ** (60 / 1200) / step) + 1
    peak = low + int(np.argmax(spectrum[low:high + 1]))
    if peak in (low, high) or spectrum[peak] < 0.001 * len(part) / 2:
        return float("inf")
    a, b, c = np.log(spectrum[peak - 1:peak + 2])
    return 1200 * np.log2((peak + 0.5 * (a - c) / (a - 2 * b + c)) * step / hz)


def write(folder, what, *options):
    midi = folder / "score.mid"
    subprocess.run([*PROGRAM, "notation", str(what), "-o", str(midi), *options], check=True, stdout=subprocess.DEVNULL)
    return midi


def shown(*words):
    return json.loads(subprocess.check_output([*PROGRAM, *words, "--json"]))


def passage(folder, font, *options):
    """Every stretch of a passage on which nothing begins or ends: played, sung, difference tone."""
    sound = played(write(folder, "two-breaths-one-pipe", "--resultants", *options), font)
    told = shown("passage", "show", "two-breaths-one-pipe", *options)
    moments = told["moments"]
    ends = [m["seconds"] for m in moments[1:]] + [told["seconds"]]
    worst, count = 0.0, 0
    for moment, end in zip(moments, ends):
        wanted = [moment.get(k) for k in ("playedHz", "sungHz", "madeHz")]
        wanted = [hz for hz in wanted if hz and hz > 16.5]  # octave 0 and up is written
        alone = [hz for hz in wanted if all(abs(hz - other) > 8 for other in wanted if other != hz)]
        for hz in alone:
            worst = max(worst, abs(cents_off(sound, moment["seconds"] + 0.15, end - 0.02, hz)))
            count += 1
    check(f"passage {' '.join(options) or 'as it is'}: {count} tones of {len(moments)} moments, at most {worst:.2f} c off", worst <= MOST_CENTS and count >= 2 * len(moments) - 4)


def glide(folder, font, exercise):
    """A glide is met in the middle of each tenth of it, straight in cents."""
    sound = played(write(folder, exercise), font)
    told = shown("exercise", "show", exercise)
    worst, count = 0.0, 0
    for segment in told["steps"][0]["sung"]:
        from_s, to_s, from_hz, to_hz = (segment[k] for k in ("fromSeconds", "toSeconds", "fromHz", "toHz"))
        for i in range(1, 10):
            at = from_s + (to_s - from_s) * i / 10
            hz = from_hz * (to_hz / from_hz) ** (i / 10)
            if at - 0.15 > from_s and at + 0.15 < to_s:
                worst = max(worst, abs(cents_off(sound, at - 0.15, at + 0.15, hz)))
                count += 1
    check(f"exercise {exercise}: {count} places of glides and holds, at most {worst:.2f} c off", worst <= MOST_CENTS and count >= 20)


def off_notes(folder, font):
    """Twelve sung semitones, each some cents off, almost over no played tone: bend values all over the range."""
    names = ["C4", "Db4", "D4", "Eb4", "E4", "F4", "F#4", "G4", "Ab4", "A4", "Bb4", "B4"]
    cents = [1, -49, 13, -14, 25, -31, 49, -2, 37, -20, 8, -43]
    text = folder / "off.txt"
    bars = [" ".join(f"{n}{c:+d}/4" for n, c in list(zip(names, cents))[4 * bar:4 * bar + 4]) for bar in range(3)]
    text.write_text("time: 4/4\ntempo: 120\nP: C2/4 r/2. | r/1 | r/1 |\nS: " + " | ".join(bars) + " |\n")
    sound = played(write(folder, text, "--tuning", "equal"), font)
    worst = 0.0
    for i, (note, off) in enumerate(zip(names, cents)):
        letter, sign, octave = re.fullmatch(r"([A-G])([#b]?)(\d)", note).groups()
        key = 12 * (int(octave) + 1) + LETTERS[letter] + {"": 0, "#": 1, "b": -1}[sign]
        worst = max(worst, abs(cents_off(sound, 0.5 * i + 0.08, 0.5 * i + 0.48, 440 * 2 ** ((key - 69 + off / 100) / 12))))
    check(f"twelve semitones 1 to 49 c off: at most {worst:.2f} c from that", worst <= MOST_CENTS)


def main():
    for tool in ("fluidsynth", "sox"):
        if not shutil.which(tool):
            sys.exit(f"{tool} is not installed: apt-get install {tool}")
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        font = folder / "sine.sf2"
        sine_font(font, [52, 58])
        passage(folder, font)
        passage(folder, font, "--a4", "442")
        passage(folder, font, "--tuning", "meantone")
        glide(folder, font, "19")
        off_notes(folder, font)
    return 1 if bad else 0


sys.exit(main())
