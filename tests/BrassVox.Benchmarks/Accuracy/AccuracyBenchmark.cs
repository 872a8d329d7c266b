using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Measures recorded mixes with known truth, by interval, beside general-purpose tools on the same sound.</summary>
/// <remarks>
/// The mixes are those of the folder in BRASSVOX_RECORDINGS, or, with --made, others made from its single notes. Further
/// arguments: --declared or --free (one of the two), --mixes (a line for each), --frames (a line for each frame), --no-tools,
/// part of a mix's name; --octave-up=played or sung, --octave-down= the same (it sounds an octave above or below what is declared: is it told where it sounds?), --played-off=N, --sung-off=N (it is declared N semitones from where it sounds); with --made also --per-interval=N (3), --seed=N (7), --half=1 or 2 (only every other recording).
/// </remarks>
internal static class AccuracyBenchmark
{
    public static int Run(string[] args)
    {
        string? folder = Environment.GetEnvironmentVariable("BRASSVOX_RECORDINGS");
        if (folder is null || !File.Exists(Path.Combine(folder, "mixes", "truth.csv")))
        {
            Console.Error.WriteLine("BRASSVOX_RECORDINGS names no folder that holds mixes/truth.csv.");
            return 2;
        }

        string? pattern = args.FirstOrDefault(a => !a.StartsWith('-'));
        List<MadeMixes.Mix> mixes = [.. (args.Contains("--made") ? MadeMixes.Make(folder, Number(args, "--per-interval=", 3), Number(args, "--seed=", 7), Number(args, "--half=", 0)) : Recorded(folder))
            .Where(mix => pattern is null || mix.Name.Contains(pattern, StringComparison.Ordinal))];
        DuetTracker tracker = new(MadeMixes.RateOfMixesHz, DuetPrior.Free);
        double perMs = tracker.SampleRateHz / 1000.0;
        Console.WriteLine(FormattableString.Invariant(
            $"{mixes.Count} mixes; window {tracker.WindowSamples / perMs:0.0} ms, hop {tracker.HopSamples / perMs:0.00} ms, latency {tracker.LatencySamples / perMs:0.0} ms from the middle of the window."));
        Console.WriteLine("10 c, 25 c: share of frames with both pitches that near. Errors in cents, over frames that gave both. Wrong: a pitch on the other tone or 150 c off. Open: declined, both pitches within 10 c but not which is played.");
        Console.WriteLine("Fog: frames not separable; beats told, told within 0.2 a second of the truth's mean over 0.5 s; 'slower than' told, true.");
        List<(string Name, string Row)> within25 = [];
        foreach (bool free in new[] { false, true })
        {
            if (!args.Contains(free ? "--declared" : "--free"))
            {
                within25.Add(Measure(mixes, free, args));
            }
        }

        if (!args.Contains("--no-tools"))
        {
            Compare(mixes, within25);
        }

        return 0;
    }

    private static (string Name, string Row) Measure(List<MadeMixes.Mix> mixes, bool free, string[] args)
    {
        // Some unmeasured first, so that the time is that of compiled code.
        foreach (MadeMixes.Mix mix in mixes.Take(4))
        {
            _ = TakeMeasurement.Frames(mix.Mono, MadeMixes.RateOfMixesHz, PriorOf(mix, free, args));
        }

        double audio = 0.0;
        double spent = 0.0;
        List<(MadeMixes.Mix Mix, MixScore Score)> scores = [];
        foreach (MadeMixes.Mix mix in mixes)
        {
            DuetPrior prior = PriorOf(mix, free, args);
            TimeSpan start = Environment.CpuUsage.TotalTime;
            IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(mix.Mono, MadeMixes.RateOfMixesHz, prior);
            spent += (Environment.CpuUsage.TotalTime - start).TotalSeconds;
            audio += (double)mix.Mono.Length / MadeMixes.RateOfMixesHz;
            scores.Add((mix, MixScore.Of(frames, mix.Truth)));
            if (args.Contains("--frames"))
            {
                Dump(mix.Name, frames, mix.Truth);
            }
        }

        string name = free ? "free" : "declared";
        foreach (bool coupled in new[] { false, true })
        {
            var chosen = scores.Where(x => x.Mix.IsCoupled == coupled).ToList();
            Console.WriteLine();
            Console.WriteLine($"{$"{name}, {(coupled ? "coupled" : "separate")}",-36}{MixScore.Heading}");
            foreach (var interval in chosen.GroupBy(x => x.Mix.Interval))
            {
                Line(interval.Key, interval);
                foreach ((MadeMixes.Mix mix, MixScore score) in interval.Where(_ => args.Contains("--mixes")))
                {
                    Console.WriteLine($"  {mix.Name,-34}{score}");
                }
            }

            Totals(chosen);
        }

        Console.WriteLine();
        Console.WriteLine($"{name}, separate and coupled together");
        Totals(scores);
        Console.WriteLine(FormattableString.Invariant(
            $"{audio:0.0} s of sound in {spent:0.00} s of processor time: {audio / spent:0} times real time on one core"));
        return ($"BrassVox, {name}", $"{Total(scores.Where(x => !x.Mix.IsCoupled && x.Mix.Interval[0] != 'u')).Within25()}    {Total(scores.Where(x => x.Mix.IsCoupled && x.Mix.Interval[0] != 'u')).Within25()}");
    }

