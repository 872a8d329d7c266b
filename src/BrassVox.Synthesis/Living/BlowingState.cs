namespace BrassVox.Synthesis.Living;

/// <summary>How a player blows at one loudness.</summary>
/// <param name="MouthPressurePa">Steady pressure in the mouth, in Pa.</param>
/// <param name="OpeningFactor">Rest opening of the lips in units of that at mf.</param>
/// <remarks>
/// Five marks from pp to ff. Blowing pressures of a few kPa are published for brass; these values and the openings are our own choice: softer playing
/// takes less pressure and a smaller opening.
/// </remarks>
internal readonly record struct BlowingState(double MouthPressurePa, double OpeningFactor)
{
    /// <summary>pp, p, mf, f, ff at 0, 0.25, 0.5, 0.75, 1.</summary>
    internal static ReadOnlySpan<BlowingState> Marks => MarkTable;

    private static readonly BlowingState[] MarkTable = [new(700, 0.5), new(1200, 0.7), new(2200, 1.0), new(3800, 1.3), new(6000, 1.6)];

    /// <summary>Between the marks, straight in the logarithm.</summary>
    /// <param name="dynamic">0 (pp) to 1 (ff); beyond that it stops.</param>
    internal static BlowingState At(double dynamic)
    {
        (int low, double part) = Place(dynamic);
        BlowingState from = MarkTable[low];
        BlowingState to = MarkTable[low + 1];
        return new(
            from.MouthPressurePa * Math.Pow(to.MouthPressurePa / from.MouthPressurePa, part),
            from.OpeningFactor * Math.Pow(to.OpeningFactor / from.OpeningFactor, part));
    }

    /// <summary>Index of the mark below and the part of the way to the next one.</summary>
    internal static (int Low, double Part) Place(double dynamic)
    {
        double place = Math.Clamp(dynamic, 0, 1) * (MarkTable.Length - 1);
        int low = Math.Min((int)place, MarkTable.Length - 2);
        return (low, place - low);
    }
}
