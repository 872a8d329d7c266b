using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Works out one step of a take for a pair.</summary>
internal static class StepResolver
{
    private static readonly int[] OctavesToTry = [0, 1, -1, 2, -2];

    /// <summary>A step, and what was changed to fit the voice.</summary>
    public readonly record struct Built(ExerciseStep Step, string? Note);

    /// <summary>Builds a step. Where the voice leans on P ("over"), it takes the octave nearest to the written one that it has.</summary>
    public static Built Build(StepPlan plan, Exercise exercise, PlayerProfile profile, ResolvedPair pair, bool fitsVoice)
    {
        if (!fitsVoice || !plan.Sung.Any(motion => motion.Over is not null))
        {
            return new Built(Build(plan, exercise, profile, pair, 0), null);
        }

        ExerciseStep[] steps = [.. OctavesToTry.Select(octaves => Build(plan, exercise, profile, pair, octaves))];
        int found = Array.FindIndex(steps, step => Sings(step, profile));
        return found <= 0
            ? new Built(steps[0], null)
            : new Built(steps[found], exercise.PlayAlong?.Draw is null ? Folded(plan, OctavesToTry[found]) : null);
    }

    private static bool Sings(ExerciseStep step, PlayerProfile profile) => ((PlayTask)step.Task).Sung!.Segments
        .Where(segment => segment.Move != Move.Rest)
        .All(segment => profile.CanSing(segment.Note));

    private static string Folded(StepPlan plan, int octaves)
    {
        Interval written = plan.Sung.First(motion => motion.Over is not null).Over!.Value;
        string direction = octaves > 0 ? "higher" : "lower";
        Interval sung = written.WithOctaves(octaves);
        string below = sung.Semitones < 0 ? " below" : "";
        return $"{plan.Id}: S is sung {(Math.Abs(octaves) == 1 ? "an octave" : "two octaves")} {direction}, {IntervalName.Of(100.0 * sung.Semitones)}{below}, "
            + $"not {IntervalName.Of(100.0 * written.Semitones)}; the resultants move with it.";
    }

    private static ExerciseStep Build(StepPlan plan, Exercise exercise, PlayerProfile profile, ResolvedPair pair, int octaves)
    {
        double? tempo = exercise.PlayAlong?.TempoBpm;
        ResolvedPair source = plan.Sound is { } shown ? SoundSteps.PairOf(shown, exercise, profile, pair) : pair;
        ExerciseStep? sound = plan.Sound is { } planned ? SoundSteps.Of(planned, exercise, profile, pair, tempoBpm: tempo) : null;
        AskedPart? played = plan.Played.Count == 0
            ? null
            : PathBuilder.Build(VoiceRole.Played, plan.Played, pair.Played, pair, tempo, new PathAnchor(null, 0, source, profile));
        AskedPart? sung = plan.Sung.Count == 0
            ? null
            : PathBuilder.Build(VoiceRole.Sung, plan.Sung, pair.Sung, pair, tempo, new PathAnchor(played, octaves, source, profile));
        double length = Math.Max(Math.Max(PathBuilder.Length(played), PathBuilder.Length(sung)), sound?.DurationSeconds ?? 0);
        SoundingPart[] drones = sound is null ? [.. Drones(plan.Drone, played, length), .. Drones(plan.Drone, sung, length)] : [];
        string? Told(string? prompt) => prompt is null ? null : Prompt(prompt, played, sung, DroneSentence.Of(drones, length));
        return new ExerciseStep(
            plan.Id, Told(plan.Prompt)!, length,
            sound?.Sounding ?? drones,
            sound?.CouplingDepth ?? 0, sound?.Resultants, 0, new PlayTask(played, sung, plan.Criteria),
            Told(plan.PromptPlaying), Told(plan.PromptSinging));
    }

    private static string Prompt(string given, AskedPart? played, AskedPart? sung, string drone)
    {
        string text = given.Replace(DroneSentence.Place, drone, StringComparison.Ordinal);
        if (First(played) is not { } under || First(sung) is not { } over)
        {
            return text;
        }

        int semitones = over.Note.MidiNumber - under.Note.MidiNumber;
        string interval = semitones == 0 ? "the unison" : $"{(Math.Abs(semitones) > 23 ? "" : "the ")}{IntervalName.Of(100.0 * semitones)} {(semitones < 0 ? "below it" : "above it")}";
        return text.Replace("{played}", under.Note.ToString(), StringComparison.Ordinal).Replace("{interval}", interval, StringComparison.Ordinal);
    }

    private static AskedSegment? First(AskedPart? part) => part?.Segments.FirstOrDefault(segment => segment.Move != Move.Rest);

    private static IEnumerable<SoundingPart> Drones(IReadOnlyList<DroneWindow> drones, AskedPart? part, double stepSeconds)
    {
        if (part is null)
        {
            yield break;
        }

        Window[] windows = [.. drones
            .Where(drone => drone.Role == part.Role)
            .Select(drone => new Window(drone.FromSeconds, Math.Min(drone.ToSeconds ?? stepSeconds, stepSeconds)))
            .Where(window => window.ToSeconds > window.FromSeconds)
            .OrderBy(window => window.FromSeconds)];
        if (windows.Length > 0)
        {
            yield return new SoundingPart(part.Role, part.Path, windows);
        }
    }
}
