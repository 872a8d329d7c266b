using System.Diagnostics;
using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Soak;

/// <summary>
/// Hours of sound on the sample clock, as fast as the machine goes: <c>soak --hours 24 [SEED]</c>. Both engines render all of it, with ten
/// changes a second at random; they are heard by turns, and one tracker listens to all that is heard. At the end the engine of
/// computed lines is given a known pair: what has run for a day must still sound it, and the tracker read it, in tune. More than 12.4 h at 48 kHz go beyond what 32 bits count.
/// </summary>
internal static class HoursReport
{
    private const int RateHz = 48000;
    private const int BlocksPerSecond = 100;
    private const int BlocksPerChange = 10;
    private const int BlocksPerTurn = 20 * BlocksPerSecond;
    private const int BlocksPerLook = 60 * BlocksPerSecond;
    private const int BlocksPerHour = 3600 * BlocksPerSecond;
    private const int LastSeconds = 5;
    private const double WarmUpShare = 0.1;
    private const long MostGrowthBytes = 8 << 20;
    private const double PlayedHz = 116.541;
    private const double SungHz = 174.614;
    private const double MostOffCents = 5;

    public static int Run(string[] arguments)
    {
        double hours = arguments.Length > 0 ? double.Parse(arguments[0], CultureInfo.InvariantCulture) : 24;
        int seed = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 1;
        IPairEngine[] engines = SoakReport.Engines(seed);
        var tracker = new DuetTracker(RateHz, DuetPrior.Held(PlayedHz, SungHz));
        var random = new Random(seed);
        var tally = new Tally();
        var clock = Stopwatch.StartNew();
        float[][] blocks = [.. engines.Select(_ => new float[RateHz / BlocksPerSecond])];
        List<AnalysisFrame> frames = [];
        long count = (long)(hours * 3600 * BlocksPerSecond);
        long warm = 0;
        long most = 0;
        for (long i = 0; i < count; i++)
        {
            if (i % BlocksPerChange == 0)
            {
                SoakReport.Change(engines[random.Next(engines.Length)], random);
            }

            Render(engines, blocks, tally, isWarm: i > 1000);
            frames.Clear();
            tracker.Push(blocks[i / BlocksPerTurn % engines.Length], frames);
            tally.Count(frames);
            if (i % BlocksPerLook == 0)
            {
                long alive = GC.GetTotalMemory(forceFullCollection: true);
                bool isWarm = i > count * WarmUpShare;
                warm = isWarm ? warm : alive;
                most = isWarm ? Math.Max(most, alive) : 0;
                if (i % BlocksPerHour == 0)
                {
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"after {i / BlocksPerHour} h ({clock.Elapsed.TotalMinutes:0} min): {tally.AllocatedBytes} bytes by rendering, {alive / 1048576.0:0.0} MB alive, largest sample {tally.Largest:0.000}"));
                }
            }
        }

        (double Played, double Sung, double Clock) off = Last(engines[0], blocks[0], tracker, count);
        return Tell(hours, seed, clock.Elapsed, tally, warm, most, off);
    }

    private static void Render(IPairEngine[] engines, float[][] blocks, Tally tally, bool isWarm)
    {
        for (int e = 0; e < engines.Length; e++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            engines[e].Render(blocks[e]);
            tally.Allocated(isWarm ? GC.GetAllocatedBytesForCurrentThread() - before : 0);
            foreach (float sample in blocks[e])
            {
                tally.NotFinite += float.IsFinite(sample) ? 0 : 1;
                tally.Largest = Math.Max(tally.Largest, Math.Abs(sample));
            }
        }
    }

    // How far the pair is off in cents, by the tracker's median of the last second, and the tracker's clock in seconds. NaN: not told.
    private static (double Played, double Sung, double Clock) Last(IPairEngine engine, float[] block, DuetTracker tracker, long blocksBefore)
    {
        foreach (Parameter parameter in engine.Parameters)
        {
            parameter.Target = parameter.Spec.Default;
        }

        // A moment between, so that the queue takes them all.
        float[] pause = new float[block.Length];
        Post(engine, pause, PairEvent.Start());
        Post(engine, pause, PairEvent.Coupling(0, 0.02f));
        Post(engine, pause, PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(PlayedHz)));
        Post(engine, pause, PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(SungHz)));
        foreach (PairPart part in engine.Parts)
        {
            Post(engine, pause, PairEvent.Gain(part.Index, 0, 0.02f));
        }

        List<AnalysisFrame> frames = [];
        for (int i = 0; i < LastSeconds * BlocksPerSecond; i++)
        {
            engine.Render(block);
            tracker.Push(block, frames);
        }

        double end = ((double)blocksBefore / BlocksPerSecond) + LastSeconds;
        AnalysisFrame[] last = [.. frames.Where(frame => frame.CentreSeconds > end - 1)];
        return (
            Off(last.Select(frame => frame.Played), PlayedHz),
            Off(last.Select(frame => frame.Sung), SungHz),
            frames.Count > 0 ? end - frames[^1].CentreSeconds : double.NaN);
    }

    private static void Post(IPairEngine engine, float[] pause, PairEvent pairEvent)
    {
        while (!engine.TryPost(pairEvent))
        {
            engine.Render(pause);
        }
    }

    private static double Off(IEnumerable<PitchEstimate?> told, double hz)
    {
        double[] cents = [.. told.OfType<PitchEstimate>().Select(pitch => 1200 * Math.Log2(pitch.FrequencyHz / hz)).Order()];
        return cents.Length == 0 ? double.NaN : cents[cents.Length / 2];
    }

    private static int Tell(double hours, int seed, TimeSpan took, Tally tally, long warm, long most, (double Played, double Sung, double Clock) off)
    {
        bool good = tally.NotFinite == 0 && tally.OddFrames == 0 && tally.Largest <= 1 && tally.AllocatedBytes == 0 && most - warm < MostGrowthBytes
            && Math.Abs(off.Played) < MostOffCents && Math.Abs(off.Sung) < MostOffCents && off.Clock is > 0 and < 1;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{hours} h on the sample clock in {took.TotalMinutes:0.0} min, seed {seed}: two engines, {tally.Frames} frames, {100.0 * tally.Told / Math.Max(1, tally.Frames):0} % of them with both pitches"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"allocated by rendering {tally.AllocatedBytes} bytes in {tally.AllocatingBlocks} blocks; memory alive {warm / 1048576.0:0.0} MB, at most {most / 1048576.0:0.0} MB later"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"largest sample {tally.Largest:0.000}, {tally.NotFinite} no number; {tally.OddFrames} frames with a pitch that is no number or out of order"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"at the end: played {off.Played:+0.0;-0.0;0.0} c, sung {off.Sung:+0.0;-0.0;0.0} c, last frame {off.Clock:0.00} s before the end"));
        Console.WriteLine(good ? "1 passed, 0 failed" : "0 passed, 1 failed");
        return good ? 0 : 1;
    }

    private sealed class Tally
    {
        private long _last = long.MinValue;

        public long AllocatedBytes { get; private set; }

        public long AllocatingBlocks { get; private set; }

        public long NotFinite { get; set; }

        public float Largest { get; set; }

        public long Frames { get; private set; }

        public long Told { get; private set; }

        public long OddFrames { get; private set; }

        public void Allocated(long bytes)
        {
            AllocatedBytes += bytes;
            AllocatingBlocks += bytes > 0 ? 1 : 0;
        }

        public void Count(List<AnalysisFrame> frames)
        {
            foreach (AnalysisFrame frame in frames)
            {
                bool isOdd = frame.FirstSample <= _last || IsOdd(frame.Played) || IsOdd(frame.Sung) || !double.IsFinite(frame.LevelDbfs);
                _last = frame.FirstSample;
                OddFrames += isOdd ? 1 : 0;
                Told += frame is { Played: not null, Sung: not null } ? 1 : 0;
                Frames++;
            }
        }

        private static bool IsOdd(PitchEstimate? pitch) => pitch is { } told && !(double.IsFinite(told.FrequencyHz) && told.FrequencyHz > 0);
    }
}
