using System.Numerics;
using BrassVox.Synthesis.Living;

namespace BrassVox.Benchmarks.Living;

/// <summary>Lips blown at one pitch while a voice sings beside it: how fast they turn past each other, and how the sound from the bell swells.</summary>
/// <param name="BeatHz">Pitch of the lips less (sung pitch / ratio), in Hz, signed; 0 when caught.</param>
/// <param name="IsCaught">True when the phase between them has come to rest.</param>
/// <param name="LowDb">Lowest level of the bell's sound in 20 ms, dBFS.</param>
/// <param name="HighDb">Highest.</param>
internal readonly record struct CaptureRun(double BeatHz, bool IsCaught, double LowDb, double HighDb)
{
    private const int RateHz = LivingRig.RateHz;
    private const int Stretch = 32;
    private const double SettleSeconds = 1.5;

    /// <summary>Runs one case.</summary>
    /// <param name="sound">The living system.</param>
    /// <param name="playedHz">Pitch asked of the lips.</param>
    /// <param name="ratio">Sung over played pitch: 1, 2 or 0.5.</param>
    /// <param name="offsetHz">Offset of the sung pitch over the ratio, in Hz.</param>
    /// <param name="depth">Depth of coupling.</param>
    /// <param name="colour">Overtones of the voice in the mouth, 0 to 1.</param>
    /// <param name="longestSeconds">Gives up then; ends early when caught for 6 s or after ten beats.</param>
    internal static CaptureRun Measure(LivingSound sound, double playedHz, double ratio, double offsetHz, double depth, double colour, double longestSeconds)
    {
        double commonHz = playedHz + offsetHz;
        var alone = new LivingAim(playedHz, commonHz * ratio, 0, 0.5, 0, 0, 1, 0, colour, 0, 1);
        LivingAim aim = alone with { Depth = depth };
        sound.Reset();
        sound.Begin(alone);
        Span<float> bell = stackalloc float[Stretch];
        Span<float> free = stackalloc float[Stretch];
        double turn = -2 * Math.PI * commonHz * Stretch / RateHz;
        const double Smooth = 2 * Math.PI * 12.0 * Stretch / RateHz;
        const double EnvelopePart = Stretch / (0.02 * RateHz);
        Complex first = Complex.Zero;
        Complex second = Complex.Zero;
        (double cycles, double last, double power) = (0, 0, 0);
        (double low, double high) = (double.PositiveInfinity, double.NegativeInfinity);
        List<(double At, double Cycles)> beats = [];
        double restSince = SettleSeconds;
        double restCycles = 0;
        double seconds = 0;
        for (int i = 0; seconds < longestSeconds; i++)
        {
            seconds = (double)i * Stretch / RateHz;
            sound.Render(seconds < 0.3 ? alone : aim, bell, free);
            (double sine, double cosine) = Math.SinCos(turn * i);
            first += Smooth * ((sound.Reed.OpeningM * new Complex(cosine, sine)) - first);
            second += Smooth * (first - second);
            foreach (float sample in bell)
            {
                power += EnvelopePart / Stretch * ((sample * sample) - power);
            }

            double now = second.Phase / (2 * Math.PI);
            double moved = now - last;
            last = now;
            if (seconds < SettleSeconds)
            {
                continue;
            }

            double before = cycles;
            cycles += moved - Math.Round(moved);
            (low, high) = (Math.Min(low, power), Math.Max(high, power));
            if (Math.Floor(before) != Math.Floor(cycles))
            {
                beats.Add((seconds, Math.Max(Math.Floor(before), Math.Floor(cycles))));
            }

            if (Math.Abs(cycles - restCycles) > 0.01)
            {
                (restSince, restCycles) = (seconds, cycles);
            }

            if (seconds - restSince > 6)
            {
                return new CaptureRun(0, true, Db(low), Db(high));
            }

            if (beats.Count > 1 && Math.Abs(beats[^1].Cycles - beats[0].Cycles) >= 10)
            {
                break;
            }
        }

        bool beating = beats.Count > 1 && beats[^1].Cycles != beats[0].Cycles;
        double rate = beating
            ? (beats[^1].Cycles - beats[0].Cycles) / (beats[^1].At - beats[0].At)
            : cycles / (seconds - SettleSeconds);
        return new CaptureRun(rate, false, Db(low), Db(high));
    }

    private static double Db(double power) => 10 * Math.Log10(power + 1e-20);
}
