using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Rooms;
using Terminal.Gui.App;
using Terminal.Gui.Drivers;
using Terminal.Gui.Input;
using Terminal.Gui.ViewBase;
using Terminal.Gui.Views;
using Rune = System.Text.Rune;

namespace BrassVox.App.Tui.Terminal;

/// <summary>The one view there is: shows the stand's canvas, hands it keys. Only changed cells go to the terminal.</summary>
internal sealed class StandView : Runnable
{
    private const int RampMs = 60;
    private readonly MusicStand _stand;
    private readonly bool _ascii;
    private readonly Canvas _canvas = new(0, 0);
    private Cell[] _shown = [];
    private int _shownWidth;
    private string _theme = "";
    private bool _shownAscii;
    private Palette _palette = Palette.Of("none");

    /// <summary>A view over a stand.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="ascii">True to show only 0x20 to 0x7E.</param>
    public StandView(MusicStand stand, bool ascii)
    {
        _stand = stand;
        _ascii = ascii;
        stand.ShowsAsciiOnly = ascii;
        Width = Dim.Fill();
        Height = Dim.Fill();
        CanFocus = true;
    }

    /// <summary>Draws the stand anew and asks the library for a redraw when a cell has changed.</summary>
    public void Refresh()
    {
        if (_stand.IsDone)
        {
            return;
        }

        Compose();
        if (IsStale())
        {
            SetNeedsDraw();
        }
    }

    /// <summary>Sends every cell again whenever the driver has cleared what it holds.</summary>
    /// <param name="driver">The driver that shows this view.</param>
    public void Watch(IDriver driver)
    {
        driver.ClearedContents += (_, _) => _shown = [];
        driver.SizeChanged += (_, _) => _shown = [];
    }

    /// <summary>
    /// Takes every key before the library does: its own meanings (Esc leaves the program) hold no more, and no key is lost while it
    /// thinks that nothing has the focus, as after some changes of size.
    /// </summary>
    /// <param name="keyboard">The application's keyboard.</param>
    public void Listen(IKeyboard keyboard)
    {
        keyboard.KeyBindings.Clear();
        keyboard.KeyDown += (_, key) => key.Handled = key.Handled || OnKeyDown(key);
    }

    /// <inheritdoc/>
    protected override bool OnKeyDown(Key key)
    {
        // Keys typed on after the end would draw on the shell's screen.
        if (!_stand.IsDone && Keyboard.Of(key) is { } press)
        {
            _stand.Press(press);
            if (press.Kind == PressKind.Suspend && !OperatingSystem.IsWindows())
            {
                Suspend();
            }

            if (_stand.IsDone)
            {
                App?.RequestStop();
            }
            else
            {
                Refresh();
            }
        }

        return true;
    }

    /// <summary>Takes what is pasted into the terminal; the library alone would drop it.</summary>
    /// <param name="text">The text.</param>
    public void Paste(string text)
    {
        _stand.Paste(text);
        Refresh();
    }

    /// <inheritdoc/>
    protected override bool OnClearingViewport() => true;

    /// <inheritdoc/>
    protected override bool OnDrawingContent(DrawContext? context)
    {
        if (_stand.IsDone)
        {
            return true;
        }

        Compose();
        bool whole = !FitsShown();
        if (whole)
        {
            _shown = new Cell[_canvas.Width * _canvas.Height];
            _shownWidth = _canvas.Width;
        }

        bool ascii = _ascii || _stand.Memory.Now.PlainSigns;
        if (ascii != _shownAscii)
        {
            _shownAscii = ascii;
            whole = true;
        }

        string theme = _stand.Theme;
        if (theme != _theme)
        {
            _theme = theme;
            _palette = Palette.Of(theme);
            whole = true;
        }

        for (int y = 0; y < _canvas.Height; y++)
        {
            for (int x = 0; x < _canvas.Width; x++)
            {
                Cell cell = _canvas[x, y];
                ref Cell shown = ref _shown[(y * _canvas.Width) + x];
                if (cell.Glyph == Cell.Covered && !ascii)
                {
                    // The sign of double width before it fills this cell.
                    shown = cell;
                }
                else if (whole || shown != cell)
                {
                    shown = cell;
                    SetAttribute(_palette[cell.Ink]);
                    AddRune(x, y, new Rune(ascii ? Glyphs.ToAscii(cell.Glyph) : cell.Glyph));
                }
            }
        }

        return true;
    }

    private void Compose()
    {
        System.Drawing.Rectangle area = Viewport;
        if (_canvas.Width != area.Width || _canvas.Height != area.Height)
        {
            _canvas.Resize(area.Width, area.Height);
        }

        _stand.Draw(_canvas);
    }

    /// <summary>Lets the ramp to silence pass, gives the terminal back to the shell, and takes it again.</summary>
    private void Suspend()
    {
        Thread.Sleep(RampMs);
        App?.Driver?.Suspend();
        _shown = [];
        SetNeedsDraw();
    }

    private bool FitsShown() => _shownWidth == _canvas.Width && _shown.Length == _canvas.Width * _canvas.Height;

    private bool IsStale()
    {
        if (!FitsShown() || _theme != _stand.Theme || _shownAscii != (_ascii || _stand.Memory.Now.PlainSigns))
        {
            return true;
        }

        for (int y = 0; y < _canvas.Height; y++)
        {
            for (int x = 0; x < _canvas.Width; x++)
            {
                if (_shown[(y * _canvas.Width) + x] != _canvas[x, y])
                {
                    return true;
                }
            }
        }

        return false;
    }
}
