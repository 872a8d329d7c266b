using BrassVox.App.Tui.Input;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;

namespace BrassVox.App.Tui.Terminal;

/// <summary>From the library's keys to ours.</summary>
internal static class Keyboard
{
    /// <summary>Our press for a key; null when it means nothing to us.</summary>
    /// <param name="key">The library's key.</param>
    public static KeyPress? Of(Key key)
    {
        if (key.IsAlt)
        {
            return null;
        }

        if (key.IsCtrl)
        {
            return key.NoCtrl.NoShift.KeyCode switch
            {
                KeyCode.T => PressKind.Tacet,
                KeyCode.C => PressKind.Interrupt,
                KeyCode.Z => PressKind.Suspend,
                KeyCode.H => PressKind.Backspace,
                KeyCode.U => PressKind.Undo,
                KeyCode.R => PressKind.Redo,
                _ => null,
            };
        }

        return key.NoShift.KeyCode switch
        {
            KeyCode.Enter => PressKind.Enter,
            KeyCode.Space => PressKind.Space,
            KeyCode.Esc => PressKind.Escape,
            KeyCode.Tab => PressKind.Tab,
            KeyCode.Backspace => PressKind.Backspace,
            KeyCode.Delete => PressKind.Delete,
            KeyCode.CursorLeft => PressKind.Left,
            KeyCode.CursorRight => PressKind.Right,
            KeyCode.CursorUp => PressKind.Up,
            KeyCode.CursorDown => PressKind.Down,
            KeyCode.Home => PressKind.Home,
            KeyCode.End => PressKind.End,
            KeyCode.PageUp => PressKind.PageUp,
            KeyCode.PageDown => PressKind.PageDown,
            KeyCode.F1 => PressKind.Help,
            _ => Letter(key),
        };
    }

    private static KeyPress? Letter(Key key)
    {
        int value = key.AsRune.Value;
        return value is > ' ' and < char.MaxValue ? (KeyPress)(char)value : null;
    }
}
