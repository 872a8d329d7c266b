using System.Diagnostics;
using System.Globalization;
using BrassVox.Audio;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Soak;

/// <summary>
/// Both engines by turns on the default device for minutes, with changes at random from a seed, and what came of it:
/// <c>soak [MINUTES] [SEED]</c>, 10 and 1 unless given (<c>soak --hours</c>: <see cref="HoursReport"/>). Beside no device (with-sound-server.sh makes one) it ends with 4.
/// </summary>
internal static class SoakReport
{
    private const int RateHz = 48000;
    private const int MostBlock = 8192;
    private const int ChangesPerSecond = 10;

    /// <summary>Memory is judged from here on: by then everything is loaded and compiled.</summary>
    private const double WarmUpShare = 0.1;

    private const long MostGrowthBytes = 8 << 20;

    public static int Run(string[] arguments)
    {
        double minutes = arguments.Length > 0 ? double.Parse(arguments[0], CultureInfo.InvariantCulture) : 10;
        int seed = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 1;
        IPairEngine[] engines = Engines(seed);
        var heard = new Heard(engines);
        LineOpening opening = new AudioSystem().OpenOutput(new LineRequest(Channels: 1), heard.Fill);
        if (!opening.IsDevice)
        {
            Console.Error.WriteLine(opening.Message);
            return 4;
        }

        opening.Line.Start();
        var random = new Random(seed);
        var clock = Stopwatch.StartNew();
        double seconds = minutes * 60;
        long changes = 0;
        long refused = 0;
        long warm = 0;
        long most = 0;
        while (clock.Elapsed.TotalSeconds < seconds && !opening.Line.Completion.IsCompleted)
        {
            IPairEngine engine = engines[random.Next(engines.Length)];
            refused += Change(engine, random) ? 0 : 1;
            if (++changes % (ChangesPerSecond * 20) == 0)
            {
                heard.Now = (heard.Now + 1) % engines.Length;
            }

            // Once a second: what is alive, not what waits to be collected.
            if (changes % ChangesPerSecond == 0)
            {
                long alive = GC.GetTotalMemory(forceFullCollection: true);
                bool isWarm = clock.Elapsed.TotalSeconds > seconds * WarmUpShare;
                warm = !isWarm ? alive : warm;
                most = isWarm ? Math.Max(most, alive) : 0;
            }

            Thread.Sleep(1000 / ChangesPerSecond);
        }

        bool ended = opening.Line.Completion.IsCompleted;
        opening.Line.StopAsync().GetAwaiter().GetResult();
        return Tell(opening.Line, heard, minutes, seed, changes, refused, warm, most, ended);
    }

    /// <summary>The two engines, ready to render at 48 kHz.</summary>
    /// <param name="seed">Of what is at random in them.</param>
    internal static IPairEngine[] Engines(int seed)
    {
        string presets = Path.Combine(AppContext.BaseDirectory, "presets");
        TonePresets tones = TonePresets.Load(Path.Combine(presets, "tones"));
        IPairEngine[] engines =
        [
            new FlowPair(tones.BrassById("trombone"), tones.VoiceById("tenor"), seed),
            new LivingPair(BrassBoreFiles.LoadAll(Path.Combine(presets, "bores")).First(bore => bore.Id == "trombone"), tones.VoiceById("tenor"), seed),
        ];
        foreach (IPairEngine engine in engines)
        {
            engine.Prepare(new RenderFormat(RateHz, MostBlock));
        }

        return engines;
    }

