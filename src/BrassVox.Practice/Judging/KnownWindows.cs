using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Judging;

/// <summary>The stretches of a take in which the player alone was heard; null stands for all of it. Pure.</summary>
internal static class KnownWindows
{
    /// <summary>Whether a moment lies in one of them.</summary>
    public static bool Holds(IReadOnlyList<Window>? known, double seconds) =>
        known is null || known.Any(window => seconds >= window.FromSeconds && seconds <= window.ToSeconds);

    /// <summary>What of some stretches is known.</summary>
    public static IReadOnlyList<Window> Within(IReadOnlyList<Window> windows, IReadOnlyList<Window>? known) => known is null ? windows :
    [
        .. windows.SelectMany(window => known, (window, other) => new Window(Math.Max(window.FromSeconds, other.FromSeconds), Math.Min(window.ToSeconds, other.ToSeconds)))
            .Where(window => window.ToSeconds > window.FromSeconds),
    ];

    /// <summary>Seconds in which a take asks for a tone, both tones counted, and how many of them are known.</summary>
    /// <param name="exercise">The exercise.</param>
    /// <param name="startSeconds">When the take begins on the clock of <paramref name="known"/>.</param>
    /// <param name="known">The stretches.</param>
    public static (double AskedSeconds, double KnownSeconds) Asked(ResolvedExercise exercise, double startSeconds, IReadOnlyList<Window>? known)
    {
        (double asked, double alone) = (0, 0);
        for (int i = 0; i < exercise.Steps.Count; i++)
        {
            double at = startSeconds + exercise.StepStartSeconds(i);
            var task = (PlayTask)exercise.Steps[i].Task;
            foreach (AskedPart part in new[] { task.Played, task.Sung }.OfType<AskedPart>())
            {
                Window[] windows = [.. PathBuilder.Windows(part).Select(window => new Window(at + window.FromSeconds, at + window.ToSeconds))];
                asked += Seconds(windows);
                alone += Seconds(Within(windows, known));
            }
        }

        return (asked, alone);
    }

    private static double Seconds(IReadOnlyList<Window> windows) => windows.Sum(window => window.ToSeconds - window.FromSeconds);
}
