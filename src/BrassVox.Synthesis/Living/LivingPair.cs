using BrassVox.Theory;

namespace BrassVox.Synthesis.Living;

/// <summary>
/// The pair as a living system: lips that swing by themselves on the air column of an instrument, driven by breath and voice. It starts by itself,
/// slots, cracks when the lips are bent too far, and near unison and octave voice and lips pull and catch each other. What sounds can therefore
/// differ from what is asked: <see cref="Read"/> gives the pitch at which the lips really swing.
/// </summary>
/// <remarks>
/// Coupling depth is the voice's pressure in the mouth, up to 0.8 of the breath's. Resultants live in one column of air and cannot be taken out of
/// it: a gain on one of them has no effect. A gain on P scales all that comes from the bell, one on S the voice, free and in the mouth.
/// Sound is computed some 6 ms ahead of what <see cref="Render"/> hands out.
/// </remarks>
public sealed class LivingPair : IPairEngine
{
    private const int Tick = PeakGuard.TickSamples;
    private const double ShortestFadeSeconds = 0.050;
    private const float SilentDb = -80;
    private readonly BrassBore _bore;
    private readonly VoicePreset _voice;
    private readonly int _seed;
    private readonly Lazy<ColumnMode[]> _modes;
    private readonly EventQueue _events = new();
    private readonly PeakGuard _guard = new();
    private readonly TickDelay _delay = new();
    private readonly LineReader _lines = new();
    private readonly float[] _mix = new float[Tick];
    private readonly float[] _free = new float[Tick];
    private readonly LivingParameters _parameters;
    private LivingSound? _sound;
    private int _sampleRateHz;
    private PitchFollower _played;
    private PitchFollower _sung;
    private Ramp _playedGain;
    private Ramp _sungGain;
    private Sounding _sounding;
    private bool _isPrimed;
    private long _now;
    private int _handedOut;
    private long _samplesRendered;
    private bool _isSounding;
    private double _shownPlayedHz;
    private double _shownSungHz;
    private double _shownDifferenceHz;
    private float _shownPlayedGain;
    private float _shownSungGain;
    private int _shownSlot;
    private bool _isShownCoupled;

    /// <summary>Makes a pair; call <see cref="Prepare"/> before rendering.</summary>
    /// <param name="bore">The instrument, with its slots.</param>
    /// <param name="voice">The sung tone.</param>
    /// <param name="seed">Seed of the breath's noise; the same seed repeats the sound exactly.</param>
    /// <exception cref="ArgumentException">The bore has not been calibrated.</exception>
    public LivingPair(BrassBore bore, VoicePreset voice, int seed)
        : this(bore, voice, seed, null)
    {
    }

    /// <summary>With modes found before.</summary>
    internal LivingPair(BrassBore bore, VoicePreset voice, int seed, ColumnMode[]? modes)
    {
        ArgumentNullException.ThrowIfNull(bore);
        ArgumentNullException.ThrowIfNull(voice);
        if (bore.Slots.Count == 0)
        {
            throw new ArgumentException($"The bore '{bore.Id}' has no slots; it has to be calibrated first.", nameof(bore));
        }

        _bore = bore;
        _voice = voice;
        _seed = seed;
        _modes = new Lazy<ColumnMode[]>(() => modes ?? bore.FindModes());
        _parameters = new LivingParameters(voice);
    }

    /// <inheritdoc/>
    public Parameter CouplingDepth => _parameters.All[LivingParameters.CouplingDepth];

    /// <inheritdoc/>
    public Parameter LevelDb => _parameters.All[LivingParameters.LevelDb];

    /// <inheritdoc/>
    public Parameter PlayedDetuneCents => _parameters.All[LivingParameters.PlayedDetuneCents];

    /// <inheritdoc/>
    public Parameter SungDetuneCents => _parameters.All[LivingParameters.SungDetuneCents];

    /// <inheritdoc/>
    public Parameter SungDetuneHz => _parameters.All[LivingParameters.SungDetuneHz];

    /// <summary>How loud is blown: 0 pp, 0.25 p, 0.5 mf, 0.75 f, 1 ff. Level and colour follow; the pitch stays.</summary>
    public Parameter Dynamic => _parameters.All[LivingParameters.Dynamic];

    /// <summary>Lips tuned off the note while valves and slide stay: the pitch follows a part of the way, then cracks to the next slot.</summary>
    public Parameter LipBendCents => _parameters.All[LivingParameters.LipBendCents];

    /// <summary>Overtones that the voice has in the mouth: 0 a pure hum, 1 the vowel. Overtones catch too, and make capture lopsided.</summary>
    public Parameter VoiceColour => _parameters.All[LivingParameters.VoiceColour];

    /// <summary>Noise of the breath, in percent of its pressure.</summary>
    public Parameter BreathNoise => _parameters.All[LivingParameters.BreathNoise];

    /// <inheritdoc/>
    public IReadOnlyList<Parameter> Parameters => _parameters.All;

