using BrassVox.Practice.Judging;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>The figures of one take that the error map is made of.</summary>
/// <param name="OffsetCents">Larger offset of the two tones, sign dropped; null when not told.</param>
/// <param name="WanderCents">Larger spread of the two.</param>
/// <param name="DriftCents">Larger drift of the two, sign dropped.</param>
/// <param name="BeatsPerSecond">Beats where most of the take was fog; else null.</param>
/// <param name="Role">The tone that is further off in its worst respect; null when not told.</param>
public sealed record TakeError(double? OffsetCents, double? WanderCents, double? DriftCents, double? BeatsPerSecond, VoiceRole? Role)
{
    /// <summary>Under how many beats a second the take was called still.</summary>
    public double StillBelowPerSecond { get; init; } = JudgedPair.StillBelowPerSecondAtBb2;

    /// <summary>True when a tone was another note than asked, or in another octave: no error in cents, so it is in none of these figures.</summary>
    public bool IsOtherNote { get; init; }

    /// <summary>The figures of a take.</summary>
    /// <param name="take">The take.</param>
    public static TakeError Of(TakeRecord take)
    {
        JudgedPair pair = take.Result.Pair;
        if (pair.FogSeconds > pair.SeparableSeconds)
        {
            // Stillness gives no rate; half of what is called still stands for it. Ours.
            double? beats = pair.MedianBeatsPerSecond ?? (pair.StillSeconds > pair.BeatingSeconds ? pair.StillBelowPerSecond / 2 : null);
            return new TakeError(null, null, null, beats, null) { StillBelowPerSecond = pair.StillBelowPerSecond };
        }

        JudgedTone[] told = [.. new[] { take.Result.Played, take.Result.Sung }.OfType<JudgedTone>().Where(tone => tone.OffsetCents is not null && !IsFree(take, tone))];
        JudgedTone[] tones = [.. told.Where(tone => !PitchCriteria.IsOtherNote(tone.OffsetCents!.Value) && (OctavesOff(tone) == 0 || IsAnyOctave(take, tone)))
            .Select(tone => tone with { OffsetCents = tone.OffsetCents - (CentsOfOctave * OctavesOff(tone)) })];
        bool isOtherNote = tones.Length < told.Length;
        return tones.Length == 0
            ? new TakeError(null, null, null, null, null) { IsOtherNote = isOtherNote }
            : new TakeError(
                tones.Max(tone => Math.Abs(tone.OffsetCents!.Value)),
                tones.Max(tone => tone.SpreadCents),
                tones.Max(tone => Math.Abs(tone.DriftCents ?? 0)),
                null,
                tones.MaxBy(Worst)!.Role)
            { IsOtherNote = isOtherNote };
    }

    private const double CentsOfOctave = 1200;

    // A glide of which only is asked that it goes in one piece: how it lay about the drawn line is no error.
    private static bool IsFree(TakeRecord take, JudgedTone tone)
    {
        string[] asked = [.. take.Result.Findings.Where(finding => finding.Role == tone.Role).Select(finding => finding.Criterion)];
        return asked.Contains("unbroken") && !asked.Any(criterion => criterion is "offset" or "spread" or "drift" or "arrival");
    }

    private static double OctavesOff(JudgedTone tone) => Math.Round((tone.OffsetCents ?? 0) / CentsOfOctave);

    // Where any octave was asked for, its offset stands as told within its own.
    private static bool IsAnyOctave(TakeRecord take, JudgedTone tone)
    {
        Finding[] places = [.. take.Result.Findings.Where(finding => finding.Criterion == "offset" && finding.Role == tone.Role && finding.Verdict != Verdict.NotTold)];
        return places.Length > 0 && places.All(finding => finding.Fault != Fault.WrongOctave);
    }

    /// <summary>One figure.</summary>
    /// <param name="kind">Which.</param>
    public double? Value(ErrorKind kind) => kind switch
    {
        ErrorKind.Offset => OffsetCents,
        ErrorKind.Wander => WanderCents,
        ErrorKind.Drift => DriftCents,
        _ => BeatsPerSecond,
    };

    private static double Worst(JudgedTone tone) => Math.Max(Math.Abs(tone.OffsetCents ?? 0), Math.Max(tone.SpreadCents ?? 0, Math.Abs(tone.DriftCents ?? 0)));
}