    private static void Totals(List<(MadeMixes.Mix Mix, MixScore Score)> scores)
    {
        Line("= third to tenth, no octave", scores.Where(x => x.Mix.Semitones is >= 3 and <= 16 and not 12));
        Line("= separable", scores.Where(x => !IsHard(x.Mix)));
        Line("= unison, m2, octave, twelfth", scores.Where(x => IsHard(x.Mix)));
    }

    // At these the partials of one tone fall on or beside those of the other.
    private static bool IsHard(MadeMixes.Mix mix) =>
        mix.Interval.StartsWith("unison", StringComparison.Ordinal) || mix.Interval is "m2" or "octave" or "twelfth";

    private static void Line(string name, IEnumerable<(MadeMixes.Mix Mix, MixScore Score)> scores) =>
        Console.WriteLine($"{name,-36}{Total(scores)}");

    private static MixScore Total(IEnumerable<(MadeMixes.Mix Mix, MixScore Score)> scores)
    {
        MixScore total = new();
        foreach ((_, MixScore score) in scores)
        {
            total.Add(score);
        }

        return total;
    }

    private static void Compare(List<MadeMixes.Mix> mixes, List<(string Name, string Row)> ours)
    {
        SingleScore[] tools = SingleScore.All();
        foreach (SingleScore tool in tools)
        {
            mixes.Where(mix => mix.Interval[0] != 'u').ToList().ForEach(tool.Add);
        }

        Console.WriteLine();
        Console.WriteLine("Share of frames within 25 c, unisons left out");
        Console.WriteLine($"{"",-24} {"separate: played, sung, both",24}    {"coupled: played, sung, both",24}");
        foreach ((string name, string row) in ours)
        {
            Console.WriteLine($"{name,-24} {row}");
        }

        foreach (SingleScore tool in tools)
        {
            Console.WriteLine(tool);
        }
    }

    private static IEnumerable<MadeMixes.Mix> Recorded(string folder)
    {
        string mixes = Path.Combine(folder, "mixes");
        Dictionary<string, TruthTrack> tracks = TruthTrack.ReadAll(Path.Combine(mixes, "truth_tracks.csv"));
        foreach (string line in File.ReadLines(Path.Combine(mixes, "truth.csv")).Skip(1))
        {
            string[] cells = line.Split(',');
            foreach (string path in Directory.GetFiles(mixes, $"mix_{cells[0]}_*.flac").Order(StringComparer.Ordinal))
            {
                (float[] mono, _) = SoundFile.Read(path, MadeMixes.RateOfMixesHz);
                yield return new MadeMixes.Mix(
                    Path.GetFileNameWithoutExtension(path), cells[1], Number(cells[4]), Number(cells[5]), mono, tracks[cells[0]]);
            }
        }
    }

    private static void Dump(string name, IEnumerable<AnalysisFrame> frames, TruthTrack truth)
    {
        Console.WriteLine(name);
        foreach (AnalysisFrame f in frames)
        {
            (double tp, double ts) = truth.At(f.CentreSeconds);
            Console.WriteLine(FormattableString.Invariant(
                $"  {f.CentreSeconds:0.000} {f.LevelDbfs,6:0.0} {f.Separability,-12} P {tp,8:0.00} {Err(f.Played, tp)}  S {ts,8:0.00} {Err(f.Sung, ts)} {Others(f, tp, ts)} beat {f.BeatRateHz:0.00} ({truth.BeatsAt(f.CentreSeconds):0.00}) below {f.BeatsBelowHz:0.00}"));
        }
    }

    // What a frame says that gives no roles.
    private static string Others(AnalysisFrame f, double playedHz, double sungHz) => f switch
    {
        { RolesOpen: var (lower, upper) } => FormattableString.Invariant(
            $"open {Cents.Between(Math.Min(playedHz, sungHz), lower.FrequencyHz):0.0} c {Cents.Between(Math.Max(playedHz, sungHz), upper.FrequencyHz):0.0} c"),
        { OneSeries: { } series } => FormattableString.Invariant($"series {series.FrequencyHz:0.00} Hz"),
        _ => "-",
    };

    private static string Err(PitchEstimate? tone, double truthHz) => tone is { } t
        ? FormattableString.Invariant($"{Cents.Between(truthHz, t.FrequencyHz),7:0.0} c {t.LevelDbfs,6:0.0} dB {t.Confidence:0.00}")
        : "      -            ";

    private static DuetPrior PriorOf(MadeMixes.Mix mix, bool free, string[] args) => free ? DuetPrior.Free : DuetPrior.Held(
        Declared(mix.PlayedHz) * Misplaced(args, "played"), Declared(mix.SungHz) * Misplaced(args, "sung"));

    private static double Misplaced(string[] args, string tone) =>
        Math.Pow(2.0, Number(args, $"--{tone}-off=", args.Contains($"--octave-up={tone}") ? -12 : args.Contains($"--octave-down={tone}") ? 12 : 0) / 12.0);

    // The declared note: the equal-tempered one nearest to the truth, as the player would be told.
    private static double Declared(double hz)
    {
        double midi = 69.0 + (12.0 * Math.Log2(hz / 440.0));
        return 440.0 * Math.Pow(2.0, (Math.Round(midi) - 69.0) / 12.0);
    }

    private static int Number(string[] args, string option, int otherwise) =>
        args.FirstOrDefault(a => a.StartsWith(option, StringComparison.Ordinal)) is { } given
            ? int.Parse(given.AsSpan(option.Length), CultureInfo.InvariantCulture)
            : otherwise;

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
