using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>One thing to try next, from what was missed. The words are ours, to be tried with players and teachers.</summary>
internal static class Advice
{
    // Cures in order of what has to be right first: a tone, its note and octave, its beginning, its place, its steadiness, then the pair.
    private static readonly Fault[] Order =
    [
        Fault.NoTone, Fault.WrongOctave, Fault.OtherNote, Fault.TooShort, Fault.NotTogether, Fault.Late, Fault.NotRested, Fault.Broken, Fault.ShortWay, Fault.Offset,
        Fault.Drift, Fault.Spread, Fault.Flinch, Fault.NotReturned, Fault.Interval, Fault.NotLanded, Fault.BeatRate, Fault.Balance,
    ];

    /// <summary>The advice.</summary>
    /// <param name="resolved">The exercise.</param>
    /// <param name="findings">What its criteria found.</param>
    /// <param name="tones">The tones of the take; null for one that was not asked for.</param>
    /// <param name="passed">True when the take is as asked although a step was missed: the exercise asks for a share of them.</param>
    /// <param name="unjudged">What kept the take from being judged; null where nothing did.</param>
    public static string Next(
        ResolvedExercise resolved, IReadOnlyList<Finding> findings, IReadOnlyList<JudgedTone?> tones, bool passed = false, Finding? unjudged = null)
    {
        Finding[] missed = [.. findings.Where(finding => finding.Verdict == Verdict.Missed)];
        if (unjudged is not null && findings.Any(finding => finding.Verdict != Verdict.NotTold))
        {
            string how = unjudged.Criterion == PairCriteria.SecondName
                ? "Let the voice slide in from just below: what moves against the lips tells that two are there. Or choose a pair that is no unison, octave or twelfth, nor a third or fifth over two octaves."
                : "Once more, nearer to the microphone, as the exercise asks from its beginning.";
            return $"Not judged, neither for nor against you: {unjudged.Text} {how}";
        }

        if (passed && missed.Length > 0)
        {
            return $"As asked, though not in every step. For the rest: {Next(resolved, findings, tones)}";
        }

        if (missed.Length == 0)
        {
            return findings.All(finding => finding.Verdict == Verdict.NotTold)
                ? "Nothing could be told. Play nearer to the microphone, in a quieter room, and try once more."
                : $"As asked. {Passes(resolved)} of {resolved.Exercise.Dose.Takes} like this, then {(resolved.Exercise.Number > 0 ? "the next exercise" : "with less help, or faster")}.{Unasked(resolved, findings, tones)}";
        }

        Finding first = missed.OrderBy(finding => Array.IndexOf(Order, finding.Fault)).First();
        bool sung = first.Role == VoiceRole.Sung;
        string other = sung ? "played" : "sung";
        string tone = sung ? "sung" : "played";
        if (first.Criterion == "notes")
        {
            return first.Fault == Fault.Late
                ? "The same bars slower, with the click; hear each pair before its beat."
                : "Only the notes marked no, slowly, with one help more; then the bars around them.";
        }

        return first.Fault switch
        {
            Fault.NoTone => sung
                ? "Sing alone through the instrument with still lips, then play softly under the same note."
                : "Play alone until the note speaks at once, then let the voice join.",
            Fault.WrongOctave => $"Hear the {tone} note in your head in its own octave first; use the cue, then begin.",
            Fault.OtherNote => $"Another note than asked: hear the {tone} note in your head first; use the cue, then begin.",
            Fault.TooShort => "Take a lower, easier breath and play softer: the voice carries the pair.",
            Fault.NotTogether => "Overlap for one easy beat only; lengthen it when it is there each time.",
            Fault.Late => "Breathe with the count and begin on it; hear the pitch before it is asked for.",
            Fault.NotRested => sung
                ? "Play that stretch alone with the throat at rest; let the voice come in at its turn only."
                : "Lips still while you sing; sing that stretch alone first.",
            Fault.ShortWay => $"Hear the note the {tone} tone goes to, then go all the way there, slowly; the {other} tone soft.",
            Fault.Broken => $"The same glide slower and over half the way, the {other} tone soft.",
            // Beats tell how far the two are apart, not which of them is off, nor to which side.
            Fault.Offset when first.Unit == "/s" => "They beat: which of the two is off, and to which side, cannot be told here. Move the voice a little; where the beats slow down is the right way.",
            Fault.Offset => first.Value is > 0
                ? $"The {tone} tone is high: hear it lower in your head before you begin; slow beats tell you that you are near."
                : $"The {tone} tone is low: hear it higher in your head before you begin; slow beats tell you that you are near.",
            Fault.Drift => "Hold half as long, and renew the breath before the tone moves.",
            Fault.Spread => $"The {tone} tone alone, long and soft, until it rests; then the pair again.",
            Fault.Flinch => $"The {tone} tone alone with the breath you use for both; then let the {other} tone come in very softly.",
            Fault.NotReturned => "Keep the place in mouth and throat while the other sounds; come back to the same breath.",
            Fault.Interval => "Only the two notes with the widest error, back and forth, slowly.",
            Fault.NotLanded => "Approach slower; listen for the beats to slow down, and stop moving when they do.",
            Fault.Balance => "Keep the voice where it is and change the lips alone: a breath of a tone first, then a little more each time.",
            _ => "Count the beats aloud with the tones alone first, then make them.",
        };
    }

    // A held tone whose place nothing asked for, and which lay off it all the same: no fault of this exercise, but never called true.
    private static string Unasked(ResolvedExercise resolved, IReadOnlyList<Finding> findings, IReadOnlyList<JudgedTone?> tones)
    {
        bool asksPair = findings.Any(finding => finding.Criterion is "notes" or "interval" or "landing" or "beatRate");
        JudgedTone? off = asksPair ? null : tones.OfType<JudgedTone>()
            .Where(tone => tone.OffsetCents is { } cents && Math.Abs(cents) > Sayings.TrueWithin(resolved.Profile.Aim)
                && !findings.Any(finding => finding.Criterion == "offset" && finding.Role == tone.Role)
                && resolved.Steps.Select(step => (PlayTask)step.Task).All(task => (tone.Role == VoiceRole.Played ? task.Played : task.Sung)?.Moves != true))
            .MaxBy(tone => Math.Abs(tone.OffsetCents!.Value));
        return off is null ? "" : string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $" Its place is not asked here, but the {(off.Role == VoiceRole.Played ? "played" : "sung")} tone lay {Math.Abs(off.OffsetCents!.Value):0} c {(off.OffsetCents > 0 ? "high" : "low")}.");
    }

    private static string Passes(ResolvedExercise resolved) =>
        resolved.Exercise.Dose.Pass.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
