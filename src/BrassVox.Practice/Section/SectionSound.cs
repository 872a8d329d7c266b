using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Section;

/// <summary>Two to five brass tones at once, each on its own path: as entered, then sliding to where they stand still.</summary>
public sealed class SectionSound : ISoundSource
{
    private const int SlideSteps = 2;
    private readonly IPairEngine[] _players;
    private readonly PitchPath[] _paths;
    private readonly double _seconds;
    private float[] _scratch = [];
    private int _sampleRateHz;

    /// <summary>Makes the sound; nothing is prepared yet.</summary>
    /// <param name="presets">The tones.</param>
    /// <param name="report">The section.</param>
    /// <param name="holdSeconds">How long it stands as entered, and how long afterwards, in seconds, at least 1.</param>
    /// <param name="slides">False leaves it as entered throughout.</param>
    public SectionSound(TonePresets presets, SectionReport report, double holdSeconds, bool slides)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(holdSeconds, 1);
        _seconds = slides ? (2 * holdSeconds) + SlideSteps : holdSeconds;
        _players = [.. report.Tones.Select(tone => new FlowPair(presets.BrassById(BrassOf(tone.FrequencyHz)), presets.Voices[0], tone.Player))];
        _paths = [.. report.Tones.Zip(report.Moves).Select(pair => slides && Math.Abs(pair.Second.Cents) > 0.001
            ? new PitchPath((holdSeconds, pair.First.FrequencyHz), (holdSeconds + SlideSteps, pair.Second.ToHz))
            : PitchPath.Constant(pair.First.FrequencyHz))];
    }

    /// <summary>Length in seconds; silence follows.</summary>
    public double Seconds => _seconds;

    /// <inheritdoc/>
    public void Prepare(RenderFormat format)
    {
        _scratch = new float[format.MaxBlockSamples];
        _sampleRateHz = format.SampleRateHz;
        foreach (IPairEngine player in _players)
        {
            player.Prepare(format);
        }

        Begin();
    }

    /// <inheritdoc/>
    public void Render(Span<float> output)
    {
        output.Clear();
        Span<float> one = _scratch.AsSpan(0, output.Length);
        float share = 1f / _players.Length;
        foreach (IPairEngine player in _players)
        {
            player.Render(one);
            for (int i = 0; i < one.Length; i++)
            {
                output[i] += share * one[i];
            }
        }
    }

    /// <inheritdoc/>
    public void Reset()
    {
        foreach (IPairEngine player in _players)
        {
            player.Reset();
        }

        Begin();
    }

    private void Begin()
    {
        for (int i = 0; i < _players.Length; i++)
        {
            IPairEngine player = _players[i];
            player.CouplingDepth.Target = 0;
            player.TryPost(PairEvent.Gain((int)VoiceRole.Sung, -80));
            player.TryPost(PairEvent.Pitch(VoiceRole.Played, _paths[i]));
            player.TryPost(PairEvent.Start());
            player.TryPost(PairEvent.Stop((long)((_seconds - 0.1) * _sampleRateHz)));
        }
    }

    // The instrument that usually plays there.
    private static string BrassOf(double hz) => hz switch
    {
        < 87 => "tuba",
        < 233 => "trombone",
        < 350 => "horn",
        _ => "trumpet",
    };
}
