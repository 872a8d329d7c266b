using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>
/// The sound of a flow pair: sums of partials (the played tone, the opening of the lips, the root of the mouth's pressure, the voice),
/// the product of opening and root, and the bell. Kept as three stems. Knows pitches and depth, nothing of events.
/// </summary>
internal sealed class FlowSound
{
    private const int Tick = PeakGuard.TickSamples;
    private readonly BellRadiation _sungBell;
    private readonly BellRadiation _resultantBell;
    private readonly BreathNoise _breath;
    private readonly float[] _playedReal = new float[Tick];
    private readonly float[] _playedImaginary = new float[Tick];
    private readonly float[] _sungReal = new float[Tick];
    private readonly float[] _sungImaginary = new float[Tick];
    private readonly float[] _toneWave = new float[Tick];
    private readonly float[] _openingWave = new float[Tick];
    private readonly float[] _rootWave = new float[Tick];
    private readonly float[] _voiceWave = new float[Tick];
    private readonly float[] _sorted = new float[PairParts.All.Length];
    private PhaseTrack _playedPhase;
    private PhaseTrack _sungPhase;
    private Ramp _openingMean;
    private Ramp _rootMean;
    private Ramp _hold;
    private Ramp _quadratic;
    private Ramp _cubic;
    private Ramp _breathLevel;
    private FlowAim _aimed;
    private bool _rests;
    private float _rest;
    private bool _restIsKnown;

    internal FlowSound(BrassPreset brass, VoicePreset voice, int seed, int sampleRateHz)
    {
        _sungBell = new BellRadiation(brass.BellDiameterMm, sampleRateHz);
        _resultantBell = new BellRadiation(brass.BellDiameterMm, sampleRateHz);
        _breath = new BreathNoise(brass.CutoffHz, seed, sampleRateHz);
        Levels = new FlowLevels(brass, voice, _sungBell.CornerHz, sampleRateHz);
    }

    internal FlowLevels Levels { get; }

    /// <summary>The loudness hold now.</summary>
    internal double Hold => _hold.Value;

    internal void Reset()
    {
        Levels.Reset();
        _playedPhase = default;
        _sungPhase = default;
        _openingMean.Jump(0);
        _rootMean.Jump(1);
        _hold.Jump(1);
        _quadratic.Jump(0);
        _cubic.Jump(0);
        _breathLevel.Jump(0);
        _sungBell.Reset();
        _resultantBell.Reset();
        _breath.Reset();
        _aimed = default;
        _rests = false;
        _restIsKnown = false;
    }

    /// <summary>Sets where all amplitudes are to be in so many samples; 0 to begin there.</summary>
    /// <param name="aim">What decides them.</param>
    /// <param name="breath">Root mean square of the breath noise over that of the played tone.</param>
    /// <param name="earTones">Levels of the ear-made tones.</param>
    /// <param name="samples">Samples until then.</param>
    internal void Aim(in FlowAim aim, double breath, in EarToneLevels earTones, int samples)
    {
        // While nothing moves there is nothing to compute: all amplitudes rest where they are.
        if (!_rests || aim != _aimed)
        {
            Levels.Aim(aim, samples);
            _openingMean.MoveTo(Levels.OpeningMean, samples);
            _rootMean.MoveTo(Levels.RootMean, samples);
            _hold.MoveTo(Levels.Hold, samples);
        }

        _rests = aim == _aimed;
        _aimed = aim;
        (double quadratic, double cubic) = earTones.Amplitudes(Levels.PlayedShown[0] * Levels.Hold, Levels.SungShown[0] * Levels.Hold);
        _quadratic.MoveTo(quadratic, samples);
        _cubic.MoveTo(cubic, samples);
        _breathLevel.MoveTo(breath * Levels.PlayedRms, samples);
    }

    /// <summary>The amplitudes have reached what was aimed at.</summary>
    internal void Arrive() => Levels.Arrive();

    /// <summary>Renders a stretch of at most a tick into three stems, before any gain but those of single resultants.</summary>
    /// <param name="playedFrom">P at the start, in cycles per sample.</param>
    /// <param name="playedTo">P at the end.</param>
    /// <param name="sungFrom">S at the start.</param>
    /// <param name="sungTo">S at the end.</param>
    /// <param name="gains">Gains of the parts.</param>
    /// <param name="played">Out: the played tone.</param>
    /// <param name="sung">Out: the sung tone.</param>
    /// <param name="resultants">Out: the rest.</param>
    internal void Render(
        double playedFrom, double playedTo, double sungFrom, double sungTo, Ramp[] gains,
        Span<float> played, Span<float> sung, Span<float> resultants)
    {
        int samples = played.Length;
        _playedPhase.Fill(playedFrom, playedTo, samples, _playedReal, _playedImaginary);
        _sungPhase.Fill(sungFrom, sungTo, samples, _sungReal, _sungImaginary);

        resultants.Clear();
        float restFrom = _rest;
        float restTo = _rest;
        if (!_restIsKnown || AnyMoves(gains))
        {
            restFrom = Median(gains, 0);
            restTo = Median(gains, samples);
            _rest = restTo;
            _restIsKnown = true;
        }

        AddSingleLines(gains, restFrom, restTo, resultants);

        Levels.Tone.Render(_playedReal, _playedImaginary, _toneWave, samples);
        bool isCoupled = Levels.Root.IsHeard;
        Levels.Opening.Render(_playedReal, _playedImaginary, _openingWave, samples);
        Levels.Root.Render(_sungReal, _sungImaginary, _rootWave, samples);
        Levels.Voice.Render(_sungReal, _sungImaginary, _voiceWave, samples);

        float openingMean = (float)_openingMean.Value, openingMeanTo = (float)_openingMean.Advance(samples);
        float rootMean = (float)_rootMean.Value, rootMeanTo = (float)_rootMean.Advance(samples);
        float hold = (float)_hold.Value, holdTo = (float)_hold.Advance(samples);
        Lanes.Scaled(_toneWave, rootMean, rootMeanTo, played);
        Lanes.Scaled(_rootWave, openingMean, openingMeanTo, sung);
        Lanes.AddProduct(_openingWave, _rootWave, restFrom, restTo, resultants);
        if (isCoupled || !_sungBell.IsSilent || !_resultantBell.IsSilent)
        {
            BellRadiation.Process(_sungBell, sung, _resultantBell, resultants);
        }

        Lanes.AddScaled(_voiceWave, 1, 1, sung);
        Lanes.Scale(played, hold, holdTo);
        Lanes.Scale(sung, hold, holdTo);
        Lanes.Scale(resultants, hold, holdTo);
        AddBreath(played);
        AddEarTones(gains, resultants);
    }

