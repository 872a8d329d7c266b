using System.Globalization;
using BrassVox.Theory;
using ScottPlot;

namespace BrassVox.Publishing.Pictures;

/// <summary>What a pair makes, over the interval: P stands still, S moves, and every line m P + n S goes its own way.</summary>
public static class ResultantChart
{
    private const int LowestSemitones = -5;
    private const int HighestSemitones = 24;
    private const double StepSemitones = 0.05;
    private const int NarrowWords = 13;

    // Fourths, fifths and octaves: as many as a narrow picture has room for.
    private static readonly int[] NarrowTicks = [-24, -17, -12, -5, 0, 7, 12, 19, 24, 31, 36];

    // What lies lower is no tone any more, and its logarithm runs away.
    private const double LowestHz = 10.0;

    /// <summary>Draws the chart.</summary>
    /// <param name="playedHz">P in Hz, &gt; 0.</param>
    /// <param name="sungHz">S in Hz, &gt; 0: the interval that is marked.</param>
    /// <param name="order">Highest |m|+|n| drawn, 2 to 4.</param>
    /// <param name="a4Hz">A4 in Hz, for the names of notes.</param>
    /// <param name="naming">Language of the note names.</param>
    /// <param name="isNarrow">True for a picture of about 330 by 440 pixels, as a phone shows it: fewer words.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static Picture Of(double playedHz, double sungHz, int order, double a4Hz, NoteNaming naming = NoteNaming.English, bool isNarrow = false)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(playedHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sungHz);
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(order, 4);
        double marked = Cents.Between(playedHz, sungHz) / 100.0;
        double from = Math.Min(LowestSemitones, Math.Floor(marked) - 2);
        double to = Math.Max(HighestSemitones, Math.Ceiling(marked) + 2);
        Pitch played = NearestNote.Of(playedHz, a4Hz).Note;
        Pitch sung = NearestNote.Of(sungHz, a4Hz).Note;
        string p = string.Create(CultureInfo.InvariantCulture, $"P ({playedHz:0.00} Hz, {NoteNames.Of(played, naming)})");
        string s = string.Create(CultureInfo.InvariantCulture, $"S = {sungHz:0.00} Hz, {NoteNames.Of(sung, naming)}");
        Plot plot = isNarrow
            ? Paper.Panel($"{p} and S;\nmarked: {s}", "S above P in semitones", "Hz and note", NarrowWords)
            : Paper.Panel($"What {p} and S make; marked: {s}", "S above P in semitones of 100 cents, and the note sung", "Hz, logarithmic, and the note");

        IReadOnlyList<Resultant> lines = Resultants.Of(playedHz, sungHz, order);
        List<(double, string, Color)> ends = [];
        foreach (Resultant line in lines.Where(line => !line.IsHarmonic || line.Order == 1))
        {
            (double[] across, double[] up) = Course(line, playedHz, from, to);
            Paper.Line(plot, across, up, Paper.StrokeOf(line.Played, line.Sung), Paper.InkOf(line.Played, line.Sung), line.Order == 1 ? 3 : 1.6f);
            ScottPlot.Plottables.Marker mark = plot.Add.Marker(marked, Math.Log2(line.FrequencyHz));
            mark.Shape = Shape(line);
            mark.Size = line.Order == 1 ? 12 : 8;
            mark.Color = Paper.InkOf(line.Played, line.Sung);
            ends.Add((up[^1], line.Name, Paper.InkOf(line.Played, line.Sung)));
        }

        double highest = Math.Log2(lines.Where(line => !line.IsHarmonic || line.Order == 1).Max(line => Math.Abs((line.Played * playedHz) + (line.Sung * Cents.Above(playedHz, 100 * to)))));
        double lowest = Math.Log2(Math.Max(LowestHz, Math.Min(playedHz / 4, sungHz / 4)));
        // Words that had to move up need room as well.
        double apart = (highest - lowest) / (isNarrow ? 22 : 20);
        double top = Math.Max(highest + 0.15, Paper.EndWords(plot, to + 0.3, ends, apart) + apart);
        Paper.Upright(plot, marked, lowest, top, Paper.Quiet);
        plot.Axes.SetLimits(from, to + (isNarrow ? 7 : 2.2), lowest, top);
        IEnumerable<int> all = Enumerable.Range((int)from, (int)(to - from) + 1);
        plot.Axes.Bottom.TickGenerator = Paper.Ticks((isNarrow ? all.Intersect(NarrowTicks) : all)
            .Select(semitone => ((double)semitone, $"{semitone}\n{(isNarrow || semitone % 2 == 0 ? NoteNames.Of(NearestNote.Of(Cents.Above(playedHz, 100 * semitone), a4Hz).Note, naming) : "")}")));
        plot.Axes.Left.TickGenerator = Paper.Ticks(Octaves(played, lowest, highest, a4Hz, naming));
        return new Picture(plot);
    }

    private static (double[] Across, double[] Up) Course(Resultant line, double playedHz, double from, double to)
    {
        List<double> across = [];
        List<double> up = [];
        for (int i = 0; from + (i * StepSemitones) <= to + 1e-9; i++)
        {
            double semitones = from + (i * StepSemitones);
            double hz = Math.Abs((line.Played * playedHz) + (line.Sung * Cents.Above(playedHz, 100 * semitones)));
            across.Add(semitones);
            up.Add(hz >= LowestHz ? Math.Log2(hz) : double.NaN);
        }

        return ([.. across], [.. up]);
    }

    private static MarkerShape Shape(Resultant line) => (line.Played, line.Sung) switch
    {
        (_, 0) => MarkerShape.FilledSquare,
        (0, _) => MarkerShape.FilledCircle,
        _ => line.IsDifference ? MarkerShape.OpenDiamond : MarkerShape.FilledDiamond,
    };

    private static IEnumerable<(double, string)> Octaves(Pitch note, double lowest, double highest, double a4Hz, NoteNaming naming)
    {
        for (int octave = -1; octave <= 9; octave++)
        {
            Pitch here = note with { Octave = octave };
            double place = Math.Log2(EqualTemperament.FrequencyHz(here.MidiNumber, a4Hz));
            if (place >= lowest && place <= highest)
            {
                yield return (place, string.Create(CultureInfo.InvariantCulture, $"{NoteNames.Of(here, naming)}  {Math.Pow(2, place):0.0}"));
            }
        }
    }
}
