namespace BrassVox.App.Tui.Sound;

/// <summary>A recording on its way to the loudspeaker, at the line's rate. Made elsewhere, then read by the sound thread alone.</summary>
internal sealed class Replay
{
    private const double RampSeconds = 0.02;
    private readonly float[] _samples;
    private readonly float _step;
    private float _gain;
    private int _position;
    private bool _isLeaving;
    private bool _isDone;

    private Replay(float[] samples, int sampleRateHz)
    {
        _samples = samples;
        _step = (float)(1 / (RampSeconds * sampleRateHz));
    }

    /// <summary>True once nothing more is heard of it.</summary>
    public bool IsDone => Volatile.Read(ref _isDone);

    /// <summary>Prepares a recording: brought to the line's rate and to a loudness. Takes a moment; not on a screen's thread.</summary>
    /// <param name="samples">Mono samples.</param>
    /// <param name="fromHz">Their rate in Hz.</param>
    /// <param name="toHz">The line's rate in Hz.</param>
    /// <param name="levelDb">RMS level wanted, in dBFS; its peak stays under -1 dBFS and it is never raised by more than 24 dB.</param>
    public static Replay Of(float[] samples, int fromHz, int toHz, double levelDb)
    {
        double power = 0;
        float peak = 0;
        foreach (float sample in samples)
        {
            power += (double)sample * sample;
            peak = Math.Max(peak, Math.Abs(sample));
        }

        double rms = Math.Sqrt(power / Math.Max(1, samples.Length));
        double gain = rms <= 0 ? 0 : Math.Min(Math.Min(Math.Pow(10, levelDb / 20) / rms, Math.Pow(10, 24 / 20.0)), Math.Pow(10, -1 / 20.0) / peak);
        float[] turned = new float[(int)((long)samples.Length * toHz / fromHz)];
        for (int i = 0; i < turned.Length; i++)
        {
            // Straight lines between samples: enough to listen back to; what is measured is the file.
            double at = (double)i * fromHz / toHz;
            int before = Math.Min((int)at, samples.Length - 1);
            int after = Math.Min(before + 1, samples.Length - 1);
            turned[i] = (float)(gain * (samples[before] + ((at - before) * (samples[after] - samples[before]))));
        }

        return new Replay(turned, toHz);
    }

    /// <summary>Ends it in 20 ms; from any thread.</summary>
    public void Leave() => Volatile.Write(ref _isLeaving, true);

    /// <summary>On the sound thread: adds its next samples.</summary>
    /// <param name="mono">The block.</param>
    public void AddTo(Span<float> mono)
    {
        if (_isDone)
        {
            return;
        }

        bool leaving = Volatile.Read(ref _isLeaving);
        for (int i = 0; i < mono.Length && _position < _samples.Length; i++)
        {
            _gain = Math.Clamp(_gain + (leaving ? -_step : _step), 0, 1);
            mono[i] += _gain * _samples[_position++];
        }

        if (_position >= _samples.Length || (leaving && _gain <= 0))
        {
            Volatile.Write(ref _isDone, true);
        }
    }
}
