using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>
/// Computes where the amplitudes of a flow pair's partials are to go: levels of both tones, the opening of the lips, the root of the mouth's pressure,
/// and the factor that holds loudness over the depth of coupling. Also what the screen reads.
/// </summary>
internal sealed class FlowLevels
{
    /// <summary>Loudness of the separate pair at 0 dB, each tone alone 3 LU below. Source: EBU R 128, programme level.</summary>
    internal const double ReferenceLufs = -23;

    /// <summary>Deepest modulation: at depth 1 the voice nearly shuts the flow once a period. Our choice.</summary>
    private const double DeepestModulation = 0.95;

    // Shares of the sample rate: products of the highest of both stay below half of it, so nothing folds back.
    private const double PlayedLimit = 0.30;
    private const double MouthLimit = 0.18;
    private const double FreeVoiceLimit = 0.42;
    private readonly BrassTone _brass;
    private readonly VoiceTone _voice;
    private readonly IReadOnlyList<double> _lipOpening;
    private readonly FlowValve _valve = new();
    private readonly LineWeights _weights;
    private readonly int _sampleRateHz;
    private readonly float[] _phaseReal = new float[BrassTone.MostPartials];
    private readonly float[] _phaseImaginary = new float[BrassTone.MostPartials];
    private readonly float[] _amplitudes = new float[BrassTone.MostPartials];
    private readonly float[] _openingLevels = new float[BrassTone.MostOpeningPartials];
    private readonly float[] _rootLevels = new float[VoiceTone.MostMouthPartials];
    private readonly float[] _tubeReal = new float[VoiceTone.MostMouthPartials];
    private readonly float[] _tubeImaginary = new float[VoiceTone.MostMouthPartials];

    internal FlowLevels(BrassPreset brass, VoicePreset voice, double bellCornerHz, int sampleRateHz)
    {
        _brass = new BrassTone(brass);
        _voice = new VoiceTone(voice);
        _lipOpening = brass.LipOpening;
        _sampleRateHz = sampleRateHz;
        _weights = new LineWeights(bellCornerHz, sampleRateHz);
        for (int k = 0; k < BrassTone.MostPartials; k++)
        {
            // Phases that rise with the square of the number spread the energy over the period (M. Schroeder, 1970).
            (double sine, double cosine) = Math.SinCos(-Math.PI * k * k / 24);
            _phaseReal[k] = (float)cosine;
            _phaseImaginary[k] = (float)sine;
        }
    }

    /// <summary>The radiated partials of the played tone.</summary>
    internal PartialBank Tone { get; } = new(BrassTone.MostPartials);

    /// <summary>The opening of the lips without its mean.</summary>
    internal PartialBank Opening { get; } = new(BrassTone.MostOpeningPartials);

    /// <summary>The root of the mouth's pressure without its mean.</summary>
    internal PartialBank Root { get; } = new(VoiceTone.MostMouthPartials);

    /// <summary>The voice beside the coupling.</summary>
    internal PartialBank Voice { get; } = new(VoiceTone.MostPartials);

    internal double OpeningMean { get; private set; }

    internal double RootMean { get; private set; } = 1;

    /// <summary>Factor that keeps the loudness of the pair while the depth moves.</summary>
    internal double Hold { get; private set; } = 1;

    /// <summary>Root mean square of the played tone, for what is measured against it.</summary>
    internal double PlayedRms { get; private set; }

    /// <summary>What the screen shows of the played partials: amplitudes before gains.</summary>
    internal float[] PlayedShown { get; } = new float[BrassTone.MostPartials];

    /// <summary>Of the sung partials.</summary>
    internal float[] SungShown { get; } = new float[VoiceTone.MostPartials];

    /// <summary>Of the parts, by index; root of the summed squares for P and S.</summary>
    internal float[] PartsShown { get; } = new float[PairParts.All.Length];

    internal double AttackLengthSeconds => _brass.AttackLengthSeconds;

    internal void Reset()
    {
        Tone.Clear();
        Opening.Clear();
        Root.Clear();
        Voice.Clear();
        Array.Clear(PlayedShown);
        Array.Clear(SungShown);
        Array.Clear(PartsShown);
    }

