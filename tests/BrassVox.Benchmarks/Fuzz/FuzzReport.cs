using System.Diagnostics;
using System.Globalization;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>
/// Throws spoiled inputs at every reader, the same ones for the same seed, and tells what breaks: an exception that is no answer, more than a
/// second, more than 200 MB for an input under 1 MB.
/// </summary>
internal static class FuzzReport
{
    private const double LongestSeconds = 1;
    private const int Attempts = 5;
    private const double HangSeconds = 20;
    private const long MostBytes = 200L << 20;
    private const int MostTold = 5;

    public static int Run(string[] arguments)
    {
        TextWriter screen = Console.Out;
        Dictionary<string, string> options = [];
        for (int i = 0; i + 1 < arguments.Length; i += 2)
        {
            options[arguments[i]] = arguments[i + 1];
        }

        long inputs = Whole(options, "--inputs", 0);
        int seconds = (int)Whole(options, "--seconds", inputs > 0 ? 0 : 20);
        int seed = (int)Whole(options, "--seed", 1);
        string? only = options.GetValueOrDefault("--only");
        string? keep = options.GetValueOrDefault("--keep");
        string work = Directory.CreateTempSubdirectory("brassvox-fuzz-").FullName;
        Environment.SetEnvironmentVariable("BRASSVOX_DATA", Path.Combine(work, "data"));
        Aside.Begin();
        try
        {
            FuzzReader[] readers = [.. Readers().Where(reader => only is null || reader.Name == only)];
            if (readers.Length == 0)
            {
                screen.WriteLine($"There is no reader \"{only}\": {string.Join(", ", Readers().Select(reader => reader.Name))}.");
                return 2;
            }

            if (options.TryGetValue("--file", out string? file))
            {
                return Once(readers[0], File.ReadAllBytes(file), work, screen);
            }

            if (options.TryGetValue("--number", out string? number))
            {
                byte[] input = readers[0].Make(new Random(Mixed(readers[0].Name, seed, long.Parse(number, CultureInfo.InvariantCulture))));
                if (keep is not null)
                {
                    File.WriteAllBytes(keep, input);
                }

                return Once(readers[0], input, work, screen);
            }

            int shares = readers.Sum(reader => reader.Share);
            Slot[] slots = [.. readers.Select(reader => new Slot(reader, inputs * reader.Share / shares, (double)seconds / readers.Length * Environment.ProcessorCount))];
            using var watch = new Timer(_ => Watch(slots, seed, screen), null, 1000, 1000);
            var clock = Stopwatch.StartNew();
            Parallel.ForEach(slots.OrderByDescending(slot => slot.Wanted), new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, slot => Work(slot, seed, work, keep));
            return Tell(slots, clock.Elapsed, seed, screen);
        }
        finally
        {
            Directory.Delete(work, recursive: true);
        }
    }

    private static IEnumerable<FuzzReader> Readers() =>
    [
        new SoundReader(), new MidiReader(), new TextPassageReader(), new MusicXmlReader(), new ArchiveReader(), new ExerciseReader(), new SceneReader(), new BrassReader(), new VoiceReader(),
        new BoreReader(), new PlayerReader(), new StandReader(), new KeysReader(), new TakeReader(), new LogJsonReader(), new LogCsvReader(), new DatabaseReader(), new WordReader(), new ProgramReader(),
    ];

    private static void Work(Slot slot, int seed, string work, string? keep)
    {
        string folder = Directory.CreateDirectory(Path.Combine(work, slot.Reader.Name)).FullName;
        var clock = Stopwatch.StartNew();
        while (slot.Wanted > 0 ? slot.Done < slot.Wanted : clock.Elapsed.TotalSeconds < slot.Seconds)
        {
            byte[] input = slot.Reader.Make(new Random(Mixed(slot.Reader.Name, seed, slot.Done)));
            if (Attempt(slot, input, folder) is { } finding)
            {
                slot.Found(finding, slot.Done);
                if (keep is not null)
                {
                    Directory.CreateDirectory(keep);
                    File.WriteAllBytes(Path.Combine(keep, string.Create(CultureInfo.InvariantCulture, $"{slot.Reader.Name}-{seed}-{slot.Done}")), input);
                }
            }

            slot.Done++;
        }

        slot.Busy = clock.Elapsed.TotalSeconds;
    }

