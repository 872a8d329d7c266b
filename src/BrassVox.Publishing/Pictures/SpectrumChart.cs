using BrassVox.Analysis.Transforms;
using BrassVox.Theory;
using ScottPlot;

namespace BrassVox.Publishing.Pictures;

/// <summary>The spectrogram of a recording, with the lines that a played and a sung tone would make drawn over it.</summary>
public static class SpectrumChart
{
    /// <summary>Shortest recording that can be drawn, in seconds.</summary>
    public const double LeastSeconds = 0.2;

    // A window this long parts lines 12 Hz apart, the fastest that still beat.
    private const double WindowSeconds = 0.17;
    private const double RangeDb = 70;
    private const int MostColumns = 900;
    private const int HighestHarmonic = 12;

    /// <summary>Draws the chart.</summary>
    /// <param name="title">What it is, in a few words.</param>
    /// <param name="mono">Samples, full scale 1.</param>
    /// <param name="sampleRateHz">Their rate in Hz, &gt; 0.</param>
    /// <param name="playedHz">P in Hz, or null to draw no prediction.</param>
    /// <param name="sungHz">S in Hz, or null to draw no prediction.</param>
    /// <param name="order">Highest |m|+|n| of the lines drawn, 2 to 4.</param>
    /// <param name="highestHz">Top of the picture in Hz, &gt; 0.</param>
    /// <exception cref="ArgumentException">The recording is shorter than <see cref="LeastSeconds"/>.</exception>
    public static Picture Of(string title, ReadOnlySpan<float> mono, int sampleRateHz, double? playedHz, double? sungHz, int order, double highestHz)
    {
        if (mono.Length < LeastSeconds * sampleRateHz)
        {
            throw new ArgumentException($"A spectrogram takes {LeastSeconds} s of sound or more.", nameof(mono));
        }

        double seconds = (double)mono.Length / sampleRateHz;
        Spectrogram levels = Spectrogram.Of(mono, sampleRateHz, WindowSeconds, Math.Max(0.01, seconds / MostColumns), highestHz);
        Plot plot = Paper.Panel(title, "time in seconds; black is loudest, white 70 dB below", "frequency in Hz");
        double halfHop = 0.5 * levels.HopSeconds;
        double right = levels.FirstSeconds + (levels.HopSeconds * (levels.Columns - 1)) + halfHop;
        ScottPlot.Plottables.Heatmap map = plot.Add.Heatmap(Grid(levels, out double loudest));
        map.Colormap = new ScottPlot.Colormaps.Grayscale().Reversed();
        map.ManualRange = new ScottPlot.Range(loudest - RangeDb, loudest);
        map.Smooth = true;
        map.Rectangle = new CoordinateRect(levels.FirstSeconds - halfHop, right, -0.5 * levels.BinHz, levels.BinHz * (levels.Bins - 0.5));
        double top = levels.BinHz * (levels.Bins - 1);
        if (playedHz is { } played && sungHz is { } sung)
        {
            List<(double, string, Color)> ends = [];
            foreach (Resultant line in Resultants.Of(played, sung, HighestHarmonic).Where(line => line.FrequencyHz <= top && (line.IsHarmonic || line.Order <= order)))
            {
                double[] across = [levels.FirstSeconds, right];
                double[] up = [line.FrequencyHz, line.FrequencyHz];
                Paper.Line(plot, across, up, Paper.StrokeOf(line.Played, line.Sung), line.IsHarmonic ? Colors.Black : Paper.SungInk, 1);
                ends.Add((line.FrequencyHz, line.Name, Colors.Black));
            }

            Paper.EndWords(plot, right + (0.005 * seconds), ends, top / 34);
        }

        plot.Axes.SetLimits(0, seconds * (playedHz is null || sungHz is null ? 1 : 1.08), 0, 1.03 * top);
        return new Picture(plot);
    }

    // The top row of a heat map is its highest frequency.
    private static double[,] Grid(Spectrogram levels, out double loudest)
    {
        double[,] grid = new double[levels.Bins, levels.Columns];
        loudest = double.NegativeInfinity;
        for (int column = 0; column < levels.Columns; column++)
        {
            for (int bin = 0; bin < levels.Bins; bin++)
            {
                double level = levels.LevelDb(column, bin);
                grid[levels.Bins - 1 - bin, column] = level;
                loudest = Math.Max(loudest, level);
            }
        }

        return grid;
    }
}