    /// <summary>Sets all targets.</summary>
    /// <param name="aim">What decides them.</param>
    /// <param name="samples">Samples until they are to be reached; 0 to begin there.</param>
    internal void Aim(in FlowAim aim, int samples)
    {
        double reference = KWeightingCurve.MeanSquare(ReferenceLufs) / 2;
        double playedMeanSquare = reference * Math.Pow(10, aim.DynamicDb / 10);
        double voiceMeanSquare = reference * Math.Pow(10, aim.BalanceDb / 10);

        int playedCount = FillTone(aim, playedMeanSquare);
        int openingCount = aim.Depth > 0 ? FillOpening(aim.PlayedHz, playedMeanSquare) : 0;
        double alternating = 0;
        for (int k = 0; k < openingCount; k++)
        {
            alternating += 0.5 * _openingLevels[k] * _openingLevels[k];
        }

        OpeningMean = FlowValve.MeanOverAlternating * Math.Sqrt(alternating);
        int voiceCount = aim.Depth >= 1 ? 0 : FillVoice(aim, voiceMeanSquare);
        RootMean = 1;
        int rootCount = 0;
        if (aim.Depth > 0)
        {
            rootCount = _voice.FillMouth(aim.SungHz, aim.Vowel, aim.Register, MouthLimit * _sampleRateHz, Root.RealTarget, Root.ImaginaryTarget);
            RootMean = _valve.Apply(DeepestModulation * aim.Depth, rootCount, Root.RealTarget, Root.ImaginaryTarget);
        }

        if (aim.Depth < 1 && voiceCount == 0)
        {
            // Above its highest formant the voice has nothing left to hold the loudness of.
            voiceMeanSquare = 0;
        }

        double sung = Show(aim, playedCount, openingCount, voiceCount, rootCount);
        double resultants = ResultantLoudness(aim.PlayedHz, aim.SungHz, openingCount, rootCount);
        Hold = Math.Sqrt((playedMeanSquare + voiceMeanSquare) / ((playedMeanSquare * RootMean * RootMean) + sung + resultants));
        Tone.Aim(playedCount, samples);
        Opening.Aim(openingCount, samples);
        Voice.Aim(voiceCount, samples);
        Root.Aim(rootCount, samples);
    }

    /// <summary>The amplitudes have reached what was aimed at.</summary>
    internal void Arrive()
    {
        Tone.Arrive();
        Opening.Arrive();
        Voice.Arrive();
        Root.Arrive();
    }

    private int FillTone(in FlowAim aim, double meanSquare)
    {
        int count = _brass.Fill(aim.PlayedHz, aim.DynamicDb, PlayedLimit * _sampleRateHz, _amplitudes);
        double loudness = 0;
        for (int k = 0; k < count; k++)
        {
            loudness += 0.5 * _amplitudes[k] * _amplitudes[k] * _weights.Loudness((k + 1) * aim.PlayedHz);
        }

        float scale = (float)Math.Sqrt(meanSquare / Math.Max(loudness, 1e-20));
        bool isAttack = aim.AttackSeconds < _brass.AttackLengthSeconds;
        double squares = 0;
        for (int k = 0; k < count; k++)
        {
            _amplitudes[k] *= isAttack ? scale * _brass.Entered(k + 1, aim.AttackSeconds) : scale;
            squares += 0.5 * _amplitudes[k] * _amplitudes[k];
            Tone.RealTarget[k] = _amplitudes[k] * _phaseReal[k];
            Tone.ImaginaryTarget[k] = _amplitudes[k] * _phaseImaginary[k];
        }

        PlayedRms = Math.Sqrt(squares);
        return count;
    }

    // The opening is scaled so that, heard through the bell alone, it would be as loud as the played tone.
    private int FillOpening(double playedHz, double meanSquare)
    {
        int count = Math.Min(_lipOpening.Count, (int)(PlayedLimit * _sampleRateHz / playedHz));
        double loudness = 0;
        for (int k = 0; k < count; k++)
        {
            double hz = (k + 1) * playedHz;
            float fade = (float)Math.Min(1, ((PlayedLimit * _sampleRateHz) - hz) / (0.07 * PlayedLimit * _sampleRateHz));
            _openingLevels[k] = (float)_lipOpening[k] * fade;
            loudness += 0.5 * _openingLevels[k] * _openingLevels[k] * _weights.LoudnessThroughBell(hz);
        }

        float scale = (float)Math.Sqrt(meanSquare / Math.Max(loudness, 1e-20));
        for (int k = 0; k < count; k++)
        {
            _openingLevels[k] *= scale;
            Opening.RealTarget[k] = _openingLevels[k] * _phaseReal[k];
            Opening.ImaginaryTarget[k] = _openingLevels[k] * _phaseImaginary[k];
            _openingLevels[k] = Math.Abs(_openingLevels[k]);
        }

        return count;
    }

