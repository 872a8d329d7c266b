namespace BrassVox.Practice.Passages;

/// <summary>A bar.</summary>
/// <param name="Number">From 1, counted through.</param>
/// <param name="StartTick">Its beginning.</param>
/// <param name="LengthTicks">Its length; shorter than the time signature says in an upbeat.</param>
/// <param name="Beats">Upper figure of the time signature.</param>
/// <param name="BeatUnit">Lower figure: 1, 2, 4, 8, 16, 32 or 64.</param>
public sealed record PassageBar(int Number, long StartTick, long LengthTicks, int Beats, int BeatUnit)
{
    /// <summary>Length that the time signature asks for, in ticks.</summary>
    public long FullTicks => Beats * Passage.TicksPerWhole / BeatUnit;
}