    // What takes long is tried again: a busy machine is no finding.
    private static string? Attempt(Slot slot, byte[] input, string folder)
    {
        double shortest = double.MaxValue;
        for (int attempt = 0; attempt < Attempts && shortest > LongestSeconds; attempt++)
        {
            Thread.Sleep(attempt * 200);
            long before = GC.GetAllocatedBytesForCurrentThread();
            slot.Since = Stopwatch.GetTimestamp();
            try
            {
                bool isRead = slot.Reader.Read(input, folder);
                slot.Read += attempt == 0 && isRead ? 1 : 0;
            }
            catch (Exception fault)
            {
                slot.Since = 0;
                string where = fault is FuzzFinding ? "" : $" {fault.StackTrace?.Split('\n').Select(line => line.Trim()).FirstOrDefault(line => line.Contains("BrassVox", StringComparison.Ordinal))}";
                return $"{fault.GetType().Name}: {fault.Message.Split('\n')[0]}{where}";
            }

            shortest = Math.Min(shortest, Stopwatch.GetElapsedTime(slot.Since).TotalSeconds);
            slot.Since = 0;
            long bytes = GC.GetAllocatedBytesForCurrentThread() - before;
            slot.MostBytes = Math.Max(slot.MostBytes, bytes);
            if (bytes > MostBytes && input.Length < 1 << 20)
            {
                return string.Create(CultureInfo.InvariantCulture, $"memory: {bytes >> 20} MB for {input.Length} bytes");
            }
        }

        slot.Longest = Math.Max(slot.Longest, shortest);
        return shortest > LongestSeconds ? string.Create(CultureInfo.InvariantCulture, $"time: {shortest:0.0} s for {input.Length} bytes") : null;
    }

    private static int Once(FuzzReader reader, byte[] input, string work, TextWriter screen)
    {
        string? finding = Attempt(new Slot(reader, 1, 0), input, work);
        screen.WriteLine(finding ?? "nothing found");
        return finding is null ? 0 : 1;
    }

    // Nothing can end a thread that hangs: the run ends with it, and says where.
    private static void Watch(Slot[] slots, int seed, TextWriter screen)
    {
        foreach (Slot slot in slots)
        {
            if (slot.Since is not 0 and var since && Stopwatch.GetElapsedTime(since).TotalSeconds > HangSeconds)
            {
                screen.WriteLine($"FAILED  {slot.Reader.Name}: hangs; --only {slot.Reader.Name} --seed {seed} --number {slot.Done}");
                screen.WriteLine("0 passed, 1 failed");
                screen.Flush();
                Environment.Exit(1);
            }
        }
    }

    private static int Tell(Slot[] slots, TimeSpan time, int seed, TextWriter screen)
    {
        screen.WriteLine("reader        inputs     read   longest ms   most MB   found");
        foreach (Slot slot in slots)
        {
            screen.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{slot.Reader.Name,-10} {slot.Done,9} {100.0 * slot.Read / Math.Max(1, slot.Done),7:0.0} % {1000 * slot.Longest,10:0} {slot.MostBytes / 1048576.0,9:0.0} {slot.Findings.Count,7}"));
            foreach ((string finding, (long first, int times)) in slot.Findings.OrderByDescending(pair => pair.Value.Times).Take(MostTold))
            {
                screen.WriteLine($"  {times} times: {finding}");
                screen.WriteLine($"    fuzz --only {slot.Reader.Name} --seed {seed} --number {first}");
            }
        }

        int failed = slots.Count(slot => slot.Findings.Count > 0);
        screen.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{slots.Sum(slot => slot.Done)} inputs in {time.TotalSeconds:0} s, seed {seed}"));
        screen.WriteLine($"{slots.Length - failed} passed, {failed} failed");
        return failed == 0 ? 0 : 1;
    }

    private static long Whole(Dictionary<string, string> options, string name, long otherwise) =>
        options.TryGetValue(name, out string? text) ? long.Parse(text, CultureInfo.InvariantCulture) : otherwise;

    // The same everywhere and always, unlike the hash codes of .NET.
    private static int Mixed(string name, int seed, long number)
    {
        unchecked
        {
            ulong mixed = 14695981039346656037;
            foreach (ulong part in name.Select(letter => (ulong)letter).Append((ulong)seed).Append((ulong)number))
            {
                mixed = (mixed ^ part) * 1099511628211;
                mixed ^= mixed >> 29;
            }

            return (int)mixed;
        }
    }

    /// <summary>A reader at work.</summary>
    private sealed class Slot(FuzzReader reader, long wanted, double seconds)
    {
        public FuzzReader Reader { get; } = reader;

        public long Wanted { get; } = wanted;

        public double Seconds { get; } = seconds;

        public long Done { get; set; }

        public long Read { get; set; }

        public double Busy { get; set; }

        public double Longest { get; set; }

        public long MostBytes { get; set; }

        public long Since { get; set; }

        public Dictionary<string, (long First, int Times)> Findings { get; } = [];

        public void Found(string finding, long number)
        {
            // Figures aside, so that one fault is one line.
            string kind = string.Concat(finding.Select(c => char.IsAsciiDigit(c) ? '0' : c));
            kind = kind[..Math.Min(kind.Length, 240)];
            Findings[kind] = Findings.TryGetValue(kind, out (long First, int Times) known) ? (known.First, known.Times + 1) : (number, 1);
        }
    }
}
