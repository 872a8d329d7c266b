namespace BrassVox.App.Tui.Input;

/// <summary>The keys that rooms know. Everything else is a letter.</summary>
internal enum PressKind
{
    Letter,
    Enter,
    Space,
    Escape,
    Tab,
    Backspace,
    Delete,
    Left,
    Right,
    Up,
    Down,
    Home,
    End,
    PageUp,
    PageDown,
    Help,
    Tacet,
    Interrupt,
    Suspend,
    Undo,
    Redo,
}
