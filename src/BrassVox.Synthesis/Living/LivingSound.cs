namespace BrassVox.Synthesis.Living;

/// <summary>
/// The sound of the living system: lips on a column, blown by a breath that the voice modulates, and the free voice beside it.
/// Pitch is set by running the whole system faster or slower, which transposes it exactly: valves and slide do nearly the same to a real tube.
/// Knows pitches, depth and breath, nothing of events. One thread; allocates nothing after construction.
/// </summary>
internal sealed class LivingSound
{
    /// <summary>Loudness of each tone alone at mf and 0 dB, so that two of them have -23 LUFS. Source: EBU R 128, programme level.</summary>
    internal const double ToneLufs = -26;

    /// <summary>Voice pressure at depth 1 in units of the steady pressure in the mouth. Our choice: once a period the breath almost stops.</summary>
    internal const double DeepestVoice = 0.8;

    private const int Tick = PeakGuard.TickSamples;
    private const double FreeVoiceLimit = 0.42;
    private const double MouthLimitHz = 4000;
    private const double SlideSeconds = 0.020;
    private const double RecoverySeconds = 0.010;
    private const double SlurBurst = 0.6;
    private readonly BrassBore _bore;
    private readonly VoiceTone _voice;
    private readonly LipReed _reed;
    private readonly MouthVoice _mouth;
    private readonly LineWeights _weights;
    private readonly LoudnessHold _hold;
    private readonly PartialBank _free = new(VoiceTone.MostPartials);
    private readonly float[] _sungReal = new float[Tick];
    private readonly float[] _sungImaginary = new float[Tick];
    private readonly float[] _freeWave = new float[Tick];
    private readonly int _sampleRateHz;
    private readonly uint _seed;
    private PhaseTrack _sungPhase;
    private Attack _attack;
    private Ramp _scaleSlide;
    private Ramp _lipSlide;
    private Ramp _gainDb;
    private LivingAim _now;
    private FreeVoiceAim _freeAim;
    private int _slot;
    private double _tunedHz;
    private double _stepsPerSample;
    private double _breathPa;
    private double _gain;
    private double _voicePa;
    private double _third;
    private double _second;
    private double _first;
    private double _newest;
    private double _ahead;
    private double _carry;
    private double _carryStep;
    private double _lastOut;
    private uint _noise;

    internal LivingSound(BrassBore bore, ColumnMode[] modes, VoicePreset voice, int seed, int sampleRateHz)
    {
        _bore = bore;
        _voice = new VoiceTone(voice);
        _mouth = new MouthVoice(_voice);
        _reed = new LipReed(modes, bore.Lips, bore.Air.Density, BrassBore.GridHz);
        _weights = new LineWeights(1000, sampleRateHz);
        _hold = new LoudnessHold(sampleRateHz);
        _seed = ((uint)seed * 2654435761u) | 1;
        _sampleRateHz = sampleRateHz;
        Watch = new PitchWatch(sampleRateHz);
    }

    /// <summary>The pitch at which the lips really swing.</summary>
    internal PitchWatch Watch { get; }

    /// <summary>How often the numbers ran away and the note was begun again.</summary>
    internal int RecoveryCount { get; private set; }

    /// <summary>Lips and column, for tests that disturb them.</summary>
    internal LipReed Reed => _reed;

    /// <summary>Number of the harmonic it sits on.</summary>
    internal int SlotNumber => _bore.Slots[_slot].Number;

    internal void Reset()
    {
        _reed.Rest();
        _mouth.Reset();
        _free.Clear();
        _freeAim = default;
        Watch.Reset();
        _sungPhase = default;
        _attack = default;
        _scaleSlide.Jump(0);
        _lipSlide.Jump(0);
        _slot = 0;
        _tunedHz = 0;
        (_third, _second, _first, _newest, _ahead) = (0, 0, 0, 0, 0);
        (_carry, _carryStep, _lastOut) = (0, 0, 0);
        _noise = _seed;
        _hold.Reset(0);
        RecoveryCount = 0;
    }

    /// <summary>Begins a note from silence.</summary>
    internal void Begin(in LivingAim aim)
    {
        _reed.Rest();
        _now = aim;
        _slot = _bore.SlotFor(aim.PlayedHz);
        _scaleSlide.Jump(0);
        _lipSlide.Jump(0);
        _gainDb.Jump(SlotGainDb(_slot));
        _stepsPerSample = StepsPerSample(aim);
        _breathPa = BlowingState.At(aim.Dynamic).MouthPressurePa;
        _gain = Decibels.Amplitude(_gainDb.Value);
        _voicePa = VoicePressure(aim);
        _hold.Reset(WantedMeanSquare(aim));
        _attack.FromRest();
        BeginAttack(1);
    }

