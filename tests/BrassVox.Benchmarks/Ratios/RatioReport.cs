using System.Globalization;
using System.Text.Json;

namespace BrassVox.Benchmarks.Ratios;

/// <summary>Has a change made a hot job slower? Each is timed beside reference work in the same process, and its ratio held against the one on record.</summary>
/// <remarks>
/// On one machine the least processor time of many short runs moves by 3 per cent (three runs of one build at load 8 to 12), so there a small
/// loss is found: ratios --record, then the changed build with --limit=1.1. From machine to machine, of one kind by name, the same build's
/// ratios moved by up to 3.7 times; the limit unless given, <see cref="Limit"/>, finds what has gone wrong, not what has become a little slower.
/// Usage: ratios [--record] [--limit=N] [part of a name]; exit code 1 when a job takes more than N times its recorded ratio.
/// </remarks>
internal static class RatioReport
{
    private const double Limit = 5.0;
    private const string LimitOption = "--limit=";
    private const int Rounds = 20;
    private const double RunSeconds = 0.02;
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };

    internal static int Run(string[] arguments)
    {
        bool isRecord = arguments.Contains("--record");
        double limit = Limit;
        if (arguments.FirstOrDefault(x => x.StartsWith(LimitOption, StringComparison.Ordinal)) is { } given
            && !(double.TryParse(given.AsSpan(LimitOption.Length), NumberStyles.Float, CultureInfo.InvariantCulture, out limit) && limit >= 1.0))
        {
            Console.Error.WriteLine($"{given}: the limit is a number from 1 on, as in {LimitOption}1.1.");
            return 2;
        }

        string? part = arguments.FirstOrDefault(x => !x.StartsWith('-'));
        string file = Path.Combine(RatioJobs.Root(), "tests", "BrassVox.Benchmarks", "Ratios", "recorded.json");
        Dictionary<string, double> recorded = File.Exists(file) ? JsonSerializer.Deserialize<Dictionary<string, double>>(File.ReadAllText(file))! : [];
        Dictionary<string, double> measured = [];
        bool isSlower = false;
        Console.WriteLine("Time of a second of sound over that of the reference's work in the same process, and on record");
        foreach (RatioJob job in RatioJobs.All().Where(job => part is null || job.Name.Contains(part, StringComparison.Ordinal)))
        {
            (double own, double reference) = Measure(job);
            double ratio = own / reference;
            measured[job.Name] = double.Round(ratio, 3);
            bool isKnown = recorded.TryGetValue(job.Name, out double before);
            bool isWorse = isKnown && ratio > limit * before;
            isSlower |= isWorse || !(isKnown || isRecord);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"  {job.Name,-42}{ratio,8:F3}  on record {(isKnown ? before.ToString("F3", CultureInfo.InvariantCulture) : "none"),-8}{1e3 * own,8:F2} ms over {1e3 * reference,6:F2} ms of {job.ReferenceName}{(isWorse ? "   SLOWER" : "")}"));
        }

        if (measured.Count == 0)
        {
            Console.Error.WriteLine($"No job is named so: {part}.");
            return 2;
        }

        if (isRecord)
        {
            foreach ((string name, double ratio) in recorded)
            {
                measured.TryAdd(name, ratio);
            }

            File.WriteAllText(file, JsonSerializer.Serialize(new SortedDictionary<string, double>(measured, StringComparer.Ordinal), Indented) + "\n");
            Console.WriteLine($"recorded in {Path.GetFileName(file)}");
        }

        return isSlower && !isRecord ? 1 : 0;
    }

    // Both by turns, so that a slow moment of the machine meets both.
    private static (double Own, double Reference) Measure(RatioJob job)
    {
        int ownTimes = Fitting(job.Own);
        int referenceTimes = Fitting(job.Reference);
        (double own, double reference) = (double.PositiveInfinity, double.PositiveInfinity);
        for (int round = 0; round < Rounds; round++)
        {
            own = Math.Min(own, Spent(job.Own, ownTimes) / ownTimes);
            reference = Math.Min(reference, Spent(job.Reference, referenceTimes) / referenceTimes);
        }

        return (own / job.OwnSeconds, reference / job.ReferenceSeconds);
    }

    // Warmed up until the compiler's second tier is there, then as often as fills a short run.
    private static int Fitting(Action action)
    {
        Spent(action, 30);
        Thread.Sleep(150);
        Spent(action, 3);
        int times = 1;
        while (Spent(action, times) < RunSeconds)
        {
            times *= 2;
        }

        return times;
    }

    private static double Spent(Action action, int times)
    {
        TimeSpan start = Environment.CpuUsage.TotalTime;
        for (int i = 0; i < times; i++)
        {
            action();
        }

        return (Environment.CpuUsage.TotalTime - start).TotalSeconds;
    }
}
