namespace BrassVox.Synthesis;

/// <summary>
/// What a bell lets out: 6 dB per octave up to ka = 1, level beyond. A first-order high-pass whose corner is c / (pi D).
/// </summary>
/// <remarks>Source: radiation turns from reflecting to letting through near ka = 1 (A. Benade, Fundamentals of Musical Acoustics); one pole is our simplification.</remarks>
internal sealed class BellRadiation
{
    private readonly double _pole;
    private readonly double _gain;
    private double _lastIn;
    private double _lastOut;

    internal BellRadiation(double diameterMm, int sampleRateHz)
    {
        CornerHz = SpeedOfSoundMetresPerSecond / (Math.PI * diameterMm * 0.001);
        double warped = Math.Tan(Math.PI * CornerHz / sampleRateHz);
        _pole = (1 - warped) / (1 + warped);
        _gain = 1 / (1 + warped);
    }

    /// <summary>Speed of sound in m/s at 20 degrees C (ISO 9613-1).</summary>
    internal const double SpeedOfSoundMetresPerSecond = 343.2;

    internal double CornerHz { get; }

    internal void Reset()
    {
        _lastIn = 0;
        _lastOut = 0;
    }

    /// <summary>Tangent of the frequency over tangent of the corner: the response is i x / (1 + i x), exactly, for this filter.</summary>
    internal static double Ratio(double frequencyHz, double cornerHz, int sampleRateHz) =>
        Math.Tan(Math.PI * frequencyHz / sampleRateHz) / Math.Tan(Math.PI * cornerHz / sampleRateHz);

    /// <summary>Filters two signals of the same length side by side, in place: each waits for itself, so two cost little more than one.</summary>
    internal static void Process(BellRadiation first, Span<float> firstSamples, BellRadiation second, Span<float> secondSamples)
    {
        double pole = first._pole;
        double gain = first._gain;
        double firstIn = first._lastIn, firstOut = first._lastOut;
        double secondIn = second._lastIn, secondOut = second._lastOut;
        secondSamples = secondSamples[..firstSamples.Length];
        for (int i = 0; i < firstSamples.Length; i++)
        {
            double now = firstSamples[i];
            firstOut = Math.FusedMultiplyAdd(pole, firstOut, gain * (now - firstIn));
            firstIn = now;
            firstSamples[i] = (float)firstOut;
            now = secondSamples[i];
            secondOut = Math.FusedMultiplyAdd(pole, secondOut, gain * (now - secondIn));
            secondIn = now;
            secondSamples[i] = (float)secondOut;
        }

        first.Keep(firstIn, firstOut);
        second.Keep(secondIn, secondOut);
    }

    /// <summary>True when silence in gives silence out.</summary>
    internal bool IsSilent => _lastIn == 0 && _lastOut == 0;

    private void Keep(double lastIn, double lastOut)
    {
        _lastIn = lastIn;
        _lastOut = Math.Abs(lastOut) < 1e-20 ? 0 : lastOut;
    }
}
