using System.Globalization;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Both pitches of a mix as measured on its separate stems, every 10 ms.</summary>
internal sealed class TruthTrack
{
    private readonly List<(double Seconds, double PlayedHz, double SungHz)> _points = [];

    public double FromSeconds => _points[0].Seconds + 0.1;

    public double ToSeconds => _points[^1].Seconds - 0.1;

    public void Add(double seconds, double playedHz, double sungHz) => _points.Add((seconds, playedHz, sungHz));

    /// <summary>Median of the track within 50 ms.</summary>
    public (double PlayedHz, double SungHz) At(double seconds)
    {
        var near = _points.Where(x => Math.Abs(x.Seconds - seconds) <= 0.05).ToList();
        return (Median(near.Select(x => x.PlayedHz)), Median(near.Select(x => x.SungHz)));
    }

    /// <summary>Beats per second of the two lowest harmonics that meet, as the mean over half a second; null where nothing is known.</summary>
    public double? BeatsAt(double seconds)
    {
        var near = _points.Where(x => Math.Abs(x.Seconds - seconds) <= 0.25 && !double.IsNaN(x.PlayedHz + x.SungHz)).ToList();
        if (near.Count == 0)
        {
            return null;
        }

        double ratio = near.Average(x => x.SungHz) / near.Average(x => x.PlayedHz);
        (double k, double m) = ratio >= 1.0 ? (Math.Round(ratio), 1.0) : (1.0, Math.Round(1.0 / ratio));
        return near.Average(x => Math.Abs((k * x.PlayedHz) - (m * x.SungHz)));
    }

    public static Dictionary<string, TruthTrack> ReadAll(string csvPath)
    {
        Dictionary<string, TruthTrack> tracks = [];
        foreach (string line in File.ReadLines(csvPath).Skip(1))
        {
            string[] cells = line.Split(',');
            if (!tracks.TryGetValue(cells[0], out TruthTrack? track))
            {
                tracks[cells[0]] = track = new TruthTrack();
            }

            track.Add(Number(cells[1]), Number(cells[2]), Number(cells[3]));
        }

        return tracks;
    }

    internal static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Where(x => !double.IsNaN(x)).Order()];
        return sorted.Length == 0 ? double.NaN : 0.5 * (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]);
    }

    private static double Number(string cell) =>
        double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : double.NaN;
}
