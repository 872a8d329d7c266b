using System.Numerics;

namespace BrassVox.Benchmarks.Living;

/// <summary>Pitch and lines of a recording by windowed sums, written apart from the product.</summary>
internal static class LineMeter
{
    private const int Harmonics = 8;

    /// <summary>Complex amplitude at a frequency, through a Hann window.</summary>
    internal static Complex Line(ReadOnlySpan<float> sound, int rate, double hz)
    {
        Complex sum = Complex.Zero;
        Complex pointer = Complex.One;
        var turn = Complex.FromPolarCoordinates(1, -2 * Math.PI * hz / rate);
        Complex hann = Complex.One;
        var hannTurn = Complex.FromPolarCoordinates(1, 2 * Math.PI / sound.Length);
        for (int i = 0; i < sound.Length; i++)
        {
            sum += sound[i] * (1 - hann.Real) * pointer;
            pointer *= turn;
            hann *= hannTurn;
        }

        return 2 * sum / sound.Length;
    }

    /// <summary>Cents by which a steady tone lies off a pitch: phases of its harmonics in two halves; NaN when the harmonics of the pitch hold less than half of the power.</summary>
    internal static double OffCents(ReadOnlySpan<float> sound, int rate, double hz)
    {
        double found = hz;
        double share = 0;
        foreach (double shiftPeriods in (ReadOnlySpan<double>)[2, 10, 50])
        {
            int shift = (int)Math.Min(shiftPeriods * rate / hz, sound.Length * 0.4);
            int length = sound.Length - shift;
            double weighted = 0;
            double weights = 0;
            double power = 0;
            for (int k = 1; k <= Harmonics; k++)
            {
                double turn = 2 * Math.PI * k * found / rate;
                Complex before = Line(sound[..length], rate, k * found);
                Complex after = Line(sound[shift..], rate, k * found) * Complex.FromPolarCoordinates(1, -turn * shift);
                double weight = before.Magnitude * before.Magnitude * k * k;
                weighted += weight * (after / before).Phase * rate / (2 * Math.PI * k * shift);
                weights += weight;
                power += 0.5 * before.Magnitude * before.Magnitude;
            }

            found += weighted / weights;
            double total = 0;
            foreach (float sample in sound)
            {
                total += (double)sample * sample / sound.Length;
            }

            share = power / total;
        }

        return share < 0.5 ? double.NaN : 1200 * Math.Log2(found / hz);
    }

    /// <summary>Pitch of a steady tone between two limits, by the shortest lag at which the sound repeats itself; NaN when it does not.</summary>
    internal static double Repeating(ReadOnlySpan<float> sound, int rate, double lowHz, double highHz)
    {
        int shortest = (int)(rate / highHz);
        int longest = (int)(rate / lowHz) + 2;
        int length = Math.Min(sound.Length - longest, rate / 4);
        var match = new double[longest + 1];
        double best = 0;
        for (int lag = shortest; lag <= longest; lag++)
        {
            double product = 0;
            double square = 1e-20;
            for (int i = 0; i < length; i++)
            {
                product += sound[i] * sound[i + lag];
                square += 0.5 * ((sound[i] * sound[i]) + (sound[i + lag] * sound[i + lag]));
            }

            match[lag] = product / square;
            best = Math.Max(best, match[lag]);
        }

        for (int lag = shortest + 1; lag < longest; lag++)
        {
            (double before, double now, double after) = (match[lag - 1], match[lag], match[lag + 1]);
            if (now > 0.97 * best && now >= before && now >= after && best > 0.9)
            {
                return rate / (lag + (0.5 * (before - after) / (before - (2 * now) + after)));
            }
        }

        return double.NaN;
    }
}