    /// <summary>Goes on to another pitch without a break: to another slot if the pitch lies there.</summary>
    internal void Slur(double frequencyHz)
    {
        int next = _bore.SlotFor(frequencyHz);
        if (next == _slot)
        {
            return;
        }

        ColumnSlot from = _bore.Slots[_slot];
        ColumnSlot to = _bore.Slots[next];
        double slide = SlideSeconds * _sampleRateHz;
        _scaleSlide.Jump(_scaleSlide.Value + Math.Log2(to.SoundingAt(_now.Dynamic) / from.SoundingAt(_now.Dynamic)));
        _scaleSlide.MoveTo(0, slide);
        _lipSlide.Jump(_lipSlide.Value + Math.Log2(from.LipHz / to.LipHz));
        _lipSlide.MoveTo(0, slide);
        _gainDb.MoveTo(SlotGainDb(next), slide);
        _slot = next;
        BeginAttack(SlurBurst);
    }

    /// <summary>Renders a stretch of at most a tick: what comes from the bell, and the free voice apart.</summary>
    /// <param name="aim">Where everything is at its end.</param>
    /// <param name="bell">Out: the instrument.</param>
    /// <param name="voice">Out: the voice beside it.</param>
    internal void Render(in LivingAim aim, Span<float> bell, Span<float> voice)
    {
        RenderFreeVoice(aim, voice);
        RenderBell(aim, bell);
        double from = _hold.Gain;
        for (int i = 0; i < bell.Length; i++)
        {
            _hold.Take(bell[i] + voice[i]);
        }

        _hold.Look(WantedMeanSquare(aim));
        double bend = (_hold.Gain - from) / bell.Length;
        for (int i = 0; i < bell.Length; i++)
        {
            float gain = (float)(from + (i * bend));
            bell[i] *= gain;
            voice[i] *= gain;
        }

        _now = aim;
    }

    // The separate pair: the played tone as loud as it is blown, and the voice.
    private double WantedMeanSquare(in LivingAim aim)
    {
        ColumnSlot slot = _bore.Slots[_slot];
        double blown = Decibels.Amplitude(slot.LoudnessAt(aim.Dynamic) - slot.LoudnessDb[2]);
        double sung = Decibels.Amplitude(aim.BalanceDb) * aim.VoiceGain;
        return KWeightingCurve.MeanSquare(ToneLufs) * ((blown * blown) + (sung * sung));
    }

    private void RenderBell(in LivingAim aim, Span<float> bell)
    {
        int count = bell.Length;
        _scaleSlide.Advance(count);
        _lipSlide.Advance(count);
        Tune(aim.LipBendCents);
        BlowingState blowing = BlowingState.At(aim.Dynamic);
        _reed.RestOpeningM = _bore.Lips.RestOpeningMm * 0.001 * blowing.OpeningFactor;
        double stepsBend = (StepsPerSample(aim) - _stepsPerSample) / count;
        double gainBend = (Decibels.Amplitude(_gainDb.Advance(count)) - _gain) / count;
        double middleSteps = _stepsPerSample + (0.5 * count * stepsBend);
        double stepsInStretch = count * middleSteps;
        double breathBend = (blowing.MouthPressurePa - _breathPa) / stepsInStretch;
        double voiceBend = (VoicePressure(aim) - _voicePa) / stepsInStretch;
        double sungHz = 0.5 * (_now.SungHz + aim.SungHz);
        _mouth.Aim(sungHz, aim.Vowel, aim.Register, aim.VoiceColour, MouthLimitHz, sungHz / (_sampleRateHz * middleSteps));
        Watch.Aim(0.5 * (_now.PlayedHz + aim.PlayedHz) / _sampleRateHz);

        for (int i = 0; i < count; i++)
        {
            _stepsPerSample += stepsBend;
            _gain += gainBend;
            _ahead += _stepsPerSample;
            while (_ahead >= 1)
            {
                _ahead--;
                _breathPa += breathBend;
                _voicePa += voiceBend;
                double mouth = _breathPa * (1 + (aim.BreathNoise * Noise()));
                _reed.Step((mouth + (_voicePa * _mouth.Step())) * _attack.Step());
                (_third, _second, _first, _newest) = (_second, _first, _newest, _reed.Radiated);
            }

            if (_reed.IsBroken)
            {
                Recover();
            }

            double sample = (_gain * Between(_ahead)) + _carry;
            _carry = Math.Abs(_carry) > Math.Abs(_carryStep) ? _carry - _carryStep : 0;
            _lastOut = sample;
            bell[i] = (float)sample;
            Watch.Take(_reed.OpeningM);
        }

        Watch.Look(count, _sampleRateHz);
        _breathPa = blowing.MouthPressurePa;
        _voicePa = VoicePressure(aim);
    }

