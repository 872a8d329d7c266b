using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Where a fundamental is looked for.</summary>
internal readonly record struct FrequencyRange(double LowestHz, double HighestHz)
{
    public static FrequencyRange Around(double hz, double cents) => new(Cents.Above(hz, -cents), Cents.Above(hz, cents));

    public bool Holds(double hz) => hz >= LowestHz && hz <= HighestHz;
}
