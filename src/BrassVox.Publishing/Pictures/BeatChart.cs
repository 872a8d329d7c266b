using System.Globalization;
using BrassVox.Theory;
using ScottPlot;

namespace BrassVox.Publishing.Pictures;

/// <summary>Where the interval stands still, beats and is rough, in the register of one played note.</summary>
public static class BeatChart
{
    private const double FromCents = -50;
    private const double ToCents = 1950;
    private const double StepCents = 2;
    private const double MostBeats = 12;
    private const double StillDb = -45;
    private const int HighestSum = 11;
    private const int NamedSum = 7;

    /// <summary>Draws the chart: above, how fast each pair of strong harmonics beats; below, the roughness of the whole.</summary>
    /// <param name="playedHz">P in Hz, &gt; 0.</param>
    /// <param name="sungHz">S in Hz, &gt; 0: the interval that is marked.</param>
    /// <param name="playedAmplitudes">Linear amplitudes of P's harmonics, the fundamental first; at least one.</param>
    /// <param name="sungAmplitudes">The same of S, on the same scale.</param>
    /// <param name="a4Hz">A4 in Hz, for the names of notes.</param>
    /// <exception cref="ArgumentOutOfRangeException">A frequency is not positive.</exception>
    /// <exception cref="ArgumentException">No harmonic is given.</exception>
    public static Picture Of(
        double playedHz, double sungHz, IReadOnlyList<double> playedAmplitudes, IReadOnlyList<double> sungAmplitudes, double a4Hz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(playedHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sungHz);
        double marked = Cents.Between(playedHz, sungHz);
        double from = Math.Min(FromCents, marked - 50);
        double to = Math.Max(ToCents, marked + 50);
        NearestNote played = NearestNote.Of(playedHz, a4Hz);

        Plot beats = Paper.Panel(
            string.Create(CultureInfo.InvariantCulture, $"Beats and roughness over {played.Note} ({playedHz:0.00} Hz); marked: {marked:0} cents, {IntervalName.Of(marked)}"),
            string.Empty,
            "beats a second");
        DrawBeats(beats, playedHz, playedAmplitudes, sungAmplitudes, from, to);
        Plot roughness = Paper.Panel(string.Empty, "S above P in cents, and just intervals", "roughness (most = 1)");
        DrawRoughness(roughness, new RoughnessCurve(playedHz, playedAmplitudes, sungAmplitudes, from, to, StepCents), marked);
        foreach (Plot plot in new[] { beats, roughness })
        {
            Paper.Upright(plot, marked, 0, plot == beats ? MostBeats + 1.5 : 1.1, Paper.Ink);
            plot.Axes.Bottom.TickGenerator = Paper.Ticks(Marks(from, to));
        }

        beats.Axes.SetLimits(from, to, 0, MostBeats + 1.5);
        roughness.Axes.SetLimits(from, to, 0, 1.1);
        return new Picture(beats, roughness);
    }

    private static void DrawBeats(Plot plot, double playedHz, IReadOnlyList<double> played, IReadOnlyList<double> sung, double from, double to)
    {
        double strongest = Math.Max(played.Max(), sung.Max());
        double least = strongest * Math.Pow(10, StillDb / 20);
        for (int k = 1; k <= played.Count; k++)
        {
            for (int m = 1; m <= sung.Count; m++)
            {
                if (played[k - 1] < least || sung[m - 1] < least || k + m > HighestSum || GreatestCommonDivisor(k, m) > 1)
                {
                    continue;
                }

                double still = Cents.Between(m, k);
                double reach = Cents.Between(k * playedHz, (k * playedHz) + MostBeats);
                if (still + reach < from || still - reach > to)
                {
                    continue;
                }

                DrawValley(plot, playedHz, k, m, still, reach);
            }
        }
    }

    private static void DrawValley(Plot plot, double playedHz, int k, int m, double still, double reach)
    {
        double[] across = [.. Enumerable.Range(-20, 41).Select(i => still + (reach * i / 20.0))];
        double[] up = [.. across.Select(cents => Math.Abs((k * playedHz) - (m * Cents.Above(playedHz, cents))))];
        bool named = k + m <= NamedSum;
        Paper.Line(plot, across, up, Stroke.Solid, named ? Paper.Ink : Paper.Quiet, named ? 2 : 1);
        if (!named)
        {
            return;
        }

        ScottPlot.Plottables.Text words = plot.Add.Text($"{k}P {m}S", still, MostBeats + 0.1);
        words.LabelFontSize = 12;
        words.LabelFontColor = Paper.Ink;
        words.LabelAlignment = Alignment.LowerCenter;
    }

    private static void DrawRoughness(Plot plot, RoughnessCurve curve, double marked)
    {
        double most = Math.Max(1e-12, curve.Points.Max(point => point.Roughness));
        Paper.Line(plot, [.. curve.Points.Select(point => point.Cents)], [.. curve.Points.Select(point => point.Roughness / most)], Stroke.Solid, Paper.Ink, 2);
        ScottPlot.Plottables.Marker mark = plot.Add.Marker(marked, curve.At(marked) / most);
        mark.Shape = MarkerShape.FilledCircle;
        mark.Size = 12;
        mark.Color = Paper.SungInk;
    }

    private static IEnumerable<(double, string)> Marks(double from, double to)
    {
        foreach ((int above, int below) in new[] { (1, 1), (9, 8), (6, 5), (5, 4), (4, 3), (3, 2), (8, 5), (5, 3), (2, 1), (9, 4), (12, 5), (5, 2), (8, 3), (3, 1) })
        {
            double cents = Cents.Between(below, above);
            if (cents >= from && cents <= to)
            {
                yield return (cents, string.Create(CultureInfo.InvariantCulture, $"{above}:{below}\n{cents:0}"));
            }
        }
    }

    private static int GreatestCommonDivisor(int a, int b) => b == 0 ? a : GreatestCommonDivisor(b, a % b);
}
