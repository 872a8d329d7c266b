namespace BrassVox.App.Tui.Pictures;

/// <summary>
/// The pitch axis of the picture: linear in Hz and counted in P, so that the gap from P to S is as long as the way from
/// 0 to S-P and an interval looks alike in every register.
/// </summary>
/// <param name="PlayedHz">P as declared, in Hz, &gt; 0.</param>
/// <param name="CellsPerPlayed">Columns for one P.</param>
/// <param name="LastMultiple">The highest multiple of P that has a column.</param>
internal sealed record PairScale(double PlayedHz, int CellsPerPlayed, int LastMultiple)
{
    /// <summary>Column of 0 Hz.</summary>
    public const int Origin = 6;

    private const int Cells = 12;
    private const int WideFrom = 200;

    /// <summary>Column where the rails end.</summary>
    public int End => Origin + (CellsPerPlayed * LastMultiple);

    /// <summary>The scale for a screen.</summary>
    /// <param name="width">Columns of the screen.</param>
    /// <param name="playedHz">P as declared, in Hz, &gt; 0.</param>
    /// <param name="sungHz">S as declared, in Hz, &gt; 0; over three times P the scale is halved.</param>
    public static PairScale For(int width, double playedHz, double sungHz)
    {
        int cells = width >= WideFrom ? 2 * Cells : Cells;
        if (sungHz > 3 * playedHz)
        {
            cells /= 2;
        }

        return new PairScale(playedHz, cells, Math.Max(1, (width - 1 - Origin) / cells));
    }

    /// <summary>Column of a frequency; may lie beyond <see cref="End"/>.</summary>
    /// <param name="frequencyHz">Frequency in Hz, at least 0.</param>
    public int Column(double frequencyHz) =>
        Origin + (int)Math.Min(100_000, Math.Round(CellsPerPlayed * frequencyHz / PlayedHz, MidpointRounding.AwayFromZero));
}
