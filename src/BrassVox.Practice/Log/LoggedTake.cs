using BrassVox.Practice.Takes;

namespace BrassVox.Practice.Log;

/// <summary>A take as the log knows it.</summary>
/// <param name="Take">The take without its frames.</param>
/// <param name="Body">Body tags noted of it.</param>
public sealed record LoggedTake(TakeRecord Take, IReadOnlyList<BodyTag> Body)
{
    /// <summary>True when its pitches may count: no drone bled into it beyond what could be taken out.</summary>
    public bool IsScored => Take.Drone is null or { IsTrusted: true };
}
