using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;

namespace BrassVox.Practice.Log;

/// <summary>A take as the log knows it.</summary>
/// <param name="Take">The take without its frames.</param>
/// <param name="Body">Body tags noted of it.</param>
public sealed record LoggedTake(TakeRecord Take, IReadOnlyList<BodyTag> Body)
{
    /// <summary>True when its pitches may count: something reached the microphone, and no drone bled into it beyond what could be taken out.</summary>
    public bool IsScored => WhyNotScored is null;

    /// <summary>True when it counts in the error map: scored, judged as asked or not, and no passage, whose many pairs would all lie under its first one.</summary>
    public bool IsMapped => IsScored && !Take.IsOfPassage && Take.Result.AsAsked is not null;

    /// <summary>Why its pitches do not count, in a few words; null when they do.</summary>
    public string? WhyNotScored => Take.Drone is { IsTrusted: false } ? "drone bleeds in"
        : Take.Result.Findings.Any(finding => finding.Criterion == JudgedTake.InputName) ? "nothing came in"
        : null;
}