    private void AddBreath(Span<float> played)
    {
        double from = _breathLevel.Value;
        double to = _breathLevel.Advance(played.Length);
        if (from > 0 || to > 0)
        {
            _breath.Add(played, from, to);
        }
    }

    // Pure tones at S - P and 2P - S, there only on request; both need both tones, so they follow both gains.
    private void AddEarTones(Ramp[] gains, Span<float> output)
    {
        int samples = output.Length;
        double quadratic = _quadratic.Value, quadraticStep = (_quadratic.Advance(samples) - quadratic) / samples;
        double cubic = _cubic.Value, cubicStep = (_cubic.Advance(samples) - cubic) / samples;
        if (quadratic == 0 && quadraticStep == 0 && cubic == 0 && cubicStep == 0)
        {
            return;
        }

        double gain = gains[PairParts.Played].Value * gains[PairParts.Sung].Value;
        double gainStep = ((gains[PairParts.Played].After(samples) * gains[PairParts.Sung].After(samples)) - gain) / samples;
        for (int i = 0; i < samples; i++)
        {
            Complex z = new(_playedReal[i], _playedImaginary[i]);
            Complex w = new(_sungReal[i], -_sungImaginary[i]);
            double sum = ((quadratic + (i * quadraticStep)) * (z * w).Real) + ((cubic + (i * cubicStep)) * (z * z * w).Real);
            output[i] += (float)(sum * (gain + (i * gainStep)));
        }
    }

    // A line of the product is known in closed form: (1/2) Re(c_m d_n z^m w^n). Adding it with gain g - rest leaves exactly g of it.
    private void AddSingleLines(Ramp[] gains, float restFrom, float restTo, Span<float> output)
    {
        int samples = output.Length;
        for (int index = PairParts.FirstResultant; index < gains.Length; index++)
        {
            PairPart part = PairParts.All[index];
            float from = (float)gains[part.Index].Value - restFrom;
            float to = (float)gains[part.Index].After(samples) - restTo;
            if (from == 0 && to == 0)
            {
                continue;
            }

            int m = Math.Abs(part.Played);
            int n = Math.Abs(part.Sung);
            bool conjugate = (part.Played < 0) != (part.Sung < 0);
            Complex opening = Levels.Opening.Amplitude(m - 1);
            Complex openingStep = Levels.Opening.AmplitudeStep(m - 1);
            Complex root = Levels.Root.Amplitude(n - 1);
            Complex rootStep = Levels.Root.AmplitudeStep(n - 1);
            float step = (to - from) / samples;
            for (int i = 0; i < samples; i++)
            {
                Complex z = Power(new Complex(_playedReal[i], _playedImaginary[i]), m) * (opening + (i * openingStep));
                Complex w = Power(new Complex(_sungReal[i], _sungImaginary[i]), n) * (root + (i * rootStep));
                double line = conjugate ? (z.Real * w.Real) + (z.Imaginary * w.Imaginary) : (z.Real * w.Real) - (z.Imaginary * w.Imaginary);
                output[i] += (float)(0.5 * line * (from + (i * step)));
            }
        }
    }

    private static Complex Power(Complex pointer, int exponent) => exponent switch
    {
        1 => pointer,
        2 => pointer * pointer,
        _ => pointer * pointer * pointer,
    };

    // Lines above order 4 have no control of their own: they follow the middle one of the gains of those that have, so a single mute leaves them and a solo silences them.
    private float Median(Ramp[] gains, int samples)
    {
        int count = gains.Length - PairParts.FirstResultant;
        Span<float> sorted = _sorted.AsSpan(0, count);
        for (int i = 0; i < count; i++)
        {
            float gain = (float)gains[i + PairParts.FirstResultant].After(samples);
            int at = i;
            while (at > 0 && sorted[at - 1] > gain)
            {
                sorted[at] = sorted[at - 1];
                at--;
            }

            sorted[at] = gain;
        }

        return (sorted[(count - 1) / 2] + sorted[count / 2]) * 0.5f;
    }

    private static bool AnyMoves(Ramp[] gains)
    {
        bool moves = false;
        for (int i = PairParts.FirstResultant; i < gains.Length; i++)
        {
            moves |= gains[i].IsMoving;
        }

        return moves;
    }
}
