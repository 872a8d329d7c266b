using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Changes a step as <see cref="TakeOptions"/> ask. Pure.</summary>
internal static class TakeShaping
{
    private static readonly GradeLimits UsualLimits = new(25, 15, 10);

    public static ExerciseStep Shaped(ExerciseStep step, TakeOptions options, double stretch)
    {
        if (step.Task is not PlayTask task)
        {
            return step;
        }

        AskedPart? played = Stretched(task.Played, stretch);
        AskedPart? sung = Stretched(task.Sung, stretch);
        double seconds = step.DurationSeconds * stretch;
        SoundingPart[] planned = [.. step.Sounding.Select(part => Stretched(part, stretch))];
        (AskedPart? mine, AskedPart? other) = options.Role switch
        {
            PlayerRole.Plays => (played, sung),
            PlayerRole.Sings => (sung, played),
            _ => (null, null),
        };
        AskedPart[] own = [.. (mine is null ? new[] { played, sung } : [mine]).OfType<AskedPart>()];
        bool isShown = step.Sounding.Count > 0 && (step.CouplingDepth > 0 || step.Resultants is not null);
        List<SoundingPart> sounding = isShown ? [.. planned] : [.. Drones(options.Drone, own, planned, seconds)];
        string asked = other is null || mine is null || isShown ? step.Prompt : (options.Role == PlayerRole.Plays ? step.PromptPlaying : step.PromptSinging) ?? step.Prompt;
        string prompt = isShown ? asked : Retold(asked, step, [.. sounding.Where(part => part.Role != other?.Role)], seconds);
        if (other is not null && mine is not null && !isShown)
        {
            sounding.RemoveAll(part => part.Role == other.Role);
            sounding.Add(new SoundingPart(other.Role, other.Path, PathBuilder.Windows(other)));
            played = options.Role == PlayerRole.Plays ? played : null;
            sung = options.Role == PlayerRole.Sings ? sung : null;
        }

        return step with
        {
            Prompt = prompt,
            DurationSeconds = seconds,
            Sounding = [.. sounding.OrderBy(part => part.Role)],
            Task = new PlayTask(played, sung, Criteria(task.Criteria, played is not null, sung is not null)),
        };
    }

    private static IEnumerable<SoundingPart> Drones(DroneUse use, AskedPart[] own, SoundingPart[] planned, double seconds) => use switch
    {
        DroneUse.Silent => [],
        DroneUse.Throughout => own.Select(part => new SoundingPart(part.Role, part.Path, PathBuilder.Windows(part))),
        DroneUse.DropOuts => own.Select(part => new SoundingPart(part.Role, part.Path, DropOuts(seconds))),
        _ => planned,
    };

    // What the prompt said of the planned drone is said of the one that sounds.
    private static string Retold(string prompt, ExerciseStep step, SoundingPart[] drones, double seconds) =>
        DroneSentence.Of(step.Sounding, step.DurationSeconds) is { Length: > 0 } planned
            ? prompt.Replace(planned, DroneSentence.Of(drones, seconds), StringComparison.Ordinal)
            : prompt;

    private static List<Window> DropOuts(double seconds)
    {
        List<Window> windows = [];
        for (double from = 0; from < seconds; from += 2 * TakeOptions.DropOutSeconds)
        {
            windows.Add(new Window(from, Math.Min(from + TakeOptions.DropOutSeconds, seconds)));
        }

        return windows;
    }

    // What judges a tone that is not asked for falls away; a step is never left without any judgement.
    private static Criterion[] Criteria(IReadOnlyList<Criterion> all, bool hasPlayed, bool hasSung)
    {
        Criterion[] left = [.. all.Where(criterion => TakeJudge.CanApply(criterion, hasPlayed, hasSung))];
        VoiceRole role = hasPlayed ? VoiceRole.Played : VoiceRole.Sung;
        return left.Length > 0 ? left : [new OffsetCriterion(role, UsualLimits)];
    }

    private static AskedPart? Stretched(AskedPart? part, double stretch) => part is null || stretch == 1 ? part : new AskedPart(
        part.Role, part.Path.Stretched(stretch),
        [.. part.Segments.Select(segment => segment with { FromSeconds = stretch * segment.FromSeconds, ToSeconds = stretch * segment.ToSeconds })]);

    private static SoundingPart Stretched(SoundingPart part, double stretch) => stretch == 1 ? part : new SoundingPart(
        part.Role, part.Path.Stretched(stretch),
        [.. part.Windows.Select(window => new Window(stretch * window.FromSeconds, stretch * window.ToSeconds))]);
}
