using System.Globalization;
using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Judging;

/// <summary>What the findings of one step come to. Pure.</summary>
internal sealed class StepOutcome
{
    private readonly Finding[] _told;

    /// <summary>A step with what was found in it.</summary>
    /// <param name="track">The step.</param>
    /// <param name="findings">The findings of the take.</param>
    public StepOutcome(TakeTrack track, IEnumerable<Finding> findings)
    {
        Finding[] mine = [.. findings.Where(finding => finding.StepId == track.Step.Id)];
        _told = [.. mine.Where(finding => finding.Verdict != Verdict.NotTold)];
        Unmeasured = mine.FirstOrDefault(finding => finding.Verdict == Verdict.NotTold && !IsCounted(track, finding));

        // A step that the program's own sound lay over from end to end counts neither way.
        IsAsked = mine.Length > 0 && (track.IsWhole || _told.Length > 0);
        IsMet = _told.Any(finding => finding.Verdict == Verdict.Missed) ? false
            : Unmeasured is not null || _told.Length == 0 ? null
            : true;
    }

    /// <summary>False when nothing of the step could be known, whatever the player did.</summary>
    public bool IsAsked { get; }

    /// <summary>True when all was measured and as asked, false when something was not; null when that cannot be said.</summary>
    public bool? IsMet { get; }

    /// <summary>What was asked and not measured; null when all was.</summary>
    public Finding? Unmeasured { get; }

    /// <summary>Whether enough steps are as asked, whatever the others came to; null when it hangs on what was not measured.</summary>
    /// <param name="steps">The steps.</param>
    /// <param name="share">The share wanted, over 0 to 1.</param>
    public static bool? AsAsked(StepOutcome[] steps, double share)
    {
        double wanted = (share * steps.Length) - 1e-9;
        int met = steps.Count(step => step.IsMet == true);
        int open = steps.Count(step => step.IsMet is null);
        return steps.Length == 0 || open == steps.Length ? null : met >= wanted ? true : met + open < wanted ? false : null;
    }

    /// <summary>The narrowest grade that everything told reaches; null for none.</summary>
    /// <param name="steps">The steps.</param>
    public static Grade? Reached(StepOutcome[] steps) =>
        new Grade?[] { Grade.III, Grade.II, Grade.I }.FirstOrDefault(grade => steps.All(step => step._told.All(finding => finding.Reached >= grade)));

    /// <summary>That enough steps are as asked although not all are.</summary>
    /// <param name="steps">The steps.</param>
    /// <param name="share">The share wanted.</param>
    public static Finding Enough(StepOutcome[] steps, double share)
    {
        int met = steps.Count(step => step.IsMet == true);
        int wanted = (int)Math.Ceiling((share * steps.Length) - 1e-9);
        return Findings.Plain("", "steps", null, true, Fault.None, met, wanted, "", string.Create(
            CultureInfo.InvariantCulture, $"{met} of {steps.Length} steps were as asked; {wanted} are wanted."));
    }

    // What fog does not tell where fog is what is asked for: its beats are the measure, where they were told.
    private static bool IsCounted(TakeTrack track, Finding finding) =>
        finding.Criterion == PairCriteria.OctaveName
        || !track.IsWhole
        || (finding.Criterion is not (PairCriteria.SecondName or "unbroken" or "landing" or "beatRate" or "balance" or "notes") && PairCriteria.IsFogAsked(track) && PairCriteria.AreBeatsTold(track));
}
