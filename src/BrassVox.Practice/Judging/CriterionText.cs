using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>What a criterion asks, in words, at a grade.</summary>
public static class CriterionText
{
    /// <summary>One criterion as what is to be reached.</summary>
    /// <param name="criterion">The criterion.</param>
    /// <param name="aim">The grade the player is held against.</param>
    public static string Of(Criterion criterion, Grade aim) => criterion switch
    {
        OffsetCriterion offset => $"{Tone(offset.Role)} within {Cents(offset.LimitCents, aim)} of its note{(offset.AnyOctave ? ", in any octave" : "")}",
        SpreadCriterion spread => $"{Tone(spread.Role)} wanders at most {Cents(spread.LimitCents, aim)}; vibrato is not counted",
        DriftCriterion drift => $"{Tone(drift.Role)} rises or sinks at most {Cents(drift.LimitCents, aim)}",
        SteadyCriterion steady => $"{Tone(steady.Role)} shifts at most {Cents(steady.LimitCents, aim)} while the other comes or moves",
        UnbrokenCriterion unbroken => $"{Tone(unbroken.Role)} {(unbroken.LargestJumpCents > SemitoneCents ? "moves" : "glides")} in one piece, at least half the way",
        LandingCriterion landing => Invariant($"beats under {landing.BelowPerSecondAtBb2:0.#} /s (on Bb2; elsewhere the same in cents) for {landing.ForSeconds:0.#} s"),
        BeatRateCriterion rate => Invariant($"beats {rate.PerSecond:0.#} /s within {rate.WithinPerSecond:0.#}"),
        ArrivalCriterion arrival => Invariant($"{Tone(arrival.Role)} there within {arrival.WithinSeconds:0.#} s, to {arrival.LimitCents.Of(aim):0} c"),
        TogetherCriterion together => Invariant($"both tones at once for {together.AtLeastSeconds:0.#} s"),
        ReturnCriterion back => $"{Tone(back.Role)} comes back within {Cents(back.LimitCents, aim)}",
        NotesCriterion notes => Invariant($"{100 * notes.Share:0} per cent of the notes within {notes.LimitCents.Of(aim):0} c and {notes.WithinSeconds:0.##} s"),
        BalanceCriterion balance => Invariant($"the played tone grows against the sung one by {balance.GrowsByDb:0.#} dB each time"),
        IntervalCriterion interval => Invariant($"the interval within {interval.LimitCents.Of(aim):0} c, {interval.WideLimitCents.Of(aim):0} c after a leap wider than a third"),
        _ => criterion.GetType().Name,
    };

    /// <summary>All that is asked, each thing once and in its order; what is asked of both tones alike stands together.</summary>
    /// <param name="criteria">The criteria.</param>
    /// <param name="aim">The grade the player is held against.</param>
    public static IReadOnlyList<string> Lines(IEnumerable<Criterion> criteria, Grade aim)
    {
        string[] all = [.. criteria.Select(criterion => Of(criterion, aim)).Distinct()];
        List<string> lines = [];
        foreach (string text in all)
        {
            string other = text.StartsWith(PlayedTone, StringComparison.Ordinal) ? SungTone + text[PlayedTone.Length..]
                : text.StartsWith(SungTone, StringComparison.Ordinal) ? PlayedTone + text[SungTone.Length..] : "";
            string line = all.Contains(other) ? $"each tone{text[(text.StartsWith(PlayedTone, StringComparison.Ordinal) ? PlayedTone : SungTone).Length..]}" : text;
            if (!lines.Contains(line))
            {
                lines.Add(line);
            }
        }

        return lines;
    }

    private const string PlayedTone = "played tone";
    private const string SungTone = "sung tone";

    // Who may jump that far may go by semitones.
    private const double SemitoneCents = 100;

    private static string Tone(VoiceRole role) => role == VoiceRole.Played ? PlayedTone : SungTone;

    private static string Cents(GradeLimits limits, Grade aim) => Invariant($"{limits.Of(aim):0} c");

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
