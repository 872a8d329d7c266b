using System.Diagnostics;
using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Soak;

/// <summary>
/// Hours of sound on the sample clock, as fast as the machine goes: <c>soak --hours 24 [SEED]</c>. Two engines are heard by turns, and one
/// tracker listens to all that is heard. Each turn begins with ten changes a second at random for its first quarter; then a known pair is held
/// (at random changes without end the tracker would search all day, and take most of the time). The engine of computed lines renders throughout, the
/// other in its turns alone, 22 s of 40: of 24 h that is 13.2, and 12.4 at 48 kHz are what 32 bits count. At the end the first is given the
/// known pair once more: what has run for a day must still sound it, and the tracker read it, in tune.
/// </summary>
internal static class HoursReport
{
    private const int RateHz = 48000;
    private const int BlocksPerSecond = 100;
    private const int BlocksPerChange = 10;
    private const int BlocksPerRound = 40 * BlocksPerSecond;
    private const int BlocksOfFirst = 18 * BlocksPerSecond;
    private const int WildShare = 4;
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
            int ofRound = (int)(i % BlocksPerRound);
            int heard = ofRound < BlocksOfFirst ? 0 : 1;
            (int ofTurn, int turn) = heard == 0 ? (ofRound, BlocksOfFirst) : (ofRound - BlocksOfFirst, BlocksPerRound - BlocksOfFirst);
            if (ofTurn == turn / WildShare)
            {
                Hold(engines[heard], blocks[heard], (float)random.NextDouble(), Math.Pow(2, (random.NextDouble() - 0.5) / 12));
            }
            else if (ofTurn < turn / WildShare && i % BlocksPerChange == 0)
            {
                SoakReport.Change(engines[random.Next(heard + 1)], random);
            }

            for (int e = 0; e <= heard; e++)
            {
                Render(engines[e], blocks[e], tally, isWarm: i > BlocksPerRound);
            }

            frames.Clear();
            tracker.Push(blocks[heard], frames);
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

    private static void Render(IPairEngine engine, float[] block, Tally tally, bool isWarm)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        engine.Render(block);
        tally.Allocated(isWarm ? GC.GetAllocatedBytesForCurrentThread() - before : 0);
        foreach (float sample in block)
        {
            tally.NotFinite += float.IsFinite(sample) ? 0 : 1;
            tally.Largest = Math.Max(tally.Largest, Math.Abs(sample));
        }
    }

    // How far the pair is off in cents, by the tracker's median of the last second, and the tracker's clock in seconds. NaN: not told.
    private static (double Played, double Sung, double Clock) Last(IPairEngine engine, float[] block, DuetTracker tracker, long blocksBefore)
    {
        Hold(engine, block, coupling: 0, sungRatio: 1);
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

    // The known pair, with everything else as it is when the engine is new.
    private static void Hold(IPairEngine engine, float[] pause, float coupling, double sungRatio)
    {
        foreach (Parameter parameter in engine.Parameters)
        {
            parameter.Target = parameter.Spec.Default;
        }

        Post(engine, pause, PairEvent.Start());
        Post(engine, pause, PairEvent.Coupling(coupling, 0.02f));
        Post(engine, pause, PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(PlayedHz)));
        Post(engine, pause, PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(SungHz * sungRatio)));
        foreach (PairPart part in engine.Parts)
        {
            Post(engine, pause, PairEvent.Gain(part.Index, 0, 0.02f));
        }
    }

    // Where the queue is full a block passes, so that it takes them all.
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
