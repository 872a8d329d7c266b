using BrassVox.Analysis.Transforms;

namespace BrassVox.Analysis.Bleed;

/// <summary>The way from loudspeaker to microphone as learned from a drone, so that the drone can be taken out of a recording.</summary>
/// <remarks>
/// Immutable, any thread. Learn it from two or more seconds of drone alone where that can be had: then even a player in unison
/// with the drone is left untouched. Learned from the take itself it takes as bleed whatever stands still against the drone; it
/// tells a player d Hz away from a partial of the drone apart from that partial when the take lasts 2/d seconds or more
/// (6 s for 5 cents at Bb2). Loudspeaker and microphone have to run on one clock.
/// Source: least squares over the take (Wiener 1949), normal equations of Toeplitz form; the jackknife of two halves (Tukey 1958) says how much is left.
/// </remarks>
public sealed class BleedFilter
{
    /// <summary>The shortest recording that can be learned from, in seconds.</summary>
    public const double ShortestSeconds = 1.0;

    private const double Ridge = 1e-6;
    private const int SolveSteps = 60;
    private const double HushSeconds = 0.05;

    private readonly double[] _coefficients;

    private BleedFilter(int sampleRateHz, int delaySamples, double[] coefficients, double bleedDbfs, double leftDb)
    {
        SampleRateHz = sampleRateHz;
        DelaySamples = delaySamples;
        _coefficients = coefficients;
        BleedDbfs = bleedDbfs;
        LeftDb = leftDb;
    }

    /// <summary>Rate in Hz.</summary>
    public int SampleRateHz { get; }

    /// <summary>Delay before the first coefficient, in samples.</summary>
    public int DelaySamples { get; }

    /// <summary>Impulse response from loudspeaker to microphone after <see cref="DelaySamples"/>.</summary>
    public ReadOnlySpan<double> Coefficients => _coefficients;

    /// <summary>RMS level of the bleed while learning, in dB re a full-scale square (a sine of amplitude 1 reads -3.01); -200 for none.</summary>
    public double BleedDbfs { get; }

    /// <summary>
    /// How much of the bleed is left after cancelling, in dB against the bleed before (negative; 0 when nothing is gained), as
    /// estimated from how far two filters differ that were learned from the two halves. The loudspeaker's own distortion, a
    /// moving microphone and noise are not in it.
    /// </summary>
    public double LeftDb { get; }

