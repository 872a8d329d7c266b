"""Tones measured apart from the program (numpy, sox): aliasing of a glide into the top register, and the straightness of that glide.

Usage: python3 tests/tools/check_tones.py [brassvox]
A trumpet glides from Bb3 to C6 over 6 s. Time is bent so that the fundamental stands still; then every true partial is a line and whatever
folded back at half the sample rate moves. Asked: at least 80 dB below the tone; pitch within 1 cent of the drawn path.
"""
import subprocess, sys, tempfile, os
import numpy as np

program = sys.argv[1] if len(sys.argv) > 1 else 'src/BrassVox.App/bin/Debug/net10.0/brassvox'
seconds, low, high = 6.0, 440 * 2 ** (-11 / 12), 440 * 2 ** (15 / 12)
failed = False


def report(name, value, limit, good):
    global failed
    failed |= not good
    print(f"{'ok    ' if good else 'FAILED'}  {name}: {value:.3f} (limit {limit})")


with tempfile.TemporaryDirectory() as work:
    path = os.path.join(work, 'glide.wav')
    subprocess.run([program, 'render', 'Bb3', 'F3', '--instrument', 'trumpet', '--glide-played', 'C6', '--seconds', str(seconds), '--coupling', '0',
                    '--only', 'P', '--encoding', 'float', '--output', path], check=True, stdout=subprocess.DEVNULL)
    rate = int(subprocess.check_output(['soxi', '-r', path]))
    x = np.frombuffer(subprocess.check_output(['sox', path, '-t', 'f64', '-c', '1', '-']), '<f8')

ratio = np.log(high / low)
start, end = 0.5, seconds - 0.2


def cycles(t):
    return low * seconds / ratio * (np.exp(ratio * t / seconds) - 1)


# Fourfold oversampling by zero-filling the spectrum, then cubic interpolation at even steps of the fundamental's phase.
size = 1 << int(np.ceil(np.log2(len(x))))
fine = np.fft.irfft(np.pad(np.fft.rfft(x, size), (0, size * 2 - size // 2)), size * 4) * 4
per_cycle = 512
phase = np.arange(np.ceil(cycles(start)), np.floor(cycles(end)), 1 / per_cycle)
t = seconds / ratio * np.log(1 + phase * ratio / (low * seconds))
place = t * rate * 4
i = place.astype(int)
u = place - i
a, b, c, d = fine[i - 1], fine[i], fine[i + 1], fine[i + 2]
bent = b + 0.5 * u * (c - a + u * (2 * a - 5 * b + 4 * c - d + u * (3 * (b - c) + d - a)))

# Two hundred cycles at a time: true partials fall on every 200th bin, and the window spreads each over a few bins beside it.
block, worst = 200, -200.0
window = np.blackman(block * per_cycle)
for at in range(0, len(bent) - len(window), len(window) // 2):
    level = 20 * np.log10(np.abs(np.fft.rfft(bent[at:at + len(window)] * window)) * 2 / window.sum() + 1e-12)
    bins = np.arange(len(level))
    apart = np.minimum(bins % block, block - bins % block) > 12
    top = int(0.5 * rate / (low * np.exp(ratio * t[min(at + len(window), len(t) - 1)] / seconds)) * block)
    apart[:40] = False
    apart[min(top, len(level)):] = False
    worst = max(worst, level[apart].max() - level.max())
report('strongest line off the partials during a glide, dB re the tone', worst, '-80', worst < -80)

# Pitch: phase of the first partial against the drawn path, 50 ms apart.
turned = x[: int(end * rate)] * np.exp(-2j * np.pi * cycles(np.arange(int(end * rate)) / rate))
length = int(0.05 * rate)
kernel = np.hanning(length)
kernel /= kernel.sum()
centers = np.arange(int(start * rate), len(turned) - length, length // 2)
phases = np.unwrap([np.angle(np.sum(turned[k:k + length] * kernel)) for k in centers]) / (2 * np.pi)
hz = low * np.exp(ratio * (centers[:-1] + 0.75 * length) / rate / seconds)
cents = 1200 / np.log(2) * np.diff(phases) * rate / (length // 2) / hz
report('largest error of the glide, cents', np.abs(cents).max(), 1, np.abs(cents).max() < 1)
sys.exit(failed)
