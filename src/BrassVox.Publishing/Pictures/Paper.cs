using ScottPlot;
using ScottPlot.TickGenerators;

namespace BrassVox.Publishing.Pictures;

/// <summary>What all pictures share: white paper, one font, strokes that differ without colour. P is a solid line, S a dashed one, all else is dotted.</summary>
internal static class Paper
{
    // Panels above one another share one axis, so their left edges meet.
    private const float LeftWidth = 92;
    private const int UsualTitle = 17;
    private const int MostAxisWords = 14;
    private const int UsualWords = 15;

    // A broken line is this many points; of each period some are drawn.
    private const int BrokenPoints = 480;
    private const int DashPeriod = 20;
    private const int DashDrawn = 13;
    private const int DotPeriod = 6;
    private const int DotDrawn = 3;

    internal static readonly Color Ink = Colors.Black;
    internal static readonly Color Quiet = new(120, 120, 120);
    internal static readonly Color Faint = new(215, 215, 215);
    internal static readonly Color PlayedInk = new(20, 20, 20);
    internal static readonly Color SungInk = new(0, 75, 125);

    // A font that a system of each kind brings along; without one all words would be missing.
    private static readonly string[] Families = ["DejaVu Sans", "Liberation Sans", "Noto Sans", "Segoe UI", "Helvetica Neue", "Arial"];

    /// <summary>The font in use, or null when the system has none of those known.</summary>
    internal static string? Font { get; } = Families.FirstOrDefault(family => Fonts.GetTypeface(family, bold: false, italic: false) is { } face && face.FamilyName == family);

    /// <summary>An empty panel.</summary>
    /// <param name="title">What it shows.</param>
    /// <param name="across">What lies across, with its unit.</param>
    /// <param name="up">What lies up, with its unit.</param>
    /// <param name="titleSize">Size of the title's letters in pixels; the axes' are at most 14.</param>
    internal static Plot Panel(string title, string across, string up, int titleSize = UsualTitle)
    {
        var plot = new Plot();
        plot.Axes.Title.Label.Bold = false;
        int words = Math.Min(MostAxisWords, titleSize);
        plot.Title(title, size: titleSize);
        plot.XLabel(across, size: words);
        plot.YLabel(up, size: words);
        plot.Axes.Title.Label.Bold = false;
        foreach (IAxis axis in plot.Axes.GetAxes())
        {
            axis.Label.Bold = false;
        }

        plot.Axes.Left.MinimumSize = LeftWidth;
        plot.Axes.Left.MaximumSize = LeftWidth;
        plot.Grid.MajorLineColor = Faint;
        plot.Grid.MinorLineWidth = 0;
        if (Font is { } family)
        {
            plot.Font.Set(family);
        }

        return plot;
    }

    internal static NumericManual Ticks(IEnumerable<(double Place, string Words)> ticks)
    {
        var manual = new NumericManual();
        foreach ((double place, string words) in ticks)
        {
            manual.AddMajor(place, words);
        }

        return manual;
    }

    /// <summary>Words in a panel that has nothing else to show.</summary>
    /// <param name="plot">The panel.</param>
    /// <param name="x">Their middle across.</param>
    /// <param name="y">Their middle up.</param>
    /// <param name="words">The words.</param>
    /// <param name="size">Size of the letters in pixels.</param>
    internal static void Says(Plot plot, double x, double y, string words, int size = UsualWords)
    {
        ScottPlot.Plottables.Text text = plot.Add.Text(words, x, y);
        text.LabelFontSize = size;
        text.LabelFontColor = Ink;
        text.LabelAlignment = Alignment.LowerCenter;
        if (Font is { } family)
        {
            text.LabelFontName = family;
        }
    }

    /// <summary>Words beside line ends, moved apart so that none covers another.</summary>
    /// <param name="plot">Where.</param>
    /// <param name="x">Their common place across.</param>
    /// <param name="ends">Height and words of each.</param>
    /// <param name="apart">Least distance in height.</param>
    /// <returns>The height of the uppermost.</returns>
    internal static double EndWords(Plot plot, double x, IEnumerable<(double Y, string Words, Color Ink)> ends, double apart)
    {
        double above = double.NegativeInfinity;
        foreach ((double y, string words, Color ink) in ends.OrderBy(end => end.Y))
        {
            double place = Math.Max(y, above + apart);
            above = place;
            ScottPlot.Plottables.Text text = plot.Add.Text(words, x, place);
            text.LabelFontSize = 13;
            text.LabelFontColor = ink;
            text.LabelAlignment = Alignment.MiddleLeft;
            if (Font is { } family)
            {
                text.LabelFontName = family;
            }
        }

        return above;
    }

    /// <summary>A line, solid or broken. It is broken by leaving points out: the SVG writer knows no dash patterns.</summary>
    /// <param name="plot">Where.</param>
    /// <param name="across">Places across, rising; at least two.</param>
    /// <param name="up">Heights; not a number where there is no line.</param>
    /// <param name="stroke">How it is broken.</param>
    /// <param name="ink">Its colour.</param>
    /// <param name="width">Its width in pixels.</param>
    internal static void Line(Plot plot, double[] across, double[] up, Stroke stroke, Color ink, float width)
    {
        (double[] xs, double[] ys) = stroke == Stroke.Solid ? (across, up) : Broken(across, up, stroke);
        plot.Add.ScatterLine(xs, ys, ink).LineWidth = width;
    }

    /// <summary>A dotted line from bottom to top.</summary>
    internal static void Upright(Plot plot, double x, double bottom, double top, Color ink)
    {
        const int Pieces = 60;
        for (int i = 0; i < Pieces; i += 2)
        {
            double[] across = [x, x];
            double[] up = [bottom + ((top - bottom) * i / Pieces), bottom + ((top - bottom) * (i + 1) / Pieces)];
            plot.Add.ScatterLine(across, up, ink).LineWidth = 1.5f;
        }
    }

    internal static Stroke StrokeOf(int played, int sung) => (played, sung) switch
    {
        (_, 0) => Stroke.Solid,
        (0, _) => Stroke.Dashed,
        _ => Stroke.Dotted,
    };

    internal static Color InkOf(int played, int sung) => (played, sung) switch
    {
        (_, 0) => PlayedInk,
        (0, _) => SungInk,
        _ => Quiet,
    };

    private static (double[] Across, double[] Up) Broken(double[] across, double[] up, Stroke stroke)
    {
        (int period, int drawn) = stroke == Stroke.Dashed ? (DashPeriod, DashDrawn) : (DotPeriod, DotDrawn);
        double[] xs = new double[BrokenPoints];
        double[] ys = new double[BrokenPoints];
        int at = 0;
        for (int i = 0; i < BrokenPoints; i++)
        {
            xs[i] = across[0] + ((across[^1] - across[0]) * i / (BrokenPoints - 1));
            while (at < across.Length - 2 && across[at + 1] < xs[i])
            {
                at++;
            }

            double part = (xs[i] - across[at]) / (across[at + 1] - across[at]);
            ys[i] = i % period < drawn ? up[at] + (part * (up[at + 1] - up[at])) : double.NaN;
        }

        return (xs, ys);
    }
}
