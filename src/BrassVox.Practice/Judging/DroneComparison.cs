using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>One tone while the program sounded, and while it was silent.</summary>
/// <param name="Role">The tone.</param>
/// <param name="WithCents">Median distance from its path while anything of the program sounded, in cents.</param>
/// <param name="WithoutCents">The same in silence.</param>
public sealed record DroneComparison(VoiceRole Role, double WithCents, double WithoutCents)
{
    /// <summary>True when the tone lies farther off in silence by more than 5 cents: it leans on the other sound. The limit is ours.</summary>
    public bool Leans => Math.Abs(WithoutCents) > Math.Abs(WithCents) + 5;
}
