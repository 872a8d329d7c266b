using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Exercises;

/// <summary>What a well-formed exercise file can still get wrong.</summary>
internal static class ExerciseCheck
{
    private const double LongestSeconds = 600;

    /// <summary>The first fault with its place, or null.</summary>
    public static (string JsonPath, string Message)? FirstFault(Exercise exercise) => Faults(exercise).Cast<(string, string)?>().FirstOrDefault();

    private static IEnumerable<(string JsonPath, string Message)> Faults(Exercise exercise)
    {
        if (exercise.FormatVersion != 1)
        {
            yield return ("$.formatVersion", "this program reads format version 1.");
        }

        if (exercise.Id.Length == 0 || exercise.Id.Any(c => !(char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-')))
        {
            yield return ("$.id", "an id is written in a to z, 0 to 9 and hyphens.");
        }

        if (exercise.ShortName is { Length: 0 or > Exercise.LongestShortName })
        {
            yield return ("$.shortName", $"a short name has 1 to {Exercise.LongestShortName} characters.");
        }

        if (exercise.Number < 1)
        {
            yield return ("$.number", "the place in the curriculum counts from 1.");
        }

        if ((exercise.Listening is null) == (exercise.PlayAlong is null))
        {
            yield return ("$", "an exercise has either \"listening\" or \"playAlong\".");
        }

        if (exercise.Dose is not { Minutes: > 0, Takes: >= 1, Pass: >= 1, RestSeconds: >= 0 } || exercise.Dose.Pass > exercise.Dose.Takes)
        {
            yield return ("$.dose", "minutes lie above 0, takes from 1, pass from 1 to takes.");
        }

        if (exercise.Pair.Tuning is { } tuning && !KnownTuning(tuning))
        {
            yield return ("$.pair.tuning", $"\"{tuning}\" is no tuning; write equal, just, pythagorean or meantone.");
        }

        foreach ((string, string) fault in ListeningFaults(exercise.Listening).Concat(TakeFaults(exercise.PlayAlong)))
        {
            yield return fault;
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> TakeFaults(PlayAlongPlan? plan)
    {
        if (plan is null)
        {
            yield break;
        }

        if (plan.Passage is { } passage && (plan.Steps.Count > 0 || passage.FromBar < 1 || passage.ToBar < passage.FromBar
            || passage.Name.Length == 0 || passage.Name.Any(c => !(char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'))))
        {
            yield return ("$.playAlong.passage", "a passage has a name in a to z, 0 to 9 and hyphens, bars from 1, and no steps beside it.");
        }

        if (plan.Steps.Count == 0 && plan.Passage is null)
        {
            yield return ("$.playAlong.steps", "a take has at least one step.");
        }

        if (plan.TempoBpm is not (null or (>= 20 and <= 300)))
        {
            yield return ("$.playAlong.tempoBpm", "a tempo lies from 20 to 300 beats a minute.");
        }

        if (plan.GapSeconds is not (>= 0 and <= 60))
        {
            yield return ("$.playAlong.gapSeconds", "silence between steps lasts 0 to 60 s.");
        }

        if (plan.PassShare is not (> 0 and <= 1))
        {
            yield return ("$.playAlong.passShare", "a share of the steps lies over 0 and up to 1.");
        }

        if (plan.Draw is { } draw && (draw.Steps is not (>= 1 and <= 50) || draw.Played.Count == 0 || draw.Over.Count == 0 || plan.Steps.Count != 1))
        {
            yield return ("$.playAlong.draw", "a draw makes 1 to 50 steps out of one pattern step, from at least one place and one interval.");
        }

        for (int i = 0; i < plan.Steps.Count; i++)
        {
            StepPlan step = plan.Steps[i];
            string at = $"$.playAlong.steps[{i}]";
            if (step.Played.Count + step.Sung.Count == 0)
            {
                yield return (at, "a step asks for a played or a sung tone.");
            }

            if (step.Criteria.Count == 0)
            {
                yield return ($"{at}.criteria", "a step is judged by at least one criterion.");
            }

            foreach ((string, string) fault in MotionFaults(step.Played, plan.TempoBpm, $"{at}.played")
                .Concat(MotionFaults(step.Sung, plan.TempoBpm, $"{at}.sung"))
                .Concat(LeaningFaults(step, at))
                .Concat(step.Sound is null ? [] : SoundFaults(step.Sound, plan.TempoBpm, $"{at}.sound"))
                .Concat(CriterionFaults(step, at)))
            {
                yield return fault;
            }
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> CriterionFaults(StepPlan step, string at)
    {
        for (int i = 0; i < step.Criteria.Count; i++)
        {
            if (!TakeJudge.CanApply(step.Criteria[i], step.Played.Count > 0, step.Sung.Count > 0))
            {
                yield return ($"{at}.criteria[{i}]", "this criterion judges a tone that the step does not ask for.");
            }
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> ListeningFaults(ListeningPlan? plan)
    {
        if (plan is null)
        {
            yield break;
        }

        if (plan.Trials < 1)
        {
            yield return ("$.listening.trials", "a set has at least one trial.");
        }

        if (plan.GapSeconds is not (>= 0.15 and <= 10))
        {
            yield return ("$.listening.gapSeconds", "the gap lasts 0.15 to 10 s, so that one sound has ended before the next is set up.");
        }

        if (plan.Cases.Count == 0)
        {
            yield return ("$.listening.cases", "there is at least one case.");
        }

        if (plan.Answer is ChoiceAnswer choice && choice.Options.Distinct(StringComparer.Ordinal).Count() is var distinct
            && (distinct < 2 || distinct != choice.Options.Count))
        {
            yield return ("$.listening.answer.options", "a choice has at least two options, all different.");
        }

        if (plan.Difficulty is { Values.Count: 0 })
        {
            yield return ("$.listening.difficulty.values", "there is at least one value.");
        }

        for (int i = 0; i < plan.Cases.Count; i++)
        {
            TrialCase trial = plan.Cases[i];
            if (trial.Sounds.Count == 0 || trial.Sounds.FirstOrDefault(id => plan.Sounds.All(sound => sound.Id != id)) is not null)
            {
                yield return ($"$.listening.cases[{i}].sounds", "a case names at least one sound, each by the id of one in \"sounds\".");
            }

            bool known = plan.Answer is ChoiceAnswer options
                ? trial.Option is not null && options.Options.Contains(trial.Option, StringComparer.Ordinal)
                : trial.Option is null;
            if (!known)
            {
                yield return ($"$.listening.cases[{i}]", "a case of a choice names the true option, and no other case names one.");
            }
        }

        for (int i = 0; i < plan.Sounds.Count; i++)
        {
            foreach ((string, string) fault in SoundFaults(plan.Sounds[i], null, $"$.listening.sounds[{i}]"))
            {
                yield return fault;
            }
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> SoundFaults(SoundPlan sound, double? tempoBpm, string at)
    {
        if (sound.CouplingDepth is not (>= 0 and <= 1))
        {
            yield return ($"{at}.couplingDepth", "a depth lies from 0 (separate) to 1.");
        }

        if (sound.Played.Count + sound.Sung.Count == 0)
        {
            yield return (at, "a sound has a played or a sung tone.");
        }

        if (sound.Tuning is { } tuning && !KnownTuning(tuning))
        {
            yield return ($"{at}.tuning", $"\"{tuning}\" is no tuning; write equal, just, pythagorean or meantone.");
        }

        if (sound.Played.Concat(sound.Sung).Any(motion => motion.Over is not null || motion.Resultant is not null))
        {
            yield return (at, "a sound stands on \"to\"; \"over\" and \"resultant\" are asked of a player.");
        }

        foreach ((string, string) fault in MotionFaults(sound.Played, tempoBpm, $"{at}.played").Concat(MotionFaults(sound.Sung, tempoBpm, $"{at}.sung")))
        {
            yield return fault;
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> LeaningFaults(StepPlan step, string at)
    {
        for (int i = 0; i < step.Played.Count; i++)
        {
            if (step.Played[i].Over is not null)
            {
                yield return ($"{at}.played[{i}].over", "only the sung tone leans on the played one.");
            }
        }

        for (int i = 0; i < step.Sung.Count; i++)
        {
            if (step.Sung[i].Over is not null && step.Played.Count == 0)
            {
                yield return ($"{at}.sung[{i}].over", "an interval over the played tone needs a played tone.");
            }
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> MotionFaults(IReadOnlyList<Motion> path, double? tempoBpm, string at)
    {
        bool hasPitch = false;
        double seconds = 0;
        for (int i = 0; i < path.Count; i++)
        {
            Motion motion = path[i];
            string here = $"{at}[{i}]";
            if ((motion.Seconds is null) == (motion.Beats is null) || !((motion.Seconds ?? motion.Beats) > 0))
            {
                yield return (here, "a motion lasts \"seconds\" or \"beats\", one of the two, above 0.");
            }

            if (motion.Beats is not null && tempoBpm is null)
            {
                yield return ($"{here}.beats", "beats need \"tempoBpm\".");
            }

            if ((motion.To, motion.Over, motion.Resultant) is not ((_, null, null) or (null, _, null) or (null, null, _)))
            {
                yield return (here, "a motion stands on \"to\", \"over\" or \"resultant\", one of the three.");
            }

            if (motion.Resultant is { } name && PathAnchor.Find(name) is null)
            {
                yield return ($"{here}.resultant", $"\"{name}\" is no resultant up to order 4; write S-P, P+S, 2P-S and the like.");
            }

            if (motion.Move == Move.Rest && (motion.To is not null || motion.Over is not null || motion.Resultant is not null || motion.Cents != 0 || motion.Hz != 0))
            {
                yield return (here, "a rest has no pitch.");
            }

            if (motion.Move == Move.Glide && !hasPitch)
            {
                yield return (here, "a glide needs a pitch before it to start from.");
            }

            if (motion.Cents is not (>= -1200 and <= 1200))
            {
                yield return ($"{here}.cents", "cents lie from -1200 to 1200.");
            }

            if (motion.Hz is not (>= -50 and <= 50))
            {
                yield return ($"{here}.hz", "Hz lie from -50 to 50.");
            }

            hasPitch = motion.Move != Move.Rest;
            seconds += motion.Seconds ?? (60 * (motion.Beats ?? 0) / (tempoBpm ?? 60));
        }

        if (seconds > LongestSeconds)
        {
            yield return (at, $"a path lasts at most {LongestSeconds} s.");
        }
    }

    private static bool KnownTuning(string name) => Theory.Tuning.TryParse(name, default, out _);
}
