namespace BrassVox.Publishing.Pictures;

/// <summary>How a line is drawn, so that kinds differ without colour.</summary>
internal enum Stroke
{
    /// <summary>Unbroken: P.</summary>
    Solid,

    /// <summary>Long pieces: S.</summary>
    Dashed,

    /// <summary>Short pieces: all that both make, and limits.</summary>
    Dotted,
}
