using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>
/// The pair by the flow-valve model: separate it is a plain sum; coupled the flow is the lips' opening times the root of a mouth pressure that the voice modulates,
/// sent through a bell that favours what is higher. Sound is computed some 6 ms ahead of what <see cref="Render"/> hands out: an event timed at least so far ahead is exact to the sample.
/// </summary>
public sealed class FlowPair : IPairEngine, IPairStems
{
    private const int Tick = PeakGuard.TickSamples;

    // Amplitudes are computed anew once a frame and move in straight lines between: every 10 ms, in an attack four times as often.
    private const int FrameSamples = 8 * Tick;
    private const int AttackFrameSamples = 2 * Tick;
    private readonly BrassPreset _brass;
    private readonly VoicePreset _voice;
    private readonly PairState _state;
    private readonly EventQueue _events = new();
    private readonly PeakGuard _guard = new();
    private readonly TickDelay[] _delays = [new(), new(), new()];
    private readonly float[][] _stems = [new float[Tick], new float[Tick], new float[Tick]];
    private readonly float[] _mix = new float[Tick];
    private readonly float[] _shownGains = new float[PairParts.All.Length];
    private FlowSound? _sound;
    private int _sampleRateHz;
    private int _frameLeft;
    private int _handedOut;
    private bool _isPrimed;
    private long _samplesRendered;
    private bool _isSounding;
    private double _shownScale;
    private double _shownPlayedHz;
    private double _shownSungHz;

    /// <summary>Makes a pair; call <see cref="Prepare"/> before rendering.</summary>
    /// <param name="brass">The played tone.</param>
    /// <param name="voice">The sung tone.</param>
    /// <param name="seed">Seed of all that is random in it; the same seed repeats the sound exactly.</param>
    public FlowPair(BrassPreset brass, VoicePreset voice, int seed)
    {
        ArgumentNullException.ThrowIfNull(brass);
        ArgumentNullException.ThrowIfNull(voice);
        _brass = brass;
        _voice = voice;
        Seed = seed;
        _state = new PairState(brass, voice, seed);
    }

    /// <summary>Seed of all that is random in it.</summary>
    public int Seed { get; }

    /// <inheritdoc/>
    public Parameter CouplingDepth => _state.Parameters.All[PairParameters.CouplingDepth];

    /// <inheritdoc/>
    public Parameter LevelDb => _state.Parameters.All[PairParameters.LevelDb];

    /// <inheritdoc/>
    public Parameter PlayedDetuneCents => _state.Parameters.All[PairParameters.PlayedDetuneCents];

    /// <inheritdoc/>
    public Parameter SungDetuneCents => _state.Parameters.All[PairParameters.SungDetuneCents];

    /// <inheritdoc/>
    public Parameter SungDetuneHz => _state.Parameters.All[PairParameters.SungDetuneHz];

    /// <inheritdoc/>
    public IReadOnlyList<Parameter> Parameters => _state.Parameters.All;

    /// <inheritdoc/>
    public IReadOnlyList<PairPart> Parts => PairParts.Listed;

    /// <inheritdoc/>
    public long SamplesRendered => Volatile.Read(ref _samplesRendered);

    /// <inheritdoc/>
    public bool IsSounding => Volatile.Read(ref _isSounding);

    /// <inheritdoc/>
    public void Prepare(RenderFormat format)
    {
        if (format.SampleRateHz is < 8000 or > 384000 || format.MaxBlockSamples < 1)
        {
            throw new ArgumentOutOfRangeException(nameof(format), format, "Sample rate 8000 to 384000 Hz, block at least 1 sample.");
        }

        _sampleRateHz = format.SampleRateHz;
        _sound = new FlowSound(_brass, _voice, Seed, format.SampleRateHz);
        _guard.Prepare(format.SampleRateHz);
        Reset();
    }

    /// <inheritdoc/>
    /// <remarks>What events have set (pitches, gains, sounding) goes back to the beginning and events to come are dropped; parameters are kept.</remarks>
    public void Reset()
    {
        FlowSound sound = Prepared();
        _events.Clear();
        sound.Reset();
        _guard.Reset();
        foreach (TickDelay delay in _delays)
        {
            delay.Reset();
        }

        _state.Reset(_sampleRateHz);
        _frameLeft = 0;
        _handedOut = Tick;
        _isPrimed = false;
        Volatile.Write(ref _samplesRendered, 0);
        Volatile.Write(ref _isSounding, false);
        Array.Fill(_shownGains, 1f);
        Volatile.Write(ref _shownScale, 0);
    }

    /// <inheritdoc/>
    public bool TryPost(in PairEvent pairEvent) => _events.TryPost(pairEvent);

    /// <inheritdoc/>
    public void Render(Span<float> output)
    {
        int done = 0;
        while (done < output.Length)
        {
            int count = NextStretch(output.Length - done);
            _mix.AsSpan(_handedOut, count).CopyTo(output[done..]);
            _handedOut += count;
            done += count;
        }

        Publish(output.Length);
    }

    /// <inheritdoc/>
    public void RenderStems(Span<float> played, Span<float> sung, Span<float> resultants)
    {
        if (sung.Length != played.Length || resultants.Length != played.Length)
        {
            throw new ArgumentException("The three stems have the same length.", nameof(sung));
        }

        int done = 0;
        while (done < played.Length)
        {
            int count = NextStretch(played.Length - done);
            _stems[0].AsSpan(_handedOut, count).CopyTo(played[done..]);
            _stems[1].AsSpan(_handedOut, count).CopyTo(sung[done..]);
            _stems[2].AsSpan(_handedOut, count).CopyTo(resultants[done..]);
            _handedOut += count;
            done += count;
        }

        Publish(played.Length);
    }

