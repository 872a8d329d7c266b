using System.Globalization;
using System.Text;

namespace BrassVox.Benchmarks.Bounds;

/// <summary>Error against bound on logarithmic axes, with the bound itself and twice the bound as lines.</summary>
internal static class BoundPlot
{
    private const double LowestCents = 0.003;
    private const double HighestCents = 30.0;
    private const double Left = 70.0;
    private const double Top = 20.0;
    private const double Side = 480.0;
    private static readonly Dictionary<int, string> Colours = new() { [10] = "#b35806", [20] = "#2166ac", [40] = "#555555" };

    public static string Svg(IReadOnlyList<BoundPoint> points)
    {
        StringBuilder svg = new();
        svg.Append(Invariant($"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Left + Side + 160.0}\" height=\"{Top + Side + 50.0}\" font-family=\"sans-serif\" font-size=\"12\">\n"));
        svg.Append(Invariant($"<rect width=\"100%\" height=\"100%\" fill=\"white\"/><rect x=\"{Left}\" y=\"{Top}\" width=\"{Side}\" height=\"{Side}\" fill=\"none\" stroke=\"black\"/>\n"));
        foreach (double cents in new[] { 0.01, 0.1, 1.0, 10.0 })
        {
            svg.Append(Invariant($"<text x=\"{X(cents):0.0}\" y=\"{Top + Side + 18.0}\" text-anchor=\"middle\">{cents}</text><text x=\"{Left - 8.0}\" y=\"{Y(cents) + 4.0:0.0}\" text-anchor=\"end\">{cents}</text>\n"));
            svg.Append(Invariant($"<path d=\"M{X(cents):0.0} {Top}V{Top + Side}M{Left} {Y(cents):0.0}H{Left + Side}\" stroke=\"#dddddd\"/>\n"));
        }

        Line(svg, 1.0, "");
        Line(svg, 2.0, " stroke-dasharray=\"6 4\"");
        foreach (BoundPoint point in points.Where(x => double.IsFinite(x.RmsCents) && double.IsFinite(x.BoundCents)))
        {
            svg.Append(Mark(X(point.BoundCents), Y(point.RmsCents), point.WindowMs, Colours[point.SnrDb]));
        }

        double y = Top + 20.0;
        foreach (int windowMs in points.Select(x => x.WindowMs).Distinct())
        {
            foreach (int snrDb in points.Select(x => x.SnrDb).Distinct())
            {
                svg.Append(Mark(Left + Side + 20.0, y - 4.0, windowMs, Colours[snrDb]));
                svg.Append(Invariant($"<text x=\"{Left + Side + 32.0}\" y=\"{y}\">{windowMs} ms, {snrDb} dB</text>\n"));
                y += 20.0;
            }
        }

        svg.Append(Invariant($"<text x=\"{Left + Side + 14.0}\" y=\"{y + 10.0}\">line: the bound</text><text x=\"{Left + Side + 14.0}\" y=\"{y + 28.0}\">dashes: twice the bound</text>\n"));
        svg.Append(Invariant($"<text x=\"{Left + (0.5 * Side)}\" y=\"{Top + Side + 40.0}\" text-anchor=\"middle\">bound of Cramer and Rao, cents</text>\n"));
        svg.Append(Invariant($"<text transform=\"translate(20 {Top + (0.5 * Side)}) rotate(-90)\" text-anchor=\"middle\">error (rms), cents</text>\n</svg>\n"));
        return svg.ToString();
    }

    private static void Line(StringBuilder svg, double factor, string style) => svg.Append(Invariant(
        $"<path d=\"M{X(LowestCents):0.0} {Y(factor * LowestCents):0.0}L{X(HighestCents / factor):0.0} {Y(HighestCents):0.0}\" fill=\"none\" stroke=\"black\"{style}/>\n"));

    private static string Mark(double x, double y, int windowMs, string colour) => windowMs switch
    {
        50 => Invariant($"<circle cx=\"{x:0.0}\" cy=\"{y:0.0}\" r=\"4\" fill=\"none\" stroke=\"{colour}\"/>\n"),
        100 => Invariant($"<rect x=\"{x - 3.5:0.0}\" y=\"{y - 3.5:0.0}\" width=\"7\" height=\"7\" fill=\"none\" stroke=\"{colour}\"/>\n"),
        _ => Invariant($"<path d=\"M{x:0.0} {y - 5.0:0.0}l5 9h-10z\" fill=\"{colour}\"/>\n"),
    };

    private static double X(double cents) => Left + (Side * Place(cents));

    private static double Y(double cents) => Top + (Side * (1.0 - Place(cents)));

    private static double Place(double cents) =>
        Math.Log(Math.Clamp(cents, LowestCents, HighestCents) / LowestCents) / Math.Log(HighestCents / LowestCents);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
