using BrassVox.Audio;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>
/// Everything between the screens and the loudspeaker: one engine, one output line. The screens' thread calls it and
/// never waits; lines are opened and closed elsewhere. The sound thread only renders.
/// </summary>
/// <param name="audio">The machine's sound.</param>
/// <param name="warmUpSeconds">Sound rendered and thrown away before a device opens, so that its first blocks are not the slow first calls of every method.</param>
internal sealed partial class Desk(IAudioSystem audio, double warmUpSeconds = 0.5) : IAsyncDisposable
{
    /// <summary>Softest level that can be set, in dB.</summary>
    public const double SoftestDb = -60;

    /// <summary>Loudest level that can be set, in dB.</summary>
    public const double LoudestDb = -12;

    /// <summary>Loudness of the engine at its own 0 dB, in LUFS: levels shown are that loudness, so that 0 is full scale.</summary>
    private const double EngineLoudnessDb = -23;
    private const double LoudestRisePerSecondDb = 6.0;
    private readonly Queue<PairEvent> _unsent = new();
    private readonly TestTone _tone = new();
    private IPairEngine? _engine;
    private Outlet? _outlet;
    private LineOpening? _opening;
    private Task<(LineOpening Opening, Outlet Outlet)>? _opener;
    private string? _deviceId;
    private string? _openedDeviceId;
    private Func<IPairEngine>? _create;
    private Task<Replay>? _replaying;
    private Replay? _replay;
    private double _retryAt;
    private double _lastRiseAt = double.NegativeInfinity;
    private bool _asked;
    private bool _hushed;
    private bool _isLost;
    private bool _isAskedAgain;

    /// <summary>The engine now in use; null until <see cref="Use"/>.</summary>
    public IPairEngine? Engine => _engine;

    /// <summary>True from asking for sound until asking for silence, and while a sequence sounds.</summary>
    public bool IsSounding => _asked || IsReplaying || _tone.IsAsked || SoundsElsewhere || (!_hushed && _engine is { IsSounding: true });

    /// <summary>True while a recording is heard, or about to be.</summary>
    public bool IsReplaying => _replaying is not null || _replay is { IsDone: false };

    /// <summary>True while test sounds run on a line of their own.</summary>
    public bool SoundsElsewhere { get; set; }

    /// <summary>True while a device plays what is rendered.</summary>
    public bool HasDevice => _opening is { IsDevice: true };

    /// <summary>True until the first answer of the sound system.</summary>
    public bool IsOpening => _opening is null;

    /// <summary>Ends when what is being opened has been opened; <see cref="Poll"/> then takes it.</summary>
    public Task Opening => _opener ?? Task.CompletedTask;

    /// <summary>What the line is, for people; empty until opened.</summary>
    public string OutputName => _opening?.Line.Name ?? "";

    /// <summary>What was granted, or null until opened.</summary>
    public LineFormat? Granted => _opening?.Line.Granted;

    /// <summary>By how much the buffer has been lengthened since the program began, because blocks came late; in ms.</summary>
    public double LengthenedMs => Granted is { } granted && _periods > UsualPeriods && _usualBufferMs is { } usual ? Math.Max(0, granted.BufferMs - usual) : 0;

    /// <summary>Blocks that came too late.</summary>
    public long DropoutCount => _opening?.Line.DropoutCount ?? 0;

    /// <summary>Something the player should read, once; null when there is nothing.</summary>
    public string? News { get; private set; }

    /// <summary>Level in dB as asked and shown: the loudness of a pair, 0 at full scale.</summary>
    public double LevelDb { get; private set; } = -24;

    /// <summary>Takes another engine, made by the given function; the old one falls silent. Opens the line when there is none.</summary>
    /// <param name="create">Makes an unprepared engine. Called again when a device comes back at another rate.</param>
    /// <param name="deviceId">Output device, or null for the system's own choice.</param>
    public void Use(Func<IPairEngine> create, string? deviceId = null)
    {
        _asked = false;
        _keepsEngine = false;
        _unsent.Clear();
        _create = create;
        _deviceId = deviceId;
        if (_opener is null && _opening is { } opening && !IsOtherDevice && !opening.Line.Completion.IsCompleted)
        {
            Adopt(Prepared(opening.Line.Granted));
        }
        else if (_opener is null)
        {
            _isAskedAgain = true;
            BeginOpening();
        }
    }

