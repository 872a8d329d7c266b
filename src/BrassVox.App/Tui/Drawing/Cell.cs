namespace BrassVox.App.Tui.Drawing;

/// <summary>One character cell of a screen.</summary>
/// <param name="Glyph">The character, always one column wide.</param>
/// <param name="Ink">What it stands for.</param>
internal readonly record struct Cell(char Glyph, Ink Ink)
{
    /// <summary>An empty cell.</summary>
    public static Cell Empty { get; } = new(' ', Ink.Text);
}