    /// <summary>One change at random: start, stop, coupling, a part's gain, a parameter anywhere in its range, or a pitch held or gliding.</summary>
    /// <param name="engine">What is changed.</param>
    /// <param name="random">What decides.</param>
    /// <returns>False where the engine's queue was full.</returns>
    internal static bool Change(IPairEngine engine, Random random)
    {
        switch (random.Next(8))
        {
            case 0:
                return engine.TryPost(PairEvent.Start());
            case 1 when random.Next(4) == 0:
                return engine.TryPost(random.Next(2) == 0 ? PairEvent.Stop() : PairEvent.Tacet());
            case 2:
                return engine.TryPost(PairEvent.Coupling((float)random.NextDouble(), 0.01f + (float)random.NextDouble()));
            case 3 when engine.Parts.Count > 0:
                return engine.TryPost(PairEvent.Gain(random.Next(engine.Parts.Count), -60 * (float)random.NextDouble(), 0.01f + (float)random.NextDouble()));
            case 4 or 5:
                Parameter parameter = engine.Parameters[random.Next(engine.Parameters.Count)];
                parameter.Target = parameter.Spec.Minimum + ((parameter.Spec.Maximum - parameter.Spec.Minimum) * (float)random.NextDouble());
                return true;
            default:
                VoiceRole role = random.Next(2) == 0 ? VoiceRole.Played : VoiceRole.Sung;
                double from = 60 * Math.Pow(2, 3 * random.NextDouble());
                double to = random.Next(2) == 0 ? from : from * (0.8 + (0.4 * random.NextDouble()));
                return engine.TryPost(PairEvent.Pitch(role, from == to ? PitchPath.Constant(from) : PitchPath.Glide(from, to, 0.1 + (2 * random.NextDouble()))));
        }
    }

    private static int Tell(IAudioLine line, Heard heard, double minutes, int seed, long changes, long refused, long warm, long most, bool ended)
    {
        long growth = most - warm;
        bool good = !ended && heard.NotFinite == 0 && heard.Largest <= 1 && heard.AllocatedBytes == 0 && growth < MostGrowthBytes && heard.Sounding > 0;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{minutes} minutes on {line.Name}, {line.Granted.SampleRateHz} Hz, blocks of {line.Granted.PeriodSamples}, seed {seed}: {changes} changes, {refused} of them refused by a full queue"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"blocks {heard.Blocks}, {100.0 * heard.Sounding / Math.Max(1, heard.Blocks):0} % of them sounding; dropouts {line.DropoutCount}; longest block {1000.0 * heard.LongestTicks / Stopwatch.Frequency:0.00} ms"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"allocated on the sound thread {heard.AllocatedBytes} bytes after the first {Heard.FirstBlocks} blocks; memory alive {warm / 1048576.0:0.0} MB, at most {most / 1048576.0:0.0} MB later"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"largest sample {heard.Largest:0.000}, {heard.NotFinite} no number{(ended ? $"; the line ended: {line.FaultMessage}" : "")}"));
        Console.WriteLine(good ? "1 passed, 0 failed" : "0 passed, 1 failed");
        return good ? 0 : 1;
    }

    /// <summary>What the sound thread does and sees. It allocates nothing of its own.</summary>
    private sealed class Heard(IPairEngine[] engines)
    {
        /// <summary>The runtime compiles in the first ones.</summary>
        public const int FirstBlocks = 1000;

        public volatile int Now;

        public long Blocks { get; private set; }

        public long Sounding { get; private set; }

        public long AllocatedBytes { get; private set; }

        public long NotFinite { get; private set; }

        public float Largest { get; private set; }

        public long LongestTicks { get; private set; }

        public void Fill(Span<float> block)
        {
            long from = Stopwatch.GetTimestamp();
            long before = GC.GetAllocatedBytesForCurrentThread();
            engines[Now].Render(block);
            long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
            float largest = 0;
            foreach (float sample in block)
            {
                NotFinite += float.IsFinite(sample) ? 0 : 1;
                largest = Math.Max(largest, Math.Abs(sample));
            }

            Blocks++;
            Sounding += largest > 1e-4f ? 1 : 0;
            Largest = Math.Max(Largest, largest);
            if (Blocks > FirstBlocks)
            {
                AllocatedBytes += allocated;
                LongestTicks = Math.Max(LongestTicks, Stopwatch.GetTimestamp() - from);
            }
        }
    }
}