    /// <summary>Looks for a device once more when there is none; the answer is said as <see cref="News"/>.</summary>
    public void OpenAgain()
    {
        if (!HasDevice && _opener is null && _create is not null)
        {
            _isAskedAgain = true;
            BeginOpening();
        }
    }

    /// <summary>Completes what was going on elsewhere; called at every tick of the screen.</summary>
    /// <param name="nowSeconds">The screen's clock.</param>
    public void Poll(double nowSeconds)
    {
        if (_engine is { IsSounding: true })
        {
            _asked = false;
        }
        else
        {
            _hushed = false;
        }

        if (_replaying is { IsCompleted: true } replaying)
        {
            _replaying = null;
            if (replaying.IsCompletedSuccessfully)
            {
                _replay = replaying.Result;
                _outlet?.Add(_replay);
            }
            else
            {
                News = $"The take cannot be played: {replaying.Exception?.GetBaseException().Message}";
            }
        }

        if (_opener is { IsCompleted: true } opener)
        {
            _opener = null;
            FinishOpening(opener, nowSeconds);
            if (IsOtherDevice)
            {
                _isAskedAgain = true;
                BeginOpening();
            }
        }

        if (_opening is { } opening && _opener is null && opening.Line.Completion.IsCompleted)
        {
            LoseDevice(opening, nowSeconds);
        }
        else if (_isLost && _opener is null && nowSeconds >= _retryAt)
        {
            _retryAt = nowSeconds + 1;
            BeginOpening();
        }

        LengthenWhereLate(nowSeconds);
        while (_unsent.TryPeek(out PairEvent waiting) && _engine is { } engine && engine.TryPost(waiting))
        {
            _unsent.Dequeue();
        }
    }

    /// <summary>Takes the news away.</summary>
    public string? TakeNews()
    {
        string? news = News;
        News = null;
        return news;
    }

    /// <summary>Sounds both tones on given paths, from now on.</summary>
    /// <param name="played">P's path.</param>
    /// <param name="sung">S's path.</param>
    /// <param name="coupling">Depth, 0 to 1.</param>
    public void Sound(PitchPath played, PitchPath sung, double coupling)
    {
        SetPitch(VoiceRole.Played, played);
        SetPitch(VoiceRole.Sung, sung);
        SetCoupling(coupling);
        Sound();
    }

    /// <summary>Sounds whatever has been set; what sounds already goes on.</summary>
    public void Sound()
    {
        Post(PairEvent.Start());
        _asked = _engine is not null;
        _hushed = false;
    }

    /// <summary>Plays a recording, at the level of everything else. Whatever sounds is ended first.</summary>
    /// <param name="read">Reads the recording, elsewhere; what it throws becomes news.</param>
    /// <returns>False when there is no line yet.</returns>
    public bool TryReplay(Func<(float[] Samples, int SampleRateHz)> read)
    {
        if (Granted is not { } granted)
        {
            return false;
        }

        Stop();
        double levelDb = LevelDb;
        _replaying = Task.Run(() =>
        {
            (float[] samples, int rate) = read();
            return Replay.Of(samples, rate, granted.SampleRateHz, levelDb);
        });
        return true;
    }

    private void EndReplay()
    {
        _replaying = null;
        _replay?.Leave();
    }

    /// <summary>Sounds one plain tone at the level that is shown, until silence is asked for.</summary>
    /// <param name="frequencyHz">Frequency in Hz, 20 to 2000.</param>
    public void SoundTone(double frequencyHz) => _tone.Begin(frequencyHz, Math.Pow(10, Math.Min(LevelDb, LoudestDb) / 20));

    /// <summary>Octaves by which everything is sounded higher than written, for a loudspeaker that does not carry it.</summary>
    public int OctavesUp => (_engine as RaisedEngine)?.OctavesUp ?? 0;

    /// <summary>Ends in 60 ms.</summary>
    public void Stop()
    {
        EndReplay();
        _tone.End();
        if (IsSounding)
        {
            Post(PairEvent.Stop());
        }

        _asked = false;
        _hushed = true;
    }

    /// <summary>Silence in 10 ms, whatever sounds or waits to sound.</summary>
    public void Tacet()
    {
        EndReplay();
        _tone.End();
        _unsent.Clear();
        Post(PairEvent.Tacet());
        _asked = false;
        _hushed = true;
    }