    /// <summary>Learns the way from a recording in which the drone sounds, alone or under a player.</summary>
    /// <param name="reference">What was sent to the loudspeaker, full scale 1.</param>
    /// <param name="microphone">What the microphone gave, same clock; the shorter of the two counts. Values that are not finite count as 0.</param>
    /// <param name="sampleRateHz">Rate of both in Hz, at least 8000.</param>
    /// <param name="delaySamples">Round-trip delay in samples, best a little less than measured; 0 when not known.</param>
    /// <param name="responseSeconds">Length of the response learned, 0.01 to 0.5 s: it has to hold the room, and the delay where that is not known.</param>
    /// <returns>The filter; null when less than <see cref="ShortestSeconds"/> are given or the reference is silent.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static BleedFilter? Learn(
        ReadOnlySpan<float> reference,
        ReadOnlySpan<float> microphone,
        int sampleRateHz,
        int delaySamples = 0,
        double responseSeconds = 0.25)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfNegative(delaySamples);
        ArgumentOutOfRangeException.ThrowIfLessThan(responseSeconds, 0.01);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(responseSeconds, 0.5);
        int length = Math.Min(reference.Length, microphone.Length - delaySamples);
        if (length < ShortestSeconds * sampleRateHz)
        {
            return null;
        }

        double[] x = Finite(reference[..length]);
        double[] y = Finite(microphone.Slice(delaySamples, length));
        if (Power(x) <= 0.0)
        {
            return null;
        }

        int taps = (int)(responseSeconds * sampleRateHz);
        int half = length / 2;
        double[] whole = Fit(x, y, 0, length, taps);
        double[] early = Fit(x, y, 0, half, taps);
        double[] late = Fit(x, y, half, length, taps);
        for (int i = 0; i < taps; i++)
        {
            late[i] -= early[i];
        }

        double bleed = Power(FirFilter.Whole(whole, x));
        double doubt = 0.25 * Power(FirFilter.Whole(late, x));
        return new BleedFilter(
            sampleRateHz,
            delaySamples,
            whole,
            Decibels(bleed / length),
            bleed > 0.0 ? Math.Min(0.0, Decibels(doubt / bleed)) : 0.0);
    }

    /// <summary>The recording without the drone.</summary>
    /// <param name="reference">What was sent to the loudspeaker; silence is assumed after its end.</param>
    /// <param name="microphone">What the microphone gave, same clock.</param>
    /// <param name="silentBelowDb">
    /// Stretches of 50 ms in which what remains lies further under the bleed taken out than this, in dB (negative), are set to 0:
    /// they hold nothing but remains of the drone, which would be measured as a player in tune. By default nothing is.
    /// </param>
    /// <returns>As many samples as the recording has; samples that were not finite are 0.</returns>
    public float[] Clean(
        ReadOnlySpan<float> reference, ReadOnlySpan<float> microphone, double silentBelowDb = double.NegativeInfinity)
    {
        double[] sent = new double[microphone.Length];
        int count = Math.Min(reference.Length, microphone.Length - DelaySamples);
        if (count > 0)
        {
            Finite(reference[..count]).CopyTo(sent, DelaySamples);
        }

        double[] bleed = FirFilter.Whole(_coefficients, sent);
        float[] clean = new float[microphone.Length];
        for (int i = 0; i < clean.Length; i++)
        {
            clean[i] = float.IsFinite(microphone[i]) ? (float)(microphone[i] - bleed[i]) : 0f;
        }

        Hush(clean, bleed, Math.Pow(10.0, silentBelowDb / 10.0), (int)(HushSeconds * SampleRateHz));
        return clean;
    }

    private static void Hush(Span<float> clean, ReadOnlySpan<double> bleed, double share, int stretch)
    {
        for (int start = 0; start < clean.Length; start += stretch)
        {
            Span<float> part = clean.Slice(start, Math.Min(stretch, clean.Length - start));
            double left = 0.0;
            foreach (float sample in part)
            {
                left += (double)sample * sample;
            }

            if (left < share * Power(bleed.Slice(start, part.Length)))
            {
                part.Clear();
            }
        }
    }

    /// <summary>Least squares over samples <paramref name="from"/> to <paramref name="to"/>, both signals faded in and out.</summary>
    /// <remarks>
    /// Fading the signals instead of the error keeps the matrix Toeplitz. What is neglected, (fade x (h * x)) - (h * (fade x x)), is
    /// odd about the middle and cancels but for a second-order rest, some -50 dB for a room of 100 ms and 2 s of sound.
    /// </remarks>
    private static double[] Fit(double[] x, double[] y, int from, int to, int taps)
    {
        double[] sent = new double[to - from];
        double[] heard = new double[to - from];
        for (int n = 0; n < sent.Length; n++)
        {
            double fade = Math.Sin(Math.PI * (n + 0.5) / sent.Length);
            sent[n] = fade * x[from + n];
            heard[n] = fade * y[from + n];
        }

        return new ToeplitzSystem(Lags.Of(sent, sent, taps), Ridge).Solve(Lags.Of(heard, sent, taps), SolveSteps);
    }

    private static double[] Finite(ReadOnlySpan<float> samples)
    {
        double[] finite = new double[samples.Length];
        for (int i = 0; i < finite.Length; i++)
        {
            finite[i] = float.IsFinite(samples[i]) ? samples[i] : 0.0;
        }

        return finite;
    }

    private static double Power(ReadOnlySpan<double> samples)
    {
        double sum = 0.0;
        foreach (double sample in samples)
        {
            sum += sample * sample;
        }

        return sum;
    }

    private static double Decibels(double power) => 10.0 * Math.Log10(Math.Max(power, 1e-20));
}
