using System.Numerics;
using System.Runtime.InteropServices;

namespace BrassVox.Analysis.Tracking;

/// <summary>What two fitted tones make together by modulation, as far as their own lines foretell it: kP + jS and kP - jS.</summary>
/// <remarks>
/// The product of the tones has lines at the sums and differences of theirs, with the products of their amplitudes (a product of
/// two cosines is half the sum and half the difference, an identity). One complex factor for all sums and one for all differences are fitted: two
/// numbers, where a third tone would need one for each of its lines. That is what tells coupling from a tone. Differences below zero show mirrored and would
/// want a factor of their own where the instrument turns phases; with one, a twelfth was told wrong in one of 184 made mixes, so they share it.
/// </remarks>
internal sealed class CouplingProduct(WindowSpectrum spectrum)
{
    // Harmonics of either tone that are multiplied.
    private const int Highest = 12;

    // Half the width of a line through a Hann window.
    private const double MainLobeUnits = 2.0;

    // Products of two lines that were not found are nothing to divide by.
    private const double LeastSquare = 1e-30;

    private readonly WindowSpectrum _spectrum = spectrum;
    private readonly float[] _re = new float[spectrum.Re.Length];
    private readonly float[] _im = new float[spectrum.Re.Length];

    private double UnitsPerBin => _spectrum.BinHz / _spectrum.ResolutionHz;

    /// <summary>Takes the product's best share out of a spectrum, but where the tones' own lines lie: what falls there the fit has taken already.</summary>
    /// <param name="re">Real part of what a fit of the lines has left, levelled.</param>
    /// <param name="im">Its imaginary part.</param>
    /// <param name="lines">Lines of both tones, the levelling taken out of their amplitudes.</param>
    /// <param name="playedHz">P in Hz.</param>
    /// <param name="sungHz">S in Hz.</param>
    /// <returns>The sum of the squares taken.</returns>
    public double TakeFrom(Span<float> re, Span<float> im, LineFit lines, double playedHz, double sungHz)
    {
        double sum = 0.0;
        for (int side = -1; side <= 1; side += 2)
        {
            Build(lines, playedHz, sungHz, side);
            ClearOwn(lines);
            sum += TakeShare(re, im);
        }

        return sum;
    }

    private void Build(LineFit lines, double playedHz, double sungHz, int side)
    {
        Array.Clear(_re);
        Array.Clear(_im);
        for (int i = 0; i < lines.Count; i++)
        {
            for (int j = 0; lines.PlayedNumber[i] is >= 1 and <= Highest && j < lines.Count; j++)
            {
                if (lines.SungNumber[j] is >= 1 and <= Highest)
                {
                    AddLine(
                        (lines.PlayedNumber[i] * playedHz) + (side * lines.SungNumber[j] * sungHz),
                        (lines.Re[i] * lines.Re[j]) - (side * lines.Im[i] * lines.Im[j]),
                        (lines.Im[i] * lines.Re[j]) + (side * lines.Re[i] * lines.Im[j]));
                }
            }
        }
    }

    private void ClearOwn(LineFit lines)
    {
        for (int i = 0; i < lines.Count; i++)
        {
            (int from, int to) = Around(lines.FrequencyHz[i] / _spectrum.BinHz, 1.0 / UnitsPerBin);
            int count = Math.Max(0, to - from + 1);
            _re.AsSpan(from, count).Clear();
            _im.AsSpan(from, count).Clear();
        }
    }

    private void AddLine(double hz, double re, double im)
    {
        if (hz < 0.0)
        {
            (hz, im) = (-hz, -im);
        }

        double unitsPerBin = UnitsPerBin;
        double centre = hz / _spectrum.BinHz;
        float gain = (float)_spectrum.GainAt(hz);
        (int from, int to) = Around(centre, MainLobeUnits / unitsPerBin);
        for (int bin = from; bin <= to; bin++)
        {
            float kernel = gain * (float)HannKernel.At((bin - centre) * unitsPerBin);
            _re[bin] += (float)re * kernel;
            _im[bin] += (float)im * kernel;
        }
    }

    private double TakeShare(Span<float> leftRe, Span<float> leftIm)
    {
        ReadOnlySpan<Vector<float>> madeRe = MemoryMarshal.Cast<float, Vector<float>>(_re.AsSpan());
        ReadOnlySpan<Vector<float>> madeIm = MemoryMarshal.Cast<float, Vector<float>>(_im.AsSpan());
        Span<Vector<float>> toRe = MemoryMarshal.Cast<float, Vector<float>>(leftRe);
        Span<Vector<float>> toIm = MemoryMarshal.Cast<float, Vector<float>>(leftIm);
        Vector<float> sumRe = Vector<float>.Zero;
        Vector<float> sumIm = Vector<float>.Zero;
        Vector<float> sumSquare = Vector<float>.Zero;
        for (int i = 0; i < madeRe.Length; i++)
        {
            sumRe += (toRe[i] * madeRe[i]) + (toIm[i] * madeIm[i]);
            sumIm += (toIm[i] * madeRe[i]) - (toRe[i] * madeIm[i]);
            sumSquare += (madeRe[i] * madeRe[i]) + (madeIm[i] * madeIm[i]);
        }

        double re = Vector.Sum(sumRe);
        double im = Vector.Sum(sumIm);
        double square = Vector.Sum(sumSquare) + LeastSquare;
        Vector<float> factorRe = new((float)(re / square));
        Vector<float> factorIm = new((float)(im / square));
        for (int i = 0; i < madeRe.Length; i++)
        {
            toRe[i] -= (factorRe * madeRe[i]) - (factorIm * madeIm[i]);
            toIm[i] -= (factorRe * madeIm[i]) + (factorIm * madeRe[i]);
        }

        return ((re * re) + (im * im)) / square;
    }

    private (int From, int To) Around(double centre, double reach) =>
        (Math.Max(0, (int)Math.Ceiling(centre - reach)), Math.Min(_re.Length - 1, (int)Math.Floor(centre + reach)));
}
