using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>
/// The flow through the lips: their opening times the square root of the pressure in the mouth, which the voice modulates.
/// Here the square root of 1 + m v as a Fourier series over one period of the voice.
/// </summary>
/// <remarks>Source: Bernoulli flow through a valve, u proportional to a(t) sqrt(1 + m v(t)); line levels follow from the two Fourier series (exact mathematics).</remarks>
internal sealed class FlowValve
{
    private const int Points = 128;

    /// <summary>Mean of an opening that is shut for half of each period, over the root mean square of its alternating part: (1/pi) / sqrt(1/4 - 1/pi^2).</summary>
    /// <remarks>Source: lips closed about half of each cycle, A. Tarnopolsky and others, JASA 119 (2006).</remarks>
    internal const double MeanOverAlternating = 0.825516;

    private readonly float[] _cosine = new float[Points * VoiceTone.MostMouthPartials];
    private readonly float[] _sine = new float[Points * VoiceTone.MostMouthPartials];
    private readonly float[] _cycle = new float[Points];

    internal FlowValve()
    {
        for (int n = 0; n < VoiceTone.MostMouthPartials; n++)
        {
            for (int j = 0; j < Points; j++)
            {
                (double sine, double cosine) = Math.SinCos(2 * Math.PI * (n + 1) * j / Points);
                _cosine[(n * Points) + j] = (float)cosine;
                _sine[(n * Points) + j] = (float)sine;
            }
        }
    }

    /// <summary>Replaces the partials of the mouth's pressure by those of the square root and returns the square root's mean.</summary>
    /// <param name="modulation">m, 0 to below 1; the pressure is first scaled to a peak of 1.</param>
    /// <param name="count">How many partials come in and go out.</param>
    /// <param name="real">Real parts, in place.</param>
    /// <param name="imaginary">Imaginary parts, in place.</param>
    internal double Apply(double modulation, int count, Span<float> real, Span<float> imaginary)
    {
        if (count == 0 || modulation <= 0)
        {
            real.Clear();
            imaginary.Clear();
            return 1;
        }

        int width = Vector<float>.Count;
        Vector<float> peak = default;
        for (int j = 0; j < Points; j += width)
        {
            Vector<float> sum = default;
            for (int n = 0; n < count; n++)
            {
                sum += (real[n] * new Vector<float>(_cosine, (n * Points) + j)) - (imaginary[n] * new Vector<float>(_sine, (n * Points) + j));
            }

            sum.CopyTo(_cycle, j);
            peak = Vector.Max(peak, Vector.Abs(sum));
        }

        float highest = 1e-20f;
        for (int i = 0; i < width; i++)
        {
            highest = Math.Max(highest, peak[i]);
        }

        Vector<float> scale = new((float)(modulation / highest));
        Vector<float> total = default;
        for (int j = 0; j < Points; j += width)
        {
            Vector<float> root = Vector.SquareRoot(Vector.Max(Vector<float>.Zero, Vector<float>.One + (scale * new Vector<float>(_cycle, j))));
            root.CopyTo(_cycle, j);
            total += root;
        }

        for (int n = 0; n < count; n++)
        {
            Vector<float> sumReal = default;
            Vector<float> sumImaginary = default;
            for (int j = 0; j < Points; j += width)
            {
                Vector<float> root = new(_cycle, j);
                sumReal += root * new Vector<float>(_cosine, (n * Points) + j);
                sumImaginary -= root * new Vector<float>(_sine, (n * Points) + j);
            }

            real[n] = Vector.Sum(sumReal) * (2f / Points);
            imaginary[n] = Vector.Sum(sumImaginary) * (2f / Points);
        }

        return Vector.Sum(total) / Points;
    }
}
