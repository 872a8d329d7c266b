using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Demo;

/// <summary>An invented player.</summary>
/// <param name="Player">Who.</param>
/// <param name="Works">What they work on.</param>
/// <param name="Learning">Share of every error that is gone after six weeks, 0 to 1.</param>
/// <param name="RightShare">Share of what they say that is right, 0 to 1.</param>
/// <param name="CertainShare">Share of sentences that end in "certain", 0 to 1.</param>
/// <param name="VibratoCents">Vibrato of the voice, cents to each side.</param>
/// <param name="Tag">The body tag they note most.</param>
/// <param name="DaysAWeek">Days of practice a week, 0 to 5.</param>
internal sealed record DemoRole(
    Player Player,
    IReadOnlyList<DemoWork> Works,
    double Learning,
    double RightShare,
    double CertainShare,
    double VibratoCents,
    BodyTag Tag,
    int DaysAWeek)
{
    /// <summary>Week (0 to 5) without any practice, after hoarseness noted in the week before; null for none.</summary>
    public int? RestingWeek { get; init; }

    /// <summary>True when the last take but two is spoiled by the drone.</summary>
    public bool HasSpoiledTake { get; init; }
}