    /// <inheritdoc/>
    public IReadOnlyList<PairPart> Parts => PairParts.All;

    /// <inheritdoc/>
    public long SamplesRendered => Volatile.Read(ref _samplesRendered);

    /// <inheritdoc/>
    public bool IsSounding => Volatile.Read(ref _isSounding);

    /// <summary>Number of the harmonic on which the note asked for sits. Any thread.</summary>
    public int SlotNumber => Volatile.Read(ref _shownSlot);

    /// <summary>The sound itself, for tests that look at or disturb the lips.</summary>
    internal LivingSound Sound => _sound ?? throw new InvalidOperationException("Prepare comes before Render and Reset.");

    /// <inheritdoc/>
    public void Prepare(RenderFormat format)
    {
        if (format.SampleRateHz is < 8000 or > 384000 || format.MaxBlockSamples < 1)
        {
            throw new ArgumentOutOfRangeException(nameof(format), format, "Sample rate 8000 to 384000 Hz, block at least 1 sample.");
        }

        _sampleRateHz = format.SampleRateHz;
        _sound = new LivingSound(_bore, _modes.Value, _voice, _seed, format.SampleRateHz);
        _guard.Prepare(format.SampleRateHz);
        _lines.Prepare(format.SampleRateHz);
        Reset();
    }

    /// <inheritdoc/>
    /// <remarks>What events have set goes back to the beginning and events to come are dropped; parameters are kept.</remarks>
    public void Reset()
    {
        Sound.Reset();
        _events.Clear();
        _guard.Reset();
        _delay.Reset();
        _lines.Reset();
        _played.Reset(Math.Sqrt(_bore.LowestHz * _bore.HighestHz), _sampleRateHz);
        _sung.Reset(Math.Sqrt(_voice.LowestHz * _voice.HighestHz), _sampleRateHz);
        _parameters.Reset();

        _playedGain.Jump(1);
        _sungGain.Jump(1);
        _sounding.Reset(_sampleRateHz);
        _isPrimed = false;
        _now = 0;
        _handedOut = Tick;
        Volatile.Write(ref _samplesRendered, 0);
        Volatile.Write(ref _isSounding, false);
        Publish(0);
    }

    /// <inheritdoc/>
    public bool TryPost(in PairEvent pairEvent) => _events.TryPost(pairEvent);

    /// <inheritdoc/>
    public void Render(Span<float> output)
    {
        int done = 0;
        while (done < output.Length)
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

            int count = Math.Min(output.Length - done, Tick - _handedOut);
            _mix.AsSpan(_handedOut, count).CopyTo(output[done..]);
            _handedOut += count;
            done += count;
        }

