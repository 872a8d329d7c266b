namespace BrassVox.App.Tui.Drawing;

/// <summary>One character cell of a screen.</summary>
/// <param name="Glyph">The character, one column wide; one of double width is followed by <see cref="Covered"/>.</param>
/// <param name="Ink">What it stands for.</param>
internal readonly record struct Cell(char Glyph, Ink Ink)
{
    /// <summary>Stands in a cell that the character before it fills as well; no character has this number.</summary>
    public const char Covered = '\uFFFF';

    /// <summary>An empty cell.</summary>
    public static Cell Empty { get; } = new(' ', Ink.Text);
}
