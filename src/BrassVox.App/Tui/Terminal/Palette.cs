using System.Globalization;
using BrassVox.App.Tui.Drawing;
using Terminal.Gui.Drawing;
using Attribute = Terminal.Gui.Drawing.Attribute;

namespace BrassVox.App.Tui.Terminal;

/// <summary>The three themes. Each ink has at least 7:1 against its ground (WCAG 2 contrast); none means right or wrong.</summary>
internal sealed class Palette
{
    private readonly Attribute[] _inks;

    private Palette(Attribute[] inks) => _inks = inks;

    /// <summary>A theme by its name; an unknown name gives none.</summary>
    /// <param name="theme">dark, light or none.</param>
    public static Palette Of(string theme) => theme switch
    {
        "dark" => Coloured("#000000", "#e4e4e4", "#b2b2b2", "#ffd787", "#5fafff", "#af87ff"),
        "light" => Coloured("#ffffff", "#1c1c1c", "#585858", "#5f0000", "#005f87", "#5f0087"),
        _ => Plain(),
    };

    /// <summary>The attribute of an ink.</summary>
    /// <param name="ink">The ink.</param>
    public Attribute this[Ink ink] => _inks[(int)ink];

    private static Palette Coloured(string ground, string text, string quiet, string played, string sung, string resultant)
    {
        Color back = Parsed(ground);
        Attribute On(string colour) => new(Parsed(colour), back);
        return new Palette([On(text), On(quiet), On(played), On(sung), On(resultant), new Attribute(back, Parsed(text))]);
    }

    private static Color Parsed(string colour) => Color.Parse(colour, CultureInfo.InvariantCulture);

    private static Palette Plain()
    {
        Attribute plain = new(Color.None, Color.None);
        Attribute marked = new(Color.None, Color.None, TextStyle.Bold);
        return new Palette([plain, plain, plain, plain, plain, marked]);
    }
}
