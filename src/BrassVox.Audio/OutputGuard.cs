namespace BrassVox.Audio;

/// <summary>
/// Last stage before a device, which no preset and no fault can get around: finite, at most -1 dB of full scale, and
/// ramped over 50 ms at the line's start and end. A signal that keeps to -1 dB passes unchanged after the first ramp.
/// Sound thread only; the counters may be read from any thread.
/// </summary>
internal sealed class OutputGuard
{
    /// <summary>-1 dB of full scale.</summary>
    internal const float Ceiling = 0.891251f;

    /// <summary>Length of the ramps in ms.</summary>
    internal const double RampMs = 50;

    private readonly int _channels;
    private readonly int _rampSamples;
    private int _position;
    private bool _closing;
    private long _heldSamples;
    private long _nonFiniteSamples;

    /// <summary>Makes a guard that opens with a ramp.</summary>
    /// <param name="format">Format of the line.</param>
    internal OutputGuard(LineFormat format)
    {
        _channels = format.Channels;
        _rampSamples = Math.Max(1, (int)(format.SampleRateHz * RampMs / 1000));
    }

    /// <summary>Samples held to the ceiling.</summary>
    internal long HeldSamples => Interlocked.Read(ref _heldSamples);

    /// <summary>Samples that were no number or infinite, and were silenced.</summary>
    internal long NonFiniteSamples => Interlocked.Read(ref _nonFiniteSamples);

    /// <summary>True once the closing ramp has reached silence.</summary>
    internal bool IsClosed => _closing && _position == 0;

    /// <summary>Begins the closing ramp.</summary>
    internal void Close() => _closing = true;

    /// <summary>Guards a block in place.</summary>
    /// <param name="interleaved">Whole samples of all channels.</param>
    internal void Process(Span<float> interleaved)
    {
        for (int i = 0; i < interleaved.Length; i++)
        {
            float sample = interleaved[i];
            if (!float.IsFinite(sample))
            {
                interleaved[i] = 0;
                Interlocked.Increment(ref _nonFiniteSamples);
            }
            else if (Math.Abs(sample) > Ceiling)
            {
                interleaved[i] = sample > 0 ? Ceiling : -Ceiling;
                Interlocked.Increment(ref _heldSamples);
            }
        }

        if (_closing || _position < _rampSamples)
            Ramp(interleaved);
    }

    private void Ramp(Span<float> interleaved)
    {
        for (int i = 0; i + _channels <= interleaved.Length; i += _channels)
        {
            _position = Math.Clamp(_position + (_closing ? -1 : 1), 0, _rampSamples);
            float gain = (float)(0.5 - 0.5 * Math.Cos(Math.PI * _position / _rampSamples));
            for (int channel = 0; channel < _channels; channel++)
                interleaved[i + channel] *= gain;
        }
    }
}