    /// <inheritdoc/>
    public PartReading Read(int partIndex)
    {
        PairPart part = PairParts.All[partIndex];
        double hz = Math.Abs((part.Played * Volatile.Read(ref _shownPlayedHz)) + (part.Sung * Volatile.Read(ref _shownSungHz)));
        float gain = Volatile.Read(ref _shownGains[partIndex]);
        double level = (_sound?.Levels.PartsShown[partIndex] ?? 0) * gain * Volatile.Read(ref _shownScale);
        return new PartReading(hz, Decibels.Of(level), gain <= 1e-4f ? PairState.SilentDb : 20 * MathF.Log10(gain));
    }

    /// <inheritdoc/>
    public double PartialLevelDbfs(VoiceRole role, int harmonic)
    {
        float[]? shown = role == VoiceRole.Played ? _sound?.Levels.PlayedShown : _sound?.Levels.SungShown;
        return shown is null || harmonic < 1 || harmonic > shown.Length
            ? Decibels.Floor
            : Decibels.Of(shown[harmonic - 1] * Volatile.Read(ref _shownGains[(int)role]) * Volatile.Read(ref _shownScale));
    }

    private FlowSound Prepared() => _sound ?? throw new InvalidOperationException("Prepare comes before Render and Reset.");

    // Makes sure that at least one computed sample waits, and says how many can be handed out.
    private int NextStretch(int wanted)
    {
        if (!_isPrimed)
        {
            for (int i = 0; i < PeakGuard.LatencyTicks; i++)
            {
                RenderTick();
            }

            _isPrimed = true;
        }

        if (_handedOut == Tick)
        {
            RenderTick();
            _handedOut = 0;
        }

        return Math.Min(wanted, Tick - _handedOut);
    }

    private void RenderTick()
    {
        _events.Collect();
        _state.Poll();
        int at = 0;
        while (at < Tick)
        {
            bool isNew = false;
            while (_events.NextSample <= _state.Now)
            {
                _state.Handle(_events.Take());
                isNew = true;
            }

            int count = (int)Math.Min(Tick - at, _events.NextSample - _state.Now);
            RenderStretch(isNew, _stems[0].AsSpan(at, count), _stems[1].AsSpan(at, count), _stems[2].AsSpan(at, count));
            at += count;
        }

        foreach (float[] stem in _stems)
        {
            _guard.Repair(stem);
        }

        Lanes.Sum(_stems[0], _stems[1], _stems[2], _mix);
        _guard.Push(_mix);
        for (int i = 0; i < _stems.Length; i++)
        {
            _delays[i].Exchange(_stems[i], _guard.GainFrom, _guard.GainTo);
        }

        Lanes.Sum(_stems[0], _stems[1], _stems[2], _mix);
    }

    private void RenderStretch(bool isNew, Span<float> played, Span<float> sung, Span<float> resultants)
    {
        FlowSound sound = Prepared();
        int count = played.Length;
        if (!_state.IsRunning)
        {
            played.Clear();
            sung.Clear();
            resultants.Clear();
            _state.Advance(count, _state.PlayedAfter(count), _state.SungAfter(count));
            return;
        }

        if (_state.Begins)
        {
            sound.Reset();
            _state.Begin();
            Aim(sound, 0);
            _frameLeft = 0;
        }

        if (isNew || _frameLeft == 0)
        {
            bool isAttack = _state.Aim(0, sound.Levels.AttackLengthSeconds).AttackSeconds < sound.Levels.AttackLengthSeconds;
            int frame = isAttack ? AttackFrameSamples : FrameSamples;
            _frameLeft = frame - (int)(_state.Now % frame);
            Aim(sound, _frameLeft);
        }

        double playedTo = _state.PlayedAfter(count);
        double sungTo = _state.SungAfter(count);
        sound.Render(
            _state.PlayedHz / _sampleRateHz, playedTo / _sampleRateHz, _state.SungHz / _sampleRateHz, sungTo / _sampleRateHz,
            _state.Gains, played, sung, resultants);

        double levelFrom = _state.Level;
        double playedFrom = levelFrom * _state.Gains[PairParts.Played].Value;
        double sungFrom = levelFrom * _state.Gains[PairParts.Sung].Value * _state.Shimmer;
        _state.Advance(count, playedTo, sungTo);
        double level = _state.Level;
        Lanes.Scale(played, (float)playedFrom, (float)(level * _state.Gains[PairParts.Played].Value));
        Lanes.Scale(sung, (float)sungFrom, (float)(level * _state.Gains[PairParts.Sung].Value * _state.Shimmer));
        Lanes.Scale(resultants, (float)levelFrom, (float)level);

        _frameLeft -= count;
        if (_frameLeft == 0)
        {
            sound.Arrive();
        }
    }

    private void Aim(FlowSound sound, int ahead)
    {
        EarToneLevels ear = new(_state.Parameters.After(PairParameters.EarTonesDb, ahead), _state.Parameters.After(PairParameters.ListeningLevelDbSpl, ahead));
        sound.Aim(_state.Aim(ahead, sound.Levels.AttackLengthSeconds), _state.BreathAfter(ahead), ear, ahead);
    }

    private void Publish(int rendered)
    {
        Volatile.Write(ref _samplesRendered, _samplesRendered + rendered);
        Volatile.Write(ref _isSounding, _state.IsRunning);
        Volatile.Write(ref _shownPlayedHz, _state.PlayedHz);
        Volatile.Write(ref _shownSungHz, _state.SungHz);
        for (int i = 0; i < _shownGains.Length; i++)
        {
            Volatile.Write(ref _shownGains[i], (float)_state.Gains[i].Value);
        }

        Volatile.Write(ref _shownScale, _state.IsRunning ? _state.Level * _guard.GainTo * Prepared().Hold : 0);
    }
}
