"""Renders Bb1 + F2 coupled and separate, and measures the spectral lines with numpy, apart from the product's own analysis.

The four lines are arithmetic on the equal-tempered pitches (A4 = 440): S-P 29.0366, P 58.2705, S 87.3071, P+S 145.5776 Hz.
Asked: each within 0.05 Hz when coupled; S-P and P+S at least 40 dB weaker when separate.
"""
import subprocess
import sys
import tempfile

import numpy as np

PROGRAM = ["dotnet", "src/BrassVox.App/bin/Debug/net10.0/brassvox.dll"]
LINES = {"S-P": 29.0366, "P": 58.2705, "S": 87.3071, "P+S": 145.5776}


def render(folder, coupling):
    path = f"{folder}/pair-{coupling}.wav"
    subprocess.run([*PROGRAM, "render", "Bb1", "F2", "--seconds", "5", "--coupling", str(coupling), "--output", path], check=True)
    rate = int(subprocess.check_output(["soxi", "-r", path]))
    raw = subprocess.check_output(["sox", path, "-t", "f64", "-c", "1", "-"])
    samples = np.frombuffer(raw, dtype="<f8")
    return rate, samples[rate // 2 : -rate // 2]


def line(rate, samples, near_hz):
    """Frequency and level (dB re a sine of amplitude 1) of the strongest line within 0.8 Hz, by parabola on a padded Blackman-Harris transform."""
    n = len(samples)
    t = 2 * np.pi * np.arange(n) / n
    window = 0.35875 - 0.48829 * np.cos(t) + 0.14128 * np.cos(2 * t) - 0.01168 * np.cos(3 * t)
    size = 16 * n
    spectrum = 20 * np.log10(np.abs(np.fft.rfft(samples * window, size)) * 2 / window.sum() + 1e-15)
    step = rate / size
    low, high = int((near_hz - 0.8) / step), int((near_hz + 0.8) / step) + 1
    peak = low + int(np.argmax(spectrum[low:high]))
    a, b, c = spectrum[peak - 1 : peak + 2]
    return (peak + 0.5 * (a - c) / (a - 2 * b + c)) * step, b


def main():
    bad = 0
    with tempfile.TemporaryDirectory() as folder:
        coupled = render(folder, 0.6)
        separate = render(folder, 0)
        for name, hz in LINES.items():
            found, level = line(*coupled, hz)
            _, without = line(*separate, hz)
            wrong = abs(found - hz) > 0.05 or (name in ("S-P", "P+S") and level - without < 40)
            bad += wrong
            print(f"{name:4s} asked {hz:9.4f} Hz, found {found:9.4f} Hz at {level:7.2f} dB; separate {without:8.2f} dB{'  WRONG' if wrong else ''}")
    return 1 if bad else 0


sys.exit(main())
