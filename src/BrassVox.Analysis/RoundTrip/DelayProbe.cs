using BrassVox.Analysis.Transforms;

namespace BrassVox.Analysis.RoundTrip;

/// <summary>Measures the round-trip delay: play <see cref="Signal"/>, record meanwhile, give the recording to <see cref="Measure"/>.</summary>
/// <remarks>
/// Immutable once made; measuring runs on any thread but the sound thread. Three short rising tones are played, so that one
/// cough does no harm and a device that skips is noticed. They are quiet by default; with headphones put the microphone to
/// one ear piece. Subtract the delay from a take to lay it under what was heard while it was played.
/// Source: matched filter of a linear chirp (Klauder and others 1960); the first arrival counts, not the strongest reflection.
/// </remarks>
public sealed class DelayProbe
{
    /// <summary>The longest delay looked for, in seconds.</summary>
    public const double LongestDelaySeconds = 0.5;

    private const double ToneSeconds = 0.15;
    private const double LengthSeconds = 2.25;
    private const double LowestHz = 300.0;
    private const double HighestHz = 6_000.0;
    private const double EdgeSeconds = 0.02;
    private const double AgreeSeconds = 0.001;
    private const double EarlierWithinSeconds = 0.03;
    private const double EarlierAtLeast = 0.2;
    private const double SureEnough = 0.99;

    // Share of the sound under the tone's own span that has to be the tone: 17 dB under the noise at the faintest.
    private const double LeastShare = 0.02;

    // Uneven, so that a delay over half a second cannot pass one tone off as the next.
    private static readonly double[] ToneStartsSeconds = [0.0, 0.7, 1.55];

    private readonly FourierPlan _plan;
    private readonly double[] _toneRe;
    private readonly double[] _toneIm;
    private readonly float[] _signal;
    private readonly int _searched;
    private readonly int[] _starts;
    private readonly double _places;
    private readonly double _toneEnergy;
    private readonly int _toneSamples;

    /// <summary>Prepares the tones.</summary>
    /// <param name="sampleRateHz">Rate of both directions in Hz, 8000 to 192 000.</param>
    /// <param name="levelDbfs">Peak level of the tones in dB re full scale, -60 to -6.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public DelayProbe(int sampleRateHz, double levelDbfs = -20.0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHz, 192_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(levelDbfs, -60.0);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(levelDbfs, -6.0);
        SampleRateHz = sampleRateHz;
        int tone = _toneSamples = (int)(ToneSeconds * sampleRateHz);
        _starts = [.. ToneStartsSeconds.Select(seconds => (int)(seconds * sampleRateHz))];
        _searched = (int)(LongestDelaySeconds * sampleRateHz);
        _plan = new FourierPlan(FourierPlan.FastLength(_searched + (2 * tone)));
        _toneRe = new double[_plan.Length];
        _toneIm = new double[_plan.Length];
        _signal = new float[(int)(LengthSeconds * sampleRateHz)];
        double highestHz = Math.Min(HighestHz, 0.4 * sampleRateHz);
        double amplitude = Math.Pow(10.0, levelDbfs / 20.0);
        for (int n = 0; n < tone; n++)
        {
            double t = (double)n / sampleRateHz;
            double turns = (LowestHz * t) + (0.5 * (highestHz - LowestHz) * t * t / ToneSeconds);
            double edge = Math.Min(Math.Min(t, ToneSeconds - t) / EdgeSeconds, 1.0);
            double envelope = 0.5 - (0.5 * Math.Cos(Math.PI * edge));
            (double sin, double cos) = Math.SinCos(2.0 * Math.PI * turns);
            _toneEnergy += 0.5 * envelope * envelope;
            _toneRe[n] = envelope * cos;
            _toneIm[n] = envelope * sin;
            foreach (int start in _starts)
            {
                _signal[start + n] = (float)(amplitude * envelope * cos);
            }
        }

