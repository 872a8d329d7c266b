using System.Globalization;
using BrassVox.App.Tui.Drawing;

namespace BrassVox.App.Tui.Pictures;

/// <summary>How much stronger or weaker each mark is than in a spectrum that was kept: vowels, dynamics, separate against coupled.</summary>
internal static class HeldDifference
{
    /// <summary>Smallest difference written with a sign, in dB; less reads 0.</summary>
    private const double LeastDb = 0.5;

    /// <summary>Writes the differences of one tone's partials, or of the resultants, in one row, each under its mark.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="y">Row; cleared first.</param>
    /// <param name="scale">The axis.</param>
    /// <param name="now">The spectrum now.</param>
    /// <param name="held">The spectrum that was kept.</param>
    /// <param name="part">0 for P, 1 for S, anything else for the resultants.</param>
    public static void Draw(Canvas canvas, int y, PairScale scale, PairSpectrum now, PairSpectrum held, int part)
    {
        canvas.Fill(0, y, canvas.Width, ' ');
        canvas.Write(0, y, part switch { 0 => "dB P", 1 => "dB S", _ => "dB R" }, part switch { 0 => Ink.Played, 1 => Ink.Sung, _ => Ink.Resultant });
        int free = PairScale.Origin;
        foreach ((double hz, double difference) in Differences(now, held, part).OrderBy(mark => mark.Hz))
        {
            string text = Text(difference);
            int x = scale.Column(hz);
            int start = Math.Min(x - (text.Length / 2), canvas.Width - text.Length);
            if (x <= scale.End && start >= free)
            {
                free = canvas.Write(start, y, text) + 1;
            }
        }
    }

    /// <summary>A difference as written: +3, -12, 0.</summary>
    /// <param name="differenceDb">Difference in dB.</param>
    public static string Text(double differenceDb) =>
        Math.Abs(differenceDb) < LeastDb ? "0" : differenceDb.ToString("+0;-0", CultureInfo.InvariantCulture);

    /// <summary>Differences in dB at the marks that are drawn now or were drawn then.</summary>
    /// <param name="now">The spectrum now.</param>
    /// <param name="held">The spectrum that was kept.</param>
    /// <param name="part">0 for P, 1 for S, anything else for the resultants.</param>
    public static IReadOnlyList<(double Hz, double DifferenceDb)> Differences(PairSpectrum now, PairSpectrum held, int part)
    {
        if (part < 2)
        {
            (double hz, IReadOnlyList<double> levels, IReadOnlyList<double> before) = part == 0
                ? (now.PlayedHz, now.PlayedDb, held.PlayedDb)
                : (now.SungHz, now.SungDb, held.SungDb);
            bool known = part == 0 || (now.SungKnown && held.SungKnown);
            return
            [
                .. Enumerable.Range(0, known ? Math.Min(levels.Count, before.Count) : 0)
                    .Where(i => now.IsDrawn(levels[i]) || held.IsDrawn(before[i]))
                    .Select(i => ((i + 1) * hz, levels[i] - before[i])),
            ];
        }

        Dictionary<(int, int), double> then = held.Resultants.ToDictionary(line => (line.Played, line.Sung), line => line.LevelDb);
        List<(double, double)> found = [];
        foreach (ResultantLevel line in now.Resultants)
        {
            double hz = (line.Played * now.PlayedHz) + (line.Sung * now.SungHz);
            if (hz > 0 && then.TryGetValue((line.Played, line.Sung), out double before) && (now.IsDrawn(line.LevelDb) || held.IsDrawn(before)))
            {
                found.Add((hz, line.LevelDb - before));
            }
        }

        return found;
    }
}
