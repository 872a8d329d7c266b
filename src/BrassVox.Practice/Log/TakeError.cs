using BrassVox.Practice.Judging;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>The figures of one take that the error map is made of.</summary>
/// <param name="OffsetCents">Larger offset of the two tones whose place was asked, or of the interval where that was asked, sign dropped; null when not told.</param>
/// <param name="WanderCents">Larger spread of the two that were to be held.</param>
/// <param name="DriftCents">Larger drift of the two that were to be held, sign dropped.</param>
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

        JudgedTone[] told = [.. new[] { take.Result.Played, take.Result.Sung }.OfType<JudgedTone>().Where(tone => tone.OffsetCents is not null && IsAsked(take, tone, OfHolding))];
        JudgedTone[] tones = [.. told.Where(tone => !IsOtherNoteAsked(take, tone)).Select(tone => tone with
        {
            OffsetCents = IsAsked(take, tone, OfPlace) ? tone.OffsetCents - (CentsOfOctave * OctavesOff(tone)) : null,
        })];
        double? interval = take.Result.Findings
            .Where(finding => finding.Criterion == "interval" && finding.Verdict != Verdict.NotTold).Max(finding => Math.Abs(finding.Value ?? 0.0) as double?);
        return new TakeError(
            Largest([.. tones.Select(tone => tone.OffsetCents), interval]),
            Largest([.. tones.Select(tone => tone.SpreadCents)]),
            Largest([.. tones.Select(tone => tone.DriftCents)]),
            null,
            tones.MaxBy(Worst)?.Role)
        { IsOtherNote = tones.Length < told.Length };
    }

    /// <summary>True when there is a figure: of a take of which nothing is asked that cents or beats would tell, or that had another note throughout, there is none.</summary>
    public bool IsTold => (OffsetCents ?? WanderCents ?? DriftCents ?? BeatsPerSecond) is not null;

    private const double CentsOfOctave = 1200;

    // What asks where a tone stands, and what asks only that it stays there. A glide of which only is asked that it goes in one piece has neither:
    // how it lay about the drawn line is no error.
    private static readonly string[] OfPlace = ["offset", "arrival", "return", "notes"];
    private static readonly string[] OfHolding = [.. OfPlace, "spread", "drift", "steady"];

    private static bool IsAsked(TakeRecord take, JudgedTone tone, string[] criteria) =>
        take.Result.Findings.Any(finding => criteria.Contains(finding.Criterion) && (finding.Role ?? tone.Role) == tone.Role);

    // Where no place is asked, a note of the player's own choice is none.
    private static bool IsOtherNoteAsked(TakeRecord take, JudgedTone tone) =>
        IsAsked(take, tone, OfPlace) && (PitchCriteria.IsOtherNote(tone.OffsetCents!.Value) || (OctavesOff(tone) != 0 && !IsAnyOctave(take, tone)));

    private static double? Largest(double?[] figures) => figures.Max(figure => figure is { } told ? Math.Abs(told) : (double?)null);

    private static double OctavesOff(JudgedTone tone) => Math.Round((tone.OffsetCents ?? 0) / CentsOfOctave);

    // Where any octave was asked for, its offset stands as told within its own.
    private static bool IsAnyOctave(TakeRecord take, JudgedTone tone)
    {
        Finding[] places = [.. take.Result.Findings.Where(finding => finding.Criterion == "offset" && finding.Role == tone.Role && finding.Verdict != Verdict.NotTold)];
        return places.Length > 0 && places.All(finding => finding.Fault is not (Fault.WrongOctave or Fault.OtherNote));
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