        _plan.Forward(_toneRe, _toneIm);
        _places = (highestHz - LowestHz) * LongestDelaySeconds;
    }

    /// <summary>Rate in Hz.</summary>
    public int SampleRateHz { get; }

    /// <summary>What to play: about two seconds, full scale 1.</summary>
    public ReadOnlyMemory<float> Signal => _signal;

    /// <summary>Finds the tones in what came back.</summary>
    /// <param name="recorded">Recording from the instant the first sample of <see cref="Signal"/> was handed out, best at least as long and half a second more; samples that are not finite count as 0.</param>
    public DelayReading Measure(ReadOnlySpan<float> recorded)
    {
        double[] delays = new double[_starts.Length];
        double[] sureness = new double[_starts.Length];
        for (int i = 0; i < _starts.Length; i++)
        {
            (delays[i], sureness[i]) = Find(recorded, _starts[i]);
        }

        double[] heard = [.. delays.Where((_, i) => sureness[i] > SureEnough).Order()];
        if (heard.Length < 2)
        {
            return default;
        }

        double spread = heard[^1] - heard[0];
        double middle = heard.MinBy(delay => heard.Sum(other => Math.Abs(other - delay)));
        double[] agreeing = [.. heard.Where(delay => Math.Abs(delay - middle) <= AgreeSeconds * SampleRateHz)];
        double confidence = (double)agreeing.Length / _starts.Length * sureness.Where(s => s > SureEnough).Min();
        return agreeing.Length < 2
            ? new DelayReading(false, 0.0, spread, 0.0)
            : new DelayReading(true, agreeing.Average(), spread, confidence);
    }

    /// <summary>Delay of one tone and the chance that noise would not look like it.</summary>
    private (double DelaySamples, double Sureness) Find(ReadOnlySpan<float> recorded, int start)
    {
        double[] re = new double[_plan.Length];
        double[] im = new double[_plan.Length];
        for (int n = 0; n < re.Length && start + n < recorded.Length; n++)
        {
            float sample = recorded[start + n];
            re[n] = float.IsFinite(sample) && n < _searched + _toneSamples ? sample : 0.0;
        }

        double[] sound = re[..(_searched + _toneSamples)];
        _plan.Forward(re, im);
        for (int k = 0; k < re.Length; k++)
        {
            double product = (re[k] * _toneRe[k]) + (im[k] * _toneIm[k]);
            im[k] = (im[k] * _toneRe[k]) - (re[k] * _toneIm[k]);
            re[k] = product;
        }

        _plan.Inverse(re, im);
        double[] power = new double[_searched];
        for (int n = 0; n < power.Length; n++)
        {
            power[n] = (re[n] * re[n]) + (im[n] * im[n]);
        }

        int place = FirstArrival(power);
        double under = sound.Skip(place).Take(_toneSamples).Sum(x => x * x);
        if (power[place] <= LeastShare * _toneEnergy * under)
        {
            return (0.0, 0.0);
        }

        double background = power.Order().ElementAt(power.Length / 2) / Math.Log(2.0);
        double above = power[place] / Math.Max(background, 1e-30);
        return (place + BetweenSamples(power, place), Math.Pow(1.0 - Math.Exp(-above), _places));
    }

    private int FirstArrival(double[] power)
    {
        int strongest = Array.IndexOf(power, power.Max());
        int from = Math.Max(1, strongest - (int)(EarlierWithinSeconds * SampleRateHz));
        for (int n = from; n < strongest; n++)
        {
            bool peak = power[n] >= power[n - 1] && power[n] > power[n + 1];
            if (peak && power[n] > EarlierAtLeast * power[strongest])
            {
                return n;
            }
        }

        return strongest;
    }

    /// <summary>Top of the parabola through three points of the logarithm.</summary>
    private static double BetweenSamples(double[] power, int place)
    {
        if (place == 0 || place == power.Length - 1 || power[place - 1] <= 0.0 || power[place + 1] <= 0.0)
        {
            return 0.0;
        }

        double before = Math.Log(power[place - 1]), at = Math.Log(power[place]), after = Math.Log(power[place + 1]);
        double bend = before - (2.0 * at) + after;
        return bend < 0.0 ? 0.5 * (before - after) / bend : 0.0;
    }
}