    // The voice beside the coupling, in free air or through the instrument, of the loudness asked for; it gives way as the coupling deepens.
    private int FillVoice(in FlowAim aim, double meanSquare)
    {
        Span<float> real = Voice.RealTarget;
        Span<float> imaginary = Voice.ImaginaryTarget;
        int count = _voice.Fill(aim.SungHz, aim.Vowel, aim.Register, FreeVoiceLimit * _sampleRateHz, real, imaginary);
        float through = (float)aim.ThroughInstrument;
        float free = (1 - through) * Scale(real[..count], imaginary[..count], aim.SungHz, meanSquare);
        float depth = (float)(1 - aim.Depth);
        int tubeCount = 0;
        float tube = 0;
        if (through > 0)
        {
            tubeCount = _voice.FillMouth(aim.SungHz, aim.Vowel, aim.Register, MouthLimit * _sampleRateHz, _tubeReal, _tubeImaginary);
            for (int n = 0; n < tubeCount; n++)
            {
                float bell = _weights.Bell((n + 1) * aim.SungHz);
                _tubeReal[n] *= bell;
                _tubeImaginary[n] *= bell;
            }

            tube = through * Scale(_tubeReal.AsSpan(0, tubeCount), _tubeImaginary.AsSpan(0, tubeCount), aim.SungHz, meanSquare);
        }

        for (int n = 0; n < count; n++)
        {
            real[n] = depth * ((free * real[n]) + (n < tubeCount ? tube * _tubeReal[n] : 0));
            imaginary[n] = depth * ((free * imaginary[n]) + (n < tubeCount ? tube * _tubeImaginary[n] : 0));
        }

        return count;
    }

    // Factor that gives partials a K-weighted mean square.
    private float Scale(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary, double fundamentalHz, double meanSquare)
    {
        double loudness = 0;
        for (int n = 0; n < real.Length; n++)
        {
            loudness += 0.5 * ((real[n] * real[n]) + (imaginary[n] * imaginary[n])) * _weights.Loudness((n + 1) * fundamentalHz);
        }

        return (float)Math.Sqrt(meanSquare / Math.Max(loudness, 1e-20));
    }

    // Fills what the screen reads and returns the K-weighted mean square of the sung tone.
    private double Show(in FlowAim aim, int playedCount, int openingCount, int voiceCount, int rootCount)
    {
        double playedSquares = 0;
        PlayedShown.AsSpan(playedCount).Clear();
        for (int k = 0; k < playedCount; k++)
        {
            PlayedShown[k] = (float)(_amplitudes[k] * RootMean);
            playedSquares += PlayedShown[k] * PlayedShown[k];
        }

        double sungSquares = 0;
        double sungLoudness = 0;
        int sungCount = Math.Max(voiceCount, rootCount);
        SungShown.AsSpan(sungCount).Clear();
        for (int n = 0; n < sungCount; n++)
        {
            Complex amplitude = n < voiceCount ? new Complex(Voice.RealTarget[n], Voice.ImaginaryTarget[n]) : Complex.Zero;
            if (n < rootCount)
            {
                // A bell of magnitude b has the response b^2 + i b sqrt(1 - b^2).
                double magnitude = _weights.Bell((n + 1) * aim.SungHz);
                Complex bell = new(magnitude * magnitude, magnitude * Math.Sqrt(Math.Max(0, 1 - (magnitude * magnitude))));
                Complex root = new(Root.RealTarget[n], Root.ImaginaryTarget[n]);
                amplitude += OpeningMean * bell * root;
                _rootLevels[n] = (float)root.Magnitude;
            }

            SungShown[n] = (float)amplitude.Magnitude;
            double square = SungShown[n] * SungShown[n];
            sungSquares += square;
            sungLoudness += square == 0 ? 0 : 0.5 * square * _weights.Loudness((n + 1) * aim.SungHz);
        }

        PartsShown[PairParts.Played] = (float)Math.Sqrt(playedSquares);
        PartsShown[PairParts.Sung] = (float)Math.Sqrt(sungSquares);
        for (int i = PairParts.FirstResultant; i < PartsShown.Length; i++)
        {
            PairPart part = PairParts.All[i];
            int m = Math.Abs(part.Played);
            int n = Math.Abs(part.Sung);
            PartsShown[i] = m <= openingCount && n <= rootCount
                ? 0.5f * _openingLevels[m - 1] * _rootLevels[n - 1] * _weights.Bell((part.Played * aim.PlayedHz) + (part.Sung * aim.SungHz))
                : 0;
        }

        return sungLoudness;
    }

    private double ResultantLoudness(double playedHz, double sungHz, int openingCount, int rootCount)
    {
        float strongestOpening = 0;
        for (int k = 0; k < openingCount; k++)
        {
            strongestOpening = Math.Max(strongestOpening, _openingLevels[k]);
        }

        float strongestRoot = 0;
        for (int n = 0; n < rootCount; n++)
        {
            strongestRoot = Math.Max(strongestRoot, _rootLevels[n]);
        }

        // Lines 40 dB under the strongest add too little to count.
        float least = 0.01f * strongestOpening * strongestRoot;
        double sum = 0;
        for (int n = 0; n < rootCount; n++)
        {
            for (int k = 0; k < openingCount; k++)
            {
                float product = _openingLevels[k] * _rootLevels[n];
                if (product > least)
                {
                    double played = (k + 1) * playedHz;
                    double sung = (n + 1) * sungHz;
                    sum += 0.125 * product * product * (_weights.LoudnessThroughBell(played + sung) + _weights.LoudnessThroughBell(played - sung));
                }
            }
        }

        return sum;
    }
}