    /// <summary>One tone follows a path from now on.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="path">The path.</param>
    public void SetPitch(VoiceRole role, PitchPath path) => Post(PairEvent.Pitch(role, path));

    /// <summary>The coupling moves.</summary>
    /// <param name="depth">Depth, 0 to 1.</param>
    /// <param name="seconds">Time, at least 0.05.</param>
    public void SetCoupling(double depth, double seconds = 0.05) => Post(PairEvent.Coupling((float)depth, (float)seconds));

    /// <summary>A part fades.</summary>
    /// <param name="partIndex">Index into the engine's parts.</param>
    /// <param name="gainDb">Gain in dB, -80 to +12.</param>
    /// <param name="seconds">Time, at least 0.05.</param>
    public void SetGain(int partIndex, double gainDb, double seconds = 0.05) =>
        Post(PairEvent.Gain(partIndex, (float)gainDb, (float)seconds));

    /// <summary>Any event; kept and sent again when the engine's queue is full.</summary>
    /// <param name="pairEvent">The event.</param>
    public void Post(in PairEvent pairEvent)
    {
        if (_engine is not { } engine)
        {
            return;
        }

        if (_unsent.Count > 0 || !engine.TryPost(pairEvent))
        {
            _unsent.Enqueue(pairEvent);
        }
    }

    /// <summary>Hands on what is played, on the sound thread, until told otherwise; a line that is opened later hands on nothing, but for one opened for its longer buffer.</summary>
    /// <param name="listener">Told of each mono block, or null for nobody.</param>
    public void Tap(TakeBlock? listener)
    {
        _listener = listener;
        _outlet?.Tap(listener);
    }

    /// <summary>Mixes clicks into what is played until told otherwise; a line that is opened later has none, but for one opened for its longer buffer.</summary>
    /// <param name="click">Overwrites a block with clicks, on the sound thread; null for none.</param>
    /// <param name="channel">Channel from 1 that the click has for itself; 0, or one the line does not have, mixes it in.</param>
    public void Click(FillBlock? click, int channel = 0)
    {
        _click = (click, channel);
        _outlet?.Click(click, channel);
    }

    /// <summary>Channels that the next line is asked for, 2 to 64.</summary>
    public int Channels { get; set; } = 2;

    /// <summary>Sets the level without a limit on the step, for a remembered value before anything sounds.</summary>
    /// <param name="levelDb">Level in dB, clamped to <see cref="SoftestDb"/> to <see cref="LoudestDb"/>.</param>
    public void SetLevel(double levelDb)
    {
        LevelDb = Math.Clamp(levelDb, SoftestDb, LoudestDb);
        if (_engine is { } engine)
        {
            engine.LevelDb.Target = (float)(LevelDb - EngineLoudnessDb);
        }
    }

    /// <summary>Moves the level; it rises by no more than 6 dB in a second.</summary>
    /// <param name="stepDb">Step in dB, any sign.</param>
    /// <param name="nowSeconds">The screen's clock.</param>
    /// <returns>False when it rose too recently to rise again.</returns>
    public bool StepLevel(double stepDb, double nowSeconds)
    {
        if (stepDb > 0)
        {
            if (nowSeconds - _lastRiseAt < stepDb / LoudestRisePerSecondDb)
            {
                return false;
            }

            _lastRiseAt = nowSeconds;
        }

        SetLevel(LevelDb + stepDb);
        return true;
    }

    /// <summary>Ramps to silence, then closes the line.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_opener is { } opener)
        {
            _opener = null;
            await opener.ContinueWith(_ => { }, TaskScheduler.Default).ConfigureAwait(false);
            FinishOpening(opener, 0);
        }

        if (_opening is { } opening)
        {
            if (_engine is { IsSounding: true } engine && opening.IsDevice)
            {
                Tacet();
                for (int i = 0; i < 20 && engine.IsSounding; i++)
                {
                    await Task.Delay(5).ConfigureAwait(false);
                }

                await Task.Delay((int)Math.Min(200, opening.Line.Granted.BufferMs)).ConfigureAwait(false);
            }

            await opening.Line.DisposeAsync().ConfigureAwait(false);
        }
    }
}
