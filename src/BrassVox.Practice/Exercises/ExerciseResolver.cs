using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Gives an exercise its notes for a player. Pure.</summary>
public static class ExerciseResolver
{
    /// <summary>Resolves an exercise.</summary>
    /// <param name="exercise">The exercise.</param>
    /// <param name="profile">The player.</param>
    /// <param name="choice">Notes chosen by hand, used as they are, whatever the voice's range; null takes the profile's.</param>
    /// <param name="seed">For steps drawn at random: same seed, same steps.</param>
    public static Resolution Resolve(Exercise exercise, PlayerProfile profile, PairChoice? choice = null, int seed = 1)
    {
        try
        {
            return Resolved(exercise, profile, choice, seed);
        }
        catch (ArgumentException)
        {
            // Each interval may be right, and their sum beyond what a path of pitch may hold.
            return new Resolution(null, $"{exercise.Name} leads to tones outside 5 to 20000 Hz: its intervals, for this pair, are too wide.");
        }
    }

    private static Resolution Resolved(Exercise exercise, PlayerProfile profile, PairChoice? choice, int seed)
    {
        if (exercise.PlayAlong is { Passage: { } passage })
        {
            return PassageOf(exercise, exercise.PlayAlong, passage, profile);
        }

        PairPlan plan = exercise.Pair;
        IReadOnlyList<StepPlan> plans = exercise.PlayAlong switch
        {
            null => [],
            { Draw: { } draw } take => draw.Expand(take.Steps[0], seed),
            { } take => take.Steps,
        };
        IEnumerable<PairFitting.Fit> candidates = choice is null ? PairFitting.Candidates(plan, profile) : [PairFitting.Chosen(plan, choice)];
        (double Low, double High)? asked = null;
        foreach (PairFitting.Fit fit in candidates)
        {
            ResolvedPair pair = PairOf(fit.Played, fit.Sung, plan.Tuning, profile);
            StepResolver.Built[] steps = [.. plans.Select(step => StepResolver.Build(step, exercise, profile, pair, choice is null))];
            (double Low, double High)? range = RangeOf(steps.Select(built => built.Step));
            if (choice is not null || plan.Voice == VoicePlace.Any || IsIn(range ?? (fit.Sung.MidiNumber, fit.Sung.MidiNumber), profile))
            {
                string[] outside = choice is not null && range is { } sung && !IsIn(sung, profile)
                    ? [$"S leaves your voice here, {profile.LowestSung} to {profile.HighestSung}: sing what is easy, and do not force the rest."]
                    : [];
                string[] notes = [.. PairFitting.Notes(plan, fit, profile, pair), .. outside, .. steps.Select(built => built.Note).OfType<string>().Distinct()];
                return new Resolution(new ResolvedExercise(exercise, profile, pair, notes, [.. steps.Select(built => built.Step)]), null);
            }

            asked ??= range;
        }

        (double low, double high) = asked ?? (0, 0);
        return new Resolution(null,
            $"{exercise.Name} asks the voice for {Pitch.FromMidi((int)Math.Floor(low))} to "
            + $"{Pitch.FromMidi((int)Math.Ceiling(high))}; yours is {profile.LowestSung} to {profile.HighestSung}, "
            + "and no other octave or played note brings it there. A wider range in the profile, or notes of your own, will.");
    }

    private static Resolution PassageOf(Exercise exercise, PlayAlongPlan take, PassagePlan plan, PlayerProfile profile)
    {
        PassageLoad load = ShippedPassages.Load(plan.Name, profile);
        if (load.Passage is not { } passage)
        {
            return new Resolution(null, load.Problem!.ToString());
        }

        ResolvedExercise turn = PassageExercise.Resolve(passage, profile, new PassageTurn(Math.Min(plan.FromBar, passage.Bars.Count), plan.ToBar, plan.Help), new TakeOptions());
        PlayAlongPlan own = take with { Cue = turn.Exercise.PlayAlong!.Cue, TempoBpm = turn.Exercise.PlayAlong.TempoBpm };
        int outside = passage.Sung.Count(note => !profile.CanSing(note.Note));
        string[] notes = outside == 0 ? [.. passage.Remarks] : [.. passage.Remarks, $"{outside} of its {passage.Sung.Count} sung notes lie outside your range; passage show says which."];
        return new Resolution(turn with { Exercise = exercise with { PlayAlong = own }, Notes = notes }, null);
    }

    /// <summary>A pair in a tuning, rooted as the profile says.</summary>
    internal static ResolvedPair PairOf(Pitch played, Pitch sung, string? tuningName, PlayerProfile profile)
    {
        PlayerProfile tuned = tuningName is null ? profile : profile with { TuningName = tuningName };
        Tuning tuning = tuned.TuningFor(played);
        return new ResolvedPair(
            played, sung, tuning.FrequencyHz(played, profile.A4Hz), tuning.FrequencyHz(sung, profile.A4Hz), tuning, profile.A4Hz);
    }

    /// <summary>True when the voice has a range of semitones. Bends of less than a semitone do not leave it.</summary>
    internal static bool IsIn((double Low, double High) range, PlayerProfile profile) =>
        range.Low >= profile.LowestSung.MidiNumber - 0.99 && range.High <= profile.HighestSung.MidiNumber + 0.99;

    /// <summary>Lowest and highest sung note as MIDI numbers with fractions; null when nothing is sung.</summary>
    internal static (double Low, double High)? RangeOf(IEnumerable<ExerciseStep> steps)
    {
        double[] notes = [.. steps
            .Select(step => ((PlayTask)step.Task).Sung)
            .OfType<AskedPart>()
            .SelectMany(part => part.Segments)
            .Where(segment => segment.Move != Move.Rest)
            .Select(segment => segment.Note.MidiNumber + (segment.Cents / 100))];
        return notes.Length == 0 ? null : (notes.Min(), notes.Max());
    }
}
