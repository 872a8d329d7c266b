"""Writes practice tracks and measures them with numpy and ffmpeg, apart from the product's own meters.

Asked: pitches within 0.5 cent of what the exercise asks; the stems add up to the mix within 1 LSB of a 32-bit float, sample by
sample; loudness within 0.5 LU of what was asked and true peaks at or under -1 dBTP (ffmpeg's ebur128, an implementation of EBU
R 128); the same number of samples in every track; Opus as long as WAV.
"""
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import numpy as np

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
LUFS = -20.0
bad = 0


def check(what, holds):
    global bad
    bad += not holds
    print(f"{'ok     ' if holds else 'WRONG  '}{what}")


def samples(path):
    raw = subprocess.check_output(["ffmpeg", "-v", "error", "-i", str(path), "-f", "f32le", "-"])
    return np.frombuffer(raw, dtype="<f4")


def loudness(path):
    said = subprocess.run(
        ["ffmpeg", "-hide_banner", "-nostats", "-i", str(path), "-af", "ebur128=peak=true", "-f", "null", "-"],
        stderr=subprocess.PIPE, text=True, check=True).stderr
    return float(re.findall(r"I:\s+(-?[\d.]+) LUFS", said)[-1]), float(re.findall(r"Peak:\s+(-?[\d.]+|-inf) dBFS", said)[-1])


def pitch(sound, rate, near_hz, harmonics=6):
    """Weighted mean of the harmonics' frequencies over their numbers, each from a parabola on a padded Hann transform."""
    n = len(sound)
    size = 1 << int(np.ceil(np.log2(8 * n)))
    spectrum = np.abs(np.fft.rfft(sound * np.hanning(n), size))
    step = rate / size
    total = weights = 0.0
    for k in range(1, harmonics + 1):
        low, high = int((k * near_hz - 3) / step), int((k * near_hz + 3) / step) + 1
        peak = low + int(np.argmax(spectrum[low:high]))
        a, b, c = np.log(spectrum[peak - 1 : peak + 2] + 1e-30)
        hz = (peak + 0.5 * (a - c) / (a - 2 * b + c)) * step / k
        weight = (k * spectrum[peak]) ** 2
        total += weight * hz
        weights += weight
    return total / weights


def main():
    with tempfile.TemporaryDirectory() as folder:
        asked = json.loads(subprocess.check_output([*PROGRAM, "exercise", "show", "14", "--json"]))
        for form in ("wav-float", "opus"):
            subprocess.run([*PROGRAM, "tracks", "14", "-o", folder, "--format", form, "--loudness", str(LUFS)], check=True, stdout=subprocess.PIPE)
        files = {re.sub(r".*-\d-(.*)\.wav", r"\1", f.name): f for f in sorted(Path(folder).glob("*.wav"))}
        rate = int(subprocess.check_output(["soxi", "-r", str(files["mix"])]))
        sound = {name: samples(path) for name, path in files.items()}
        check(f"{len(files)} tracks of {len(sound['mix'])} samples", len(files) == 9 and len({len(x) for x in sound.values()}) == 1)

        for whole, stems in (("mix", ("played", "sung", "resultants", "click", "cue")), ("both", ("played", "sung", "resultants"))):
            total = sum(sound[name].astype("f8") for name in stems)
            lsb = np.max(np.abs(total - sound[whole]) / np.spacing(np.maximum(np.abs(sound[whole]), np.float32(2.0**-64))))
            check(f"{' + '.join(stems)} = {whole} within {lsb:.2f} LSB, sample by sample", lsb <= 1.0)

        first = int(np.argmax(np.abs(sound["both"]) > 0))
        for role in ("played", "sung"):
            begin = first + int(1.5 * rate)
            hz = pitch(sound[role][begin : begin + 5 * rate], rate, asked[f"{role}Hz"])
            cents = 1200 * np.log2(hz / asked[f"{role}Hz"])
            check(f"{role} {hz:.4f} Hz, asked {asked[f'{role}Hz']:.4f}, {cents:+.3f} c", abs(cents) <= 0.5)

        lufs, _ = loudness(files["mix"])
        check(f"mix at {lufs:.1f} LUFS, asked {LUFS:.1f}", abs(lufs - LUFS) <= 0.5)
        peak = max(loudness(path)[1] for path in files.values())
        check(f"highest true peak {peak:.1f} dBTP", peak <= -1.0)

        opus = next(Path(folder).glob("*-1-mix.opus"))
        decoded = subprocess.check_output(["ffmpeg", "-v", "error", "-i", str(opus), "-f", "f32le", "-"])
        length = len(decoded) // 4
        check(f"Opus holds {length} samples, WAV {len(sound['mix'])}", abs(length - len(sound["mix"])) <= 1)
        near = np.corrcoef(np.frombuffer(decoded, dtype="<f4")[: len(sound["mix"])], sound["mix"][:length])[0, 1]
        check(f"Opus against WAV: correlation {near:.4f}", near > 0.99)
    return 1 if bad else 0


sys.exit(main())
