using BrassVox.Audio;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui.Sound;

/// <summary>
/// What one output line calls for its blocks. Each line has its own, so that a line that is being closed and the one that
/// follows it never render one engine from two sound threads.
/// </summary>
/// <param name="tone">A plain tone that is added while it is asked for.</param>
internal sealed class Outlet(TestTone tone)
{
    private readonly TestTone _tone = tone;
    private IPairEngine? _engine;
    private TakeBlock? _tap;
    private FillBlock? _click;
    private int _clickChannel;
    private Replay? _replay;
    private float[] _mono = [];
    private float[] _clicks = [];
    private int _channels = 1;

    /// <summary>Before the line is started.</summary>
    /// <param name="granted">What the line was granted.</param>
    public void Prepare(LineFormat granted)
    {
        _channels = granted.Channels;
        _tone.Prepare(granted.SampleRateHz);
        _mono = new float[granted.PeriodSamples];
        _clicks = new float[granted.PeriodSamples];
    }

    /// <summary>Renders this engine from the next block on.</summary>
    /// <param name="engine">A prepared engine, or null for silence.</param>
    public void Use(IPairEngine? engine) => Volatile.Write(ref _engine, engine);

    /// <summary>Hands on what is rendered from the next block on, on the sound thread.</summary>
    /// <param name="listener">Told of each mono block, or null for nobody.</param>
    public void Tap(TakeBlock? listener) => Volatile.Write(ref _tap, listener);

    /// <summary>Mixes clicks in from the next block on.</summary>
    /// <param name="click">Overwrites a block with clicks, on the sound thread; null for none.</param>
    /// <param name="channel">Channel from 1 that the click has for itself; 0, or one the line does not have, mixes it in.</param>
    public void Click(FillBlock? click, int channel)
    {
        Volatile.Write(ref _clickChannel, channel <= _channels ? channel : 0);
        Volatile.Write(ref _click, click);
    }

    /// <summary>Adds a recording to what is rendered, from the next block on.</summary>
    /// <param name="replay">The recording, or null for none.</param>
    public void Add(Replay? replay) => Volatile.Write(ref _replay, replay);

    /// <summary>On the line's sound thread: the mono engine on every channel.</summary>
    /// <param name="interleaved">The block, overwritten.</param>
    public void Fill(Span<float> interleaved)
    {
        int count = interleaved.Length / _channels;
        if (Volatile.Read(ref _engine) is not { } engine || count > _mono.Length)
        {
            interleaved.Clear();
            return;
        }

        Span<float> mono = _mono.AsSpan(0, count);
        engine.Render(mono);
        _tone.AddTo(mono);
        FillBlock? click = Volatile.Read(ref _click);
        int own = click is null ? 0 : Volatile.Read(ref _clickChannel);
        Span<float> clicks = _clicks.AsSpan(0, count);
        click?.Invoke(clicks);
        if (click is not null && own == 0)
        {
            for (int i = 0; i < count; i++)
            {
                mono[i] += clicks[i];
            }
        }

        Volatile.Read(ref _replay)?.AddTo(mono);
        Volatile.Read(ref _tap)?.Invoke(mono);
        for (int i = 0; i < count; i++)
        {
            interleaved.Slice(i * _channels, _channels).Fill(mono[i]);
            if (own > 0)
            {
                interleaved[(i * _channels) + own - 1] = clicks[i];
            }
        }
    }
}
