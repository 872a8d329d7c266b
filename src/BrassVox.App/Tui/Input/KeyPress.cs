namespace BrassVox.App.Tui.Input;

/// <summary>One key as pressed, without a terminal.</summary>
/// <param name="Kind">Which key.</param>
/// <param name="Letter">The character, for <see cref="PressKind.Letter"/>; as typed.</param>
internal readonly record struct KeyPress(PressKind Kind, char Letter = '\0')
{
    /// <summary>A key without a character.</summary>
    /// <param name="kind">Which key.</param>
    public static implicit operator KeyPress(PressKind kind) => new(kind);

    /// <summary>A character key.</summary>
    /// <param name="letter">The character.</param>
    public static implicit operator KeyPress(char letter) => new(PressKind.Letter, letter);

    /// <summary>The same command whether or not shift or caps lock is on, and with = counting as +.</summary>
    public KeyPress AsCommand() => Letter switch
    {
        >= 'A' and <= 'Z' => this with { Letter = (char)(Letter | 0x20) },
        '=' => this with { Letter = '+' },
        _ => this,
    };
}