        _lines.Write(output);
        Publish(output.Length);
    }

    /// <inheritdoc/>
    /// <remarks>Frequencies of P and of the resultants follow the pitch at which the lips swing; levels are measured in the last quarter of a second of output.</remarks>
    public PartReading Read(int partIndex)
    {
        PairPart part = PairParts.All[partIndex];
        double playedHz = SoundingPlayedHz();
        double sungHz = Volatile.Read(ref _shownSungHz);
        double hz = Math.Abs((part.Played * playedHz) + (part.Sung * sungHz));
        float gain = partIndex switch
        {
            PairParts.Played => Volatile.Read(ref _shownPlayedGain),
            PairParts.Sung => Volatile.Read(ref _shownSungGain),
            _ => 1,
        };
        // Separate, nothing is made: what lies there is a neighbour, a harmonic of P or S less than a window's width away.
        bool isThere = partIndex is PairParts.Played or PairParts.Sung || Volatile.Read(ref _isShownCoupled);
        return new PartReading(hz, isThere ? Decibels.Of(_lines.Amplitude(hz)) : Decibels.Floor, gain <= 1e-4f ? SilentDb : 20 * MathF.Log10(gain));
    }

    /// <inheritdoc/>
    public double PartialLevelDbfs(VoiceRole role, int harmonic) =>
        harmonic < 1 ? Decibels.Floor : Decibels.Of(_lines.Amplitude(harmonic * (role == VoiceRole.Played ? SoundingPlayedHz() : Volatile.Read(ref _shownSungHz))));

    private double SoundingPlayedHz() => Volatile.Read(ref _shownPlayedHz) + Volatile.Read(ref _shownDifferenceHz);

    private void RenderTick()
    {
        _events.Collect();
        _parameters.Poll(_sampleRateHz);

        int at = 0;
        while (at < Tick)
        {
            while (_events.NextSample <= _now)
            {
                Handle(_events.Take());
            }

            int count = (int)Math.Min(Tick - at, _events.NextSample - _now);
            if (_sounding.IsRunning)
            {
                RenderStretch(_mix.AsSpan(at, count), _free.AsSpan(at, count));
            }
            else
            {
                Advance(count);
                _playedGain.Advance(count);
                _sungGain.Advance(count);
                _mix.AsSpan(at, count).Clear();
            }

            _now += count;
            at += count;
        }

        _guard.Repair(_mix);
        _guard.Push(_mix);
        _delay.Exchange(_mix, _guard.GainFrom, _guard.GainTo);
    }

    private void RenderStretch(Span<float> output, Span<float> free)
    {
        int count = output.Length;
        if (_sounding.Begins)
        {
            _sounding.Begin();
            Sound.Begin(AimIn(0));
        }

        LivingAim aim = AimIn(count);
        Sound.Render(aim, output, free);
        double from = Level();
        Advance(count);
        double to = Level();
        double bellFrom = from * _playedGain.Value;
        double bellTo = to * _playedGain.Advance(count);
        _sungGain.Advance(count);
        for (int i = 0; i < count; i++)
        {
            double part = (double)i / count;
            output[i] = (float)((output[i] * (bellFrom + (part * (bellTo - bellFrom)))) + (free[i] * (from + (part * (to - from)))));
        }
    }

    private LivingAim AimIn(int ahead) => new(
        PlayedHz(ahead),
        SungHz(ahead),
        Math.Clamp(_parameters.After(LivingParameters.CouplingDepth, ahead), 0, 1),
        _parameters.After(LivingParameters.Dynamic, ahead),
        _parameters.After(LivingParameters.LipBendCents, ahead),
        _parameters.After(LivingParameters.BreathNoise, ahead) * 0.01,
        _parameters.After(LivingParameters.Vowel, ahead),
        _parameters.After(LivingParameters.Register, ahead),
        _parameters.After(LivingParameters.VoiceColour, ahead),
        _parameters.After(LivingParameters.BalanceDb, ahead),
        _sungGain.After(ahead));

    private double PlayedHz(int ahead) =>
        Math.Clamp(Cents.Above(_played.FrequencyHz(_now + ahead), _parameters.After(LivingParameters.PlayedDetuneCents, ahead)), 5, 0.2 * _sampleRateHz);

    private double SungHz(int ahead) =>
        Math.Clamp(Cents.Above(_sung.FrequencyHz(_now + ahead), _parameters.After(LivingParameters.SungDetuneCents, ahead)) + _parameters.After(LivingParameters.SungDetuneHz, ahead), 5, 0.2 * _sampleRateHz);

    private void Advance(int count)
    {
        _parameters.Advance(count);
        _sounding.Advance(count);
    }

    private double Level() => Decibels.Amplitude(_parameters[LivingParameters.LevelDb]) * _sounding.Amplitude;

    private void Handle(in PairEvent pairEvent)
    {
        double fade = Math.Max(ShortestFadeSeconds, pairEvent.Seconds) * _sampleRateHz;
        switch (pairEvent.Kind)
        {
            case PairEventKind.Pitch when pairEvent.Path is not null && pairEvent.Role == VoiceRole.Sung:
                _sung.Follow(pairEvent.Path, _now, slide: _sounding.IsHeard);
                break;
            case PairEventKind.Pitch when pairEvent.Path is not null:
                _played.Follow(pairEvent.Path, _now, slide: _sounding.IsHeard);
                if (_sounding.IsHeard)
                {
                    Sound.Slur(Cents.Above(pairEvent.Path.FrequencyHz(0), _parameters[LivingParameters.PlayedDetuneCents]));
                }

                break;
            case PairEventKind.Gain when pairEvent.PartIndex is PairParts.Played or PairParts.Sung && !float.IsNaN(pairEvent.Value):
                ref Ramp gain = ref pairEvent.PartIndex == PairParts.Played ? ref _playedGain : ref _sungGain;
                gain.MoveTo(pairEvent.Value <= SilentDb ? 0 : Decibels.Amplitude(Math.Min(pairEvent.Value, 12)), fade);
                break;
            case PairEventKind.Coupling when !float.IsNaN(pairEvent.Value):
                _parameters.MoveTo(LivingParameters.CouplingDepth, Math.Clamp(pairEvent.Value, 0, 1), fade);
                break;
            default:
                _sounding.Handle(pairEvent.Kind);
                break;
        }
    }

    private void Publish(int rendered)
    {
        Volatile.Write(ref _samplesRendered, _samplesRendered + rendered);
        Volatile.Write(ref _isSounding, _sounding.IsRunning);
        Volatile.Write(ref _shownPlayedHz, PlayedHz(0));
        Volatile.Write(ref _shownSungHz, SungHz(0));
        Volatile.Write(ref _shownDifferenceHz, _sounding.IsRunning ? Sound.Watch.DifferenceHz : 0);
        Volatile.Write(ref _shownPlayedGain, (float)_playedGain.Value);
        Volatile.Write(ref _shownSungGain, (float)_sungGain.Value);
        Volatile.Write(ref _shownSlot, Sound.SlotNumber);
        Volatile.Write(ref _isShownCoupled, _parameters.After(LivingParameters.CouplingDepth, 0) > 0);
    }
}
