namespace BrassVox.App.Tui.Sound;

/// <summary>
/// One plain tone, so that what a loudspeaker carries is heard and not its partials. The screens' thread sets it; the sound
/// thread adds it to what is played, with ramps of 60 ms.
/// </summary>
internal sealed class TestTone
{
    private const double RampSeconds = 0.06;
    private double _frequencyHz = 100;
    private double _amplitude;
    private double _rate = 48000;
    private double _phase;
    private double _now;

    /// <summary>True until it has been asked to end. The screens' thread.</summary>
    public bool IsAsked => Volatile.Read(ref _amplitude) > 0;

    /// <summary>Before the line is started.</summary>
    /// <param name="sampleRateHz">Rate in Hz.</param>
    public void Prepare(int sampleRateHz) => _rate = sampleRateHz;

    /// <summary>Begins, or changes.</summary>
    /// <param name="frequencyHz">Frequency in Hz.</param>
    /// <param name="amplitude">Amplitude, full scale 1.</param>
    public void Begin(double frequencyHz, double amplitude)
    {
        Volatile.Write(ref _frequencyHz, frequencyHz);
        Volatile.Write(ref _amplitude, amplitude);
    }

    /// <summary>Ends by its ramp.</summary>
    public void End() => Volatile.Write(ref _amplitude, 0);

    /// <summary>On the sound thread: adds itself.</summary>
    /// <param name="mono">What is played.</param>
    public void AddTo(Span<float> mono)
    {
        double wanted = Volatile.Read(ref _amplitude);
        if (wanted == 0 && _now == 0)
        {
            return;
        }

        double step = Math.Tau * Volatile.Read(ref _frequencyHz) / _rate;
        double most = 1 / (RampSeconds * _rate);
        for (int i = 0; i < mono.Length; i++)
        {
            _now = wanted > _now ? Math.Min(wanted, _now + (wanted * most)) : Math.Max(wanted, _now - (Math.Max(_now, 0.001) * 8 * most));
            _now = wanted == 0 && _now < 1e-6 ? 0 : _now;
            _phase += step;
            _phase = _phase > Math.Tau ? _phase - Math.Tau : _phase;
            mono[i] += (float)(_now * Math.Sin(_phase));
        }
    }
}
