using System.Text;

namespace BrassVox.App.Tui.Input;

/// <summary>A line being typed. Space types here; Ctrl-T still silences.</summary>
/// <param name="label">What is asked for.</param>
/// <param name="take">Takes the text; returns null when it is good, else what is wrong and where (column in the text, or -1).</param>
internal sealed class TextBox(string label, Func<string, TextFault?> take)
{
    // As long as a path may be; the screen shows the part around the caret.
    private const int Longest = 4096;
    private readonly StringBuilder _text = new();

    /// <summary>What is asked for.</summary>
    public string Label => label;

    /// <summary>What has been typed.</summary>
    public string Text => _text.ToString();

    /// <summary>Where the next character goes.</summary>
    public int Caret { get; private set; }

    /// <summary>Why the text was not taken, or null.</summary>
    public string? Fault { get; private set; }

    /// <summary>Types one key.</summary>
    /// <param name="press">The key.</param>
    /// <returns>True when the box is done: the text was taken or given up.</returns>
    public bool Press(KeyPress press)
    {
        switch (press.Kind)
        {
            case PressKind.Escape:
                return true;
            case PressKind.Enter:
                TextFault? fault = take(Text.Trim());
                Fault = fault?.Message;
                Caret = fault is { At: >= 0 } ? Math.Min(fault.At, _text.Length) : _text.Length;
                return fault is null;
            case PressKind.Space:
                Insert(' ');
                break;
            case PressKind.Letter:
                Insert(press.Letter);
                break;
            case PressKind.Backspace when Caret > 0:
                _text.Remove(--Caret, 1);
                break;
            case PressKind.Delete when Caret < _text.Length:
                _text.Remove(Caret, 1);
                break;
            case PressKind.Left:
                Caret = Math.Max(0, Caret - 1);
                break;
            case PressKind.Right:
                Caret = Math.Min(_text.Length, Caret + 1);
                break;
            case PressKind.Home:
                Caret = 0;
                break;
            case PressKind.End:
                Caret = _text.Length;
                break;
        }

        return false;
    }

    /// <summary>The part of the text that a narrow place shows, and where the caret stands in it.</summary>
    /// <param name="width">Columns at hand, the caret's own included; at least 3.</param>
    /// <param name="more">Stands where text is left out.</param>
    public (string Shown, int Caret) Shown(int width, char more)
    {
        string text = Text;
        if (text.Length < width)
        {
            return (text, Caret);
        }

        int first = Math.Clamp(Caret - width + 2, 0, Math.Max(0, text.Length - width + 1));
        char[] shown = text.Substring(first, Math.Min(width, text.Length - first)).ToCharArray();
        if (first > 0)
        {
            shown[0] = more;
        }

        if (first + shown.Length < text.Length)
        {
            shown[^1] = more;
        }

        return (new string(shown), Caret - first);
    }

    private void Insert(char letter)
    {
        if (_text.Length < Longest && !char.IsControl(letter))
        {
            _text.Insert(Caret++, letter);
            Fault = null;
        }
    }
}
