namespace BrassVox.App.Tui.Drawing;

/// <summary>What a cell stands for. Colour only repeats what place and shape already say; no ink means right or wrong.</summary>
internal enum Ink
{
    /// <summary>Plain text.</summary>
    Text,

    /// <summary>Rails, rules and what may be overlooked.</summary>
    Quiet,

    /// <summary>The played tone.</summary>
    Played,

    /// <summary>The sung tone.</summary>
    Sung,

    /// <summary>What the two make together.</summary>
    Resultant,

    /// <summary>The choice that Enter and the forward pedal will do.</summary>
    Marked,
}
