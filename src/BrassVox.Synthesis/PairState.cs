using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>All that moves in a flow pair apart from its sound: controls, pitches, gains of parts, the ramp of start and stop. Sound thread only.</summary>
internal sealed class PairState
{
    private const double ShortestFadeSeconds = 0.050;
    private readonly BrassPreset _brass;
    private readonly VoicePreset _voice;
    private readonly LivingPitch _played;
    private readonly LivingPitch _sung;
    private int _sampleRateHz;
    private Sounding _sounding;

    internal PairState(BrassPreset brass, VoicePreset voice, int seed)
    {
        _brass = brass;
        _voice = voice;
        Parameters = new PairParameters(voice);
        _played = new LivingPitch(seed, brass.Attack.ScoopCents, brass.Attack.ScoopMs);
        _sung = new LivingPitch(~seed, 0, 1);
    }

    /// <summary>Gain in dB at or below which a part is silent.</summary>
    internal const float SilentDb = -80;

    internal PairParameters Parameters { get; }

    /// <summary>Gains of the parts by index, linear.</summary>
    internal Ramp[] Gains { get; } = new Ramp[PairParts.All.Length];

    /// <summary>From Start until the ramp after Stop has ended.</summary>
    internal bool IsRunning => _sounding.IsRunning;

    /// <summary>True from a Start out of silence until <see cref="Begin"/>.</summary>
    internal bool Begins => _sounding.Begins;

    /// <summary>Sample of the next stretch.</summary>
    internal long Now { get; private set; }

    /// <summary>P now, in Hz.</summary>
    internal double PlayedHz { get; private set; }

    /// <summary>S now, in Hz.</summary>
    internal double SungHz { get; private set; }

    /// <summary>Level and ramp now, linear.</summary>
    internal double Level { get; private set; }

    /// <summary>Level of the sung tone beside the others, linear.</summary>
    internal double Shimmer => _sung.Shimmer;

    internal void Reset(int sampleRateHz)
    {
        _sampleRateHz = sampleRateHz;
        Parameters.Reset();
        _played.Reset(Math.Sqrt(_brass.LowestHz * _brass.HighestHz), sampleRateHz);
        _sung.Reset(Math.Sqrt(_voice.LowestHz * _voice.HighestHz), sampleRateHz);
        foreach (ref Ramp gain in Gains.AsSpan())
        {
            gain.Jump(1);
        }

        _sounding.Reset(sampleRateHz);
        Now = 0;
        Level = 0;
        Look();
    }

    /// <summary>Takes over what has been set since the last tick.</summary>
    internal void Poll()
    {
        Parameters.Poll(_sampleRateHz);
        double life = Parameters[PairParameters.Life];
        _played.Now = new(Parameters[PairParameters.PlayedVibratoHz], Parameters[PairParameters.PlayedVibratoCents], life * _brass.DriftCents, 0, 0);
        _sung.Now = new(
            Parameters[PairParameters.SungVibratoHz], Parameters[PairParameters.SungVibratoCents], life * _voice.DriftCents,
            life * _voice.JitterPercent, life * _voice.ShimmerPercent);
    }

    internal void Handle(in PairEvent pairEvent)
    {
        double fade = Math.Max(ShortestFadeSeconds, pairEvent.Seconds) * _sampleRateHz;
        switch (pairEvent.Kind)
        {
            case PairEventKind.Pitch when pairEvent.Path is not null:
                LivingPitch pitch = pairEvent.Role == VoiceRole.Played ? _played : _sung;
                pitch.Follow(pairEvent.Path, slide: _sounding.IsHeard);
                Look();
                break;
            case PairEventKind.Gain when (uint)pairEvent.PartIndex < (uint)Gains.Length && !float.IsNaN(pairEvent.Value):
                Gains[pairEvent.PartIndex].MoveTo(pairEvent.Value <= SilentDb ? 0 : Decibels.Amplitude(Math.Min(pairEvent.Value, 12)), _sounding.IsHeard ? fade : 0);
                break;
            case PairEventKind.Coupling when !float.IsNaN(pairEvent.Value):
                Parameters.MoveTo(PairParameters.CouplingDepth, Math.Clamp(pairEvent.Value, 0, 1), _sounding.IsHeard ? fade : 0);
                break;
            default:
                _sounding.Handle(pairEvent.Kind);
                break;
        }
    }

    /// <summary>The note begins here.</summary>
    internal void Begin()
    {
        _sounding.Begin();
        _played.Attack();
        Look();
    }

    /// <summary>What the sound aims at so many samples ahead.</summary>
    internal FlowAim Aim(int ahead, double attackLengthSeconds) => new(
        PlayedAfter(ahead),
        SungAfter(ahead),
        Math.Clamp(Parameters.After(PairParameters.CouplingDepth, ahead), 0, 1),
        Parameters.After(PairParameters.PlayedDynamicDb, ahead),
        Parameters.After(PairParameters.BalanceDb, ahead),
        Parameters.After(PairParameters.Vowel, ahead),
        Parameters.After(PairParameters.Register, ahead),
        Parameters.After(PairParameters.ThroughInstrument, ahead),
        Math.Min(_played.AttackSeconds(ahead), attackLengthSeconds));

    /// <summary>Level of breath noise over that of the played tone, linear.</summary>
    internal double BreathAfter(int ahead) => Parameters.After(PairParameters.Life, ahead) * Decibels.Amplitude(_brass.BreathNoiseDb);

    internal double PlayedAfter(int ahead) => _played.FrequencyHz(ahead, Parameters.After(PairParameters.PlayedDetuneCents, ahead), 0);

    internal double SungAfter(int ahead) =>
        _sung.FrequencyHz(ahead, Parameters.After(PairParameters.SungDetuneCents, ahead), Parameters.After(PairParameters.SungDetuneHz, ahead));

    /// <summary>Moves on; the pitches reached are handed in so that the next stretch begins exactly there.</summary>
    internal void Advance(int count, double playedHz, double sungHz)
    {
        _played.Advance(count, PlayedHz);
        _sung.Advance(count, SungHz);
        Parameters.Advance(count);
        _sounding.Advance(count);
        foreach (ref Ramp gain in Gains.AsSpan())
        {
            gain.Advance(count);
        }

        Now += count;
        PlayedHz = playedHz;
        SungHz = sungHz;
        Level = Decibels.Amplitude(Parameters[PairParameters.LevelDb]) * _sounding.Amplitude;
    }

    private void Look()
    {
        PlayedHz = PlayedAfter(0);
        SungHz = SungAfter(0);
    }
}
