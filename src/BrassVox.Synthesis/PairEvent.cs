using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>Something that happens to a pair at a sample.</summary>
/// <param name="AtSample">Sample on the engine's own clock (0 is the first sample after Prepare or Reset); one that has passed means at once.</param>
/// <param name="Kind">What happens.</param>
/// <param name="Role">The tone, for <see cref="PairEventKind.Pitch"/>.</param>
/// <param name="Path">The path, for <see cref="PairEventKind.Pitch"/>; its second 0 is <paramref name="AtSample"/>.</param>
/// <param name="PartIndex">Index into <see cref="IPairEngine.Parts"/>, for <see cref="PairEventKind.Gain"/>.</param>
/// <param name="Value">Gain in dB, or depth 0 to 1.</param>
/// <param name="Seconds">Time the change takes, in seconds; gains never move faster than in 50 ms.</param>
public readonly record struct PairEvent(
    long AtSample, PairEventKind Kind, VoiceRole Role, PitchPath? Path, int PartIndex, float Value, float Seconds)
{
    /// <summary>Begins to sound.</summary>
    /// <param name="atSample">Engine sample; passed means at once.</param>
    public static PairEvent Start(long atSample = 0) => new(atSample, PairEventKind.Start, default, null, 0, 0, 0);

    /// <summary>Ends in 60 ms.</summary>
    /// <param name="atSample">Engine sample; passed means at once.</param>
    public static PairEvent Stop(long atSample = 0) => new(atSample, PairEventKind.Stop, default, null, 0, 0, 0);

    /// <summary>Silence in 10 ms.</summary>
    /// <param name="atSample">Engine sample; passed means at once.</param>
    public static PairEvent Tacet(long atSample = 0) => new(atSample, PairEventKind.Tacet, default, null, 0, 0, 0);

    /// <summary>A tone follows a path; it slides from where it is in 20 ms.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="path">The path, second 0 at the event.</param>
    /// <param name="atSample">Engine sample; passed means at once.</param>
    public static PairEvent Pitch(VoiceRole role, PitchPath path, long atSample = 0) =>
        new(atSample, PairEventKind.Pitch, role, path, 0, 0, 0);

    /// <summary>A part fades.</summary>
    /// <param name="partIndex">Index into <see cref="IPairEngine.Parts"/>.</param>
    /// <param name="gainDb">New gain in dB, -80 (silent) to +12.</param>
    /// <param name="seconds">Time in seconds, at least 0.05.</param>
    /// <param name="atSample">Engine sample; passed means at once.</param>
    public static PairEvent Gain(int partIndex, float gainDb, float seconds = 0.05f, long atSample = 0) =>
        new(atSample, PairEventKind.Gain, default, null, partIndex, gainDb, seconds);

    /// <summary>The coupling depth moves.</summary>
    /// <param name="depth">0 (separate) to 1.</param>
    /// <param name="seconds">Time in seconds, at least 0.05.</param>
    /// <param name="atSample">Engine sample; passed means at once.</param>
    public static PairEvent Coupling(float depth, float seconds = 0.05f, long atSample = 0) =>
        new(atSample, PairEventKind.Coupling, default, null, 0, depth, seconds);
}
