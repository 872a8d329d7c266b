using BrassVox.Practice.Takes;

namespace BrassVox.Practice.Demo;

/// <summary>A simulated take beside the truth it was made from.</summary>
/// <param name="Take">The take as it was judged.</param>
/// <param name="Played">The truth of P.</param>
/// <param name="Sung">The truth of S.</param>
public sealed record DemoTruth(TakeRecord Take, SimulatedTone Played, SimulatedTone Sung);
