using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Sessions;

/// <summary>Where in a take of several held stretches the resultants stand out most.</summary>
internal static class StretchResultants
{
    private const double EdgeSeconds = 0.15;

    /// <summary>One reading a stretch of P, for exercises that judge the balance; empty for others.</summary>
    public static IReadOnlyList<StretchResultant> Of(ResolvedExercise exercise, float[] mono, IReadOnlyList<AnalysisFrame> frames, double startSeconds)
    {
        List<StretchResultant> found = [];
        for (int i = 0; i < exercise.Steps.Count; i++)
        {
            if (exercise.Steps[i].Task is PlayTask { Played: { } played } task && task.Criteria.OfType<BalanceCriterion>().Any())
            {
                double at = exercise.StepStartSeconds(i);
                found.AddRange(PathBuilder.Windows(played).Select(window =>
                    Of(new Window(at + window.FromSeconds, at + window.ToSeconds), mono, frames, startSeconds)));
            }
        }

        return found;
    }

    private static StretchResultant Of(Window window, float[] mono, IReadOnlyList<AnalysisFrame> frames, double startSeconds)
    {
        AnalysisFrame[] inside = [.. frames.Where(frame =>
            frame.CentreSeconds >= startSeconds + window.FromSeconds + EdgeSeconds && frame.CentreSeconds <= startSeconds + window.ToSeconds - EdgeSeconds)];
        PairReport report = PairReport.Of(mono, inside);
        return report.Resultants.Count == 0
            ? new StretchResultant(window, -report.BalanceDb, null, null)
            : new StretchResultant(window, -report.BalanceDb, report.Resultants[0].Line.Name, report.Resultants[0].LevelDbfs);
    }
}