    // Cubic through the last four steps, read between the two in the middle.
    private double Between(double part)
    {
        double below = part + 1;
        double above = part - 1;
        double far = part - 2;
        return (_third * part * above * far / -6) + (_second * below * above * far / 2)
            + (_first * below * part * far / -2) + (_newest * below * part * above / 6);
    }

    private void RenderFreeVoice(in LivingAim aim, Span<float> voice)
    {
        // While nothing moves the partials stand as they are.
        var wanted = new FreeVoiceAim(aim.SungHz, aim.Vowel, aim.Register, Decibels.Amplitude(aim.BalanceDb) * aim.VoiceGain * (1 - aim.Depth));
        if (wanted != _freeAim)
        {
            _freeAim = wanted;
            AimFreeVoice(wanted, voice.Length);
        }

        _sungPhase.Fill(_now.SungHz / _sampleRateHz, aim.SungHz / _sampleRateHz, voice.Length, _sungReal, _sungImaginary);
        _free.Render(_sungReal, _sungImaginary, _freeWave, voice.Length);
        _free.Arrive();
        _freeWave.AsSpan(0, voice.Length).CopyTo(voice);
    }

    private void AimFreeVoice(in FreeVoiceAim aim, int samples)
    {
        int count = aim.Level <= 0
            ? 0
            : _voice.Fill(aim.SungHz, aim.Vowel, aim.Register, FreeVoiceLimit * _sampleRateHz, _free.RealTarget, _free.ImaginaryTarget);
        double loudness = 1e-20;
        for (int n = 0; n < count; n++)
        {
            double square = ((double)_free.RealTarget[n] * _free.RealTarget[n]) + ((double)_free.ImaginaryTarget[n] * _free.ImaginaryTarget[n]);
            loudness += 0.5 * square * _weights.Loudness((n + 1) * aim.SungHz);
        }

        float scale = (float)(aim.Level * Math.Sqrt(KWeightingCurve.MeanSquare(ToneLufs) / loudness));
        for (int n = 0; n < count; n++)
        {
            _free.RealTarget[n] *= scale;
            _free.ImaginaryTarget[n] *= scale;
        }

        _free.Aim(count, samples);
    }

    private void Tune(double bendCents)
    {
        double lipHz = _bore.Slots[_slot].LipHz * double.Exp2((bendCents / 1200) + _lipSlide.Value);
        if (lipHz != _tunedHz)
        {
            _tunedHz = lipHz;
            _reed.TuneLips(lipHz);
        }
    }

    private double StepsPerSample(in LivingAim aim)
    {
        double scale = aim.PlayedHz / _bore.Slots[_slot].SoundingAt(aim.Dynamic) * double.Exp2(_scaleSlide.Value);
        return BrassBore.GridHz * Math.Clamp(scale, 0.05, 8) / _sampleRateHz;
    }

    private void BeginAttack(double strength) =>
        _attack.Begin(_bore.Slots[_slot].SoundingHz[2], BrassBore.GridHz, strength, _stepsPerSample * _sampleRateHz);

    private void Recover()
    {
        RecoveryCount++;
        _reed.Rest();
        _carry = double.IsFinite(_lastOut) ? Math.Clamp(_lastOut, -1, 1) : 0;
        _carryStep = _carry / (RecoverySeconds * _sampleRateHz);
        (_third, _second, _first, _newest) = (0, 0, 0, 0);
        _attack.FromRest();
        BeginAttack(1);
    }

    private static double VoicePressure(in LivingAim aim) =>
        DeepestVoice * aim.Depth * aim.VoiceGain * BlowingState.At(aim.Dynamic).MouthPressurePa;

    private double SlotGainDb(int slot) => ToneLufs + 0.691 - _bore.Slots[slot].LoudnessDb[2];

    // White, -1 to 1 (G. Marsaglia, Xorshift RNGs, 2003).
    private double Noise()
    {
        _noise ^= _noise << 13;
        _noise ^= _noise >> 17;
        _noise ^= _noise << 5;
        return (_noise * (2.0 / uint.MaxValue)) - 1;
    }

    private readonly record struct FreeVoiceAim(double SungHz, double Vowel, double Register, double Level);
}
