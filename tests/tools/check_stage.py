"""Measures a recording of the nine scenes of Stage with numpy, apart from the product's own analysis.

    check_stage.py SOUND.raw KEYS

SOUND.raw is mono float32 at 48 kHz; KEYS holds a line a scene: its number and where in the file (bytes) its key was pressed.
The lines are arithmetic on Bb2 at A4 = 440 (116.5409 Hz) and exact ratios; beats are differences of frequencies.
"""
import sys

import numpy as np

RATE = 48000
P = 440 * 2 ** (-23 / 12)
BLOCK = 480


def level(samples, hz):
    """dB re full scale of one line, by a Blackman-Harris window (first side lobe -92 dB)."""
    n = len(samples)
    t = 2 * np.pi * np.arange(n) / n
    window = 0.35875 - 0.48829 * np.cos(t) + 0.14128 * np.cos(2 * t) - 0.01168 * np.cos(3 * t)
    phase = np.exp(-2j * np.pi * hz * np.arange(n) / RATE)
    return 20 * np.log10(2 * abs(np.sum(samples * window * phase)) / window.sum() + 1e-12)


def beat_rate(samples, low, high):
    """Strongest modulation of the squared envelope between 0.3 and 20 Hz of what lies from low to high Hz; and its depth."""
    spectrum = np.fft.rfft(samples)
    hz = np.fft.rfftfreq(len(samples), 1 / RATE)
    spectrum[(hz < low) | (hz > high)] = 0
    analytic = np.zeros(len(samples), complex)
    analytic[: len(spectrum)] = 2 * spectrum
    envelope = np.abs(np.fft.ifft(analytic)) ** 2
    envelope = envelope[::BLOCK][5:-5]
    mean = envelope.mean()
    size = 1 << 14
    power = np.abs(np.fft.rfft((envelope - mean) * np.hanning(len(envelope)), size))
    rates = np.fft.rfftfreq(size, BLOCK / RATE)
    inside = (rates >= 0.3) & (rates <= 20)
    best = rates[inside][np.argmax(power[inside])]
    return best, 4 * power[inside].max() / len(envelope) / mean


def burst(samples):
    """What 256 samples hold above 6 kHz (Hann window), every 64 samples."""
    blocks = np.lib.stride_tricks.sliding_window_view(samples, 256)[::64] * np.hanning(256)
    above = np.abs(np.fft.rfft(blocks))[:, int(6000 / RATE * 256) :]
    return np.sqrt((above**2).sum(axis=1))


