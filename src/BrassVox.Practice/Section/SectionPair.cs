using BrassVox.Theory;

namespace BrassVox.Practice.Section;

/// <summary>What two players' tones make together.</summary>
/// <param name="Lower">Player of the lower tone.</param>
/// <param name="Upper">Player of the upper tone.</param>
/// <param name="Cents">Distance in cents, at least 0.</param>
/// <param name="Just">The just interval meant.</param>
/// <param name="OffCents">Distance from it in cents, positive when too wide.</param>
/// <param name="BeatsPerSecond">Beats of the two harmonics that meet in the just interval.</param>
/// <param name="BeatingAtHz">Where those harmonics lie, in Hz.</param>
/// <param name="DifferenceHz">The difference tone in Hz; 0 at the unison.</param>
/// <param name="SumHz">The summation tone in Hz.</param>
public sealed record SectionPair(
    int Lower, int Upper, double Cents, JustInterval Just, double OffCents, double BeatsPerSecond, double BeatingAtHz, double DifferenceHz, double SumHz);
