using BrassVox.Practice.Sessions;

namespace BrassVox.App.Cli;

/// <summary>Mixes what an input line delivers to mono and hands it to a session. Allocates nothing on the sound thread.</summary>
internal sealed class MicrophoneFeed
{
    private PlayAlongSession? _session;
    private float[] _mono = [];
    private int _channels = 1;

    /// <summary>Before the line is started.</summary>
    public void Connect(PlayAlongSession session, int channels, int periodSamples)
    {
        _channels = channels;
        _mono = new float[periodSamples];
        _session = session;
    }

    /// <summary>On the sound thread.</summary>
    public void Take(ReadOnlySpan<float> interleaved)
    {
        int count = Math.Min(interleaved.Length / _channels, _mono.Length);
        Span<float> mono = _mono.AsSpan(0, count);
        for (int i = 0; i < count; i++)
        {
            float sum = 0;
            for (int channel = 0; channel < _channels; channel++)
            {
                sum += interleaved[(i * _channels) + channel];
            }

            mono[i] = sum / _channels;
        }

        _session?.Hear(mono);
    }
}
