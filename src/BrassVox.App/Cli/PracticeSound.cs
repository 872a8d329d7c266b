using BrassVox.Audio;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary>A pair engine playing on a line, for exercises without a screen.</summary>
internal sealed class PracticeSound : IAsyncDisposable
{
    private readonly IPairEngine _engine;
    private float[] _mono = [];
    private TakeBlock? _tap;
    private FillBlock? _click;
    private float[] _clicks = [];
    private int _clickChannel;
    private int _channels;

    private PracticeSound(IPairEngine engine) => _engine = engine;

    public IPairEngine Engine => _engine;

    public LineOpening Opening { get; private set; } = null!;

    /// <summary>Opens the system's default output and starts it, tacet.</summary>
    public static PracticeSound Open(IAudioSystem audio, TonePresets tones, PlayerProfile profile, int channels = 2)
    {
        var sound = new PracticeSound(PlayerTones.Engine(tones, profile));
        sound.Opening = audio.OpenOutput(new LineRequest(Channels: channels), sound.Fill);
        LineFormat granted = sound.Opening.Line.Granted;
        sound._channels = granted.Channels;
        sound._mono = new float[granted.PeriodSamples];
        sound._clicks = new float[granted.PeriodSamples];
        sound._engine.Prepare(new RenderFormat(granted.SampleRateHz, granted.PeriodSamples));
        sound._engine.LevelDb.Target = StartLevelDb;
        sound.Opening.Line.Start();
        return sound;
    }

    /// <summary>From now on hands on what is played, on the sound thread.</summary>
    public void Tap(TakeBlock listener) => Volatile.Write(ref _tap, listener);

    /// <summary>From now on clicks too, on the sound thread.</summary>
    /// <param name="click">Overwrites a block with clicks.</param>
    /// <param name="channel">Channel from 1 that the click has for itself; 0 mixes it in.</param>
    public void Click(FillBlock? click, int channel)
    {
        Volatile.Write(ref _clickChannel, channel);
        Volatile.Write(ref _click, click);
    }

    public ValueTask DisposeAsync() => Opening.Line.DisposeAsync();

    // Start quietly: nobody has set a level yet.
    private const float StartLevelDb = -24;

    private void Fill(Span<float> interleaved)
    {
        int count = interleaved.Length / _channels;
        Span<float> mono = _mono.AsSpan(0, count);
        _engine.Render(mono);
        int own = Volatile.Read(ref _clickChannel);
        FillBlock? click = Volatile.Read(ref _click);
        Span<float> clicks = _clicks.AsSpan(0, count);
        click?.Invoke(clicks);
        if (click is not null && own == 0)
        {
            for (int i = 0; i < count; i++)
            {
                mono[i] += clicks[i];
            }
        }

        Volatile.Read(ref _tap)?.Invoke(mono);
        for (int i = 0; i < count; i++)
        {
            interleaved.Slice(i * _channels, _channels).Fill(mono[i]);
            if (click is not null && own > 0)
            {
                interleaved[(i * _channels) + own - 1] = clicks[i];
            }
        }
    }
}