def main():
    sound = np.fromfile(sys.argv[1], dtype="<f4").astype(float)
    keys = [line.split() for line in open(sys.argv[2])]
    at = {name: int(place) // 4 for name, place in keys}
    order = [name for name, _ in keys]
    bad = []

    def scene(number, start=0.8, seconds=2.0):
        begin = at[number] + int(start * RATE)
        return sound[begin : begin + int(seconds * RATE)]

    def check(what, value, least, most):
        wrong = not least <= value <= most
        bad.extend([what] if wrong else [])
        print(f"{what:54s} {value:9.2f}   asked {least:g} to {most:g}{'   WRONG' if wrong else ''}")

    fifth = {name: scene(name) for name in ("1", "2", "3", "9")}
    made = {name: level(samples, P / 2) for name, samples in fifth.items()}
    check("2 coupled: S-P over 1 separate, dB", made["2"] - made["1"], 40, 200)
    check("2 coupled: P+S over 1 separate, dB", level(fifth["2"], 2.5 * P) - level(fifth["1"], 2.5 * P), 40, 200)
    check("1 separate: S against P, dB", level(fifth["1"], 1.5 * P) - level(fifth["1"], P), -40, 40)
    check("3 alone: S-P over P, dB", made["3"] - level(fifth["3"], P), 40, 200)
    check("3 alone: S-P over S, dB", made["3"] - level(fifth["3"], 1.5 * P), 40, 200)
    check("3 alone: raised over scene 2, dB", made["3"] - made["2"], 11, 13)
    # 3S-4P and 5P-3S fall on the same place in a just fifth, 38 to 50 dB under S-P as their phases happen to meet.
    check("9 left to the audience: S-P under scene 2, dB", made["2"] - made["9"], 30, 200)
    check("9 left to the audience: P as in scene 2, dB", level(fifth["9"], P) - level(fifth["2"], P), -2, 2)

    whole, _ = beat_rate(scene("4"), P - 25, P * 2 ** (2 / 12) + 25)
    check("4 whole tone: swells a second", whole, P * (2 ** (2 / 12) - 1) - 0.3, P * (2 ** (2 / 12) - 1) + 0.3)
    half, _ = beat_rate(scene("5"), P - 25, P * 2 ** (1 / 12) + 25)
    check("5 semitone: swells a second", half, P * (2 ** (1 / 12) - 1) - 0.3, P * (2 ** (1 / 12) - 1) + 0.3)
    first, _ = beat_rate(scene("6", 0.4, 1.4), P - 25, P + 25)
    check("6 unison, before it moves: swells a second", first, 6.4, 7.4)
    halfway, _ = beat_rate(scene("6", 7.4, 1.2), P - 25, P + 25)
    check("6 unison, half way (50 c): swells a second", halfway, 2.7, 4.2)
    _, depth = beat_rate(scene("6", 14.4, 1.6), P - 25, P + 25)
    check("6 unison, landed: depth of what still swells", depth, 0, 0.1)
    second, _ = beat_rate(scene("7", 0.4, 1.4), 2 * P - 30, 2 * P + 30)
    check("7 octave, before it moves (60 c): swells a second", second, 2 * P * (2 ** (60 / 1200) - 1) - 0.5, 2 * P * (2 ** (60 / 1200) - 1) + 0.5)
    _, depth = beat_rate(scene("7", 12.3, 1.6), 2 * P - 30, 2 * P + 30)
    check("7 octave, landed: depth of what still swells", depth, 0, 0.1)
    other = scene("8")
    check("8 other octave: P/2 under scene 2, dB", made["2"] - level(other, P / 2), 40, 200)
    check("8 other octave: 3P there, dB re P", level(other, 3 * P) - level(other, P), -40, 40)

    # From key to new sound: the first 10 ms block whose level or spectrum has left that of the scene before for good.
    slowest = 0.0
    for before, name in zip(order, order[1:-1]):
        slowest = max(slowest, change_seconds(sound, at[name]))
    loud = np.abs(sound[at["1"] :]) > 1e-4
    check("silence to first sound of scene 1, ms", 1000 * np.argmax(loud) / RATE, 0, 300)
    check("slowest change of scene, key to its end, ms", 1000 * slowest, 0, 300)
    # A click is short and broad: what 5 ms hold above 6 kHz. A step in the sound, as from one scene cut into the next, must show.
    # A scene's own is its 99th percentile: a sound server under load may drop a block somewhere in a minute.
    steady = max(np.percentile(burst(scene(name)), 99) for name in order[:-1])
    largest = max(burst(sound[at[name] : at[name] + RATE // 4]).max() for name in order[1:-1])
    # Some cuts meet by chance where both scenes are near zero, hence the middle one.
    cut = np.median([burst(np.concatenate([sound[at[name] - RATE // 4 : at[name]], scene(name, 0.8, 0.25)])).max() for name in order[1:-1]])
    check("above 6 kHz at a change / in the scenes", largest / steady, 0, 3)
    check("the same, were a scene cut into the next", cut / steady, 10, 1e6)
    after = sound[at["tacet"] :]
    quiet = np.flatnonzero(np.abs(after) > 1e-4)
    check("silence key: last sound over -80 dBFS, ms", 1000 * (quiet[-1] if len(quiet) else 0) / RATE, 0, 150)
    return 1 if bad else 0


def change_seconds(sound, place):
    """How long after a place in the sound its spectrum takes to reach what it is half a second later."""
    size = 4096
    window = np.hanning(size)
    hop = BLOCK

    def spectrum(begin):
        return np.abs(np.fft.rfft(sound[begin : begin + size] * window))[3:400]

    target = np.mean([spectrum(place + RATE // 2 + i * hop) for i in range(40)], axis=0)
    before = np.mean([spectrum(place - RATE // 2 + i * hop) for i in range(30)], axis=0)
    for i in range(int(0.45 * RATE / hop)):
        begin = place + i * hop
        now = spectrum(begin)
        if np.linalg.norm(now - target) < np.linalg.norm(now - before):
            return (i * hop + size / 2) / RATE
    return 0.45


sys.exit(main())
