using System.Diagnostics;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using static BrassVox.Benchmarks.Living.LivingRig;

namespace BrassVox.Benchmarks.Living;

/// <summary>How many times faster than real time the living pair renders on one core.</summary>
internal static class SpeedTable
{
    internal static void Print(VoicePreset voice)
    {
        Console.WriteLine("speed at 48 kHz, one core, coupled at depth 0.6, best of five times 8 s, processor time and wall clock");
        foreach (BrassBore bore in BrassBore.LoadAll(BoresFolder))
        {
            var pair = new LivingPair(bore, voice, 1);
            pair.CouplingDepth.Target = 0.6f;
            var load = Stopwatch.StartNew();
            pair.Prepare(new RenderFormat(RateHz, 256));
            double loadMs = load.Elapsed.TotalMilliseconds;
            double hz = Math.Sqrt(bore.LowestHz * bore.HighestHz);
            (double wall, double processor) = Times(pair, hz, hz * 1.5);
            (double topWall, double topProcessor) = Times(pair, bore.HighestHz, bore.HighestHz * 0.7);
            Console.WriteLine(Text($"  {bore.Id,-16} {processor,6:F0} (wall {wall:F0}) x real time at {hz:F0} Hz, {topProcessor,6:F0} (wall {topWall:F0}) x at {bore.HighestHz:F0} Hz; modes found in {loadMs:F0} ms"));
        }
    }

    // Best of five, by the wall clock and by the processor's time of this process (others share the machine).
    private static (double Wall, double Processor) Times(LivingPair pair, double playedHz, double sungHz)
    {
        const double Seconds = 8;
        double wall = 0;
        double processor = 0;
        using var self = Process.GetCurrentProcess();
        for (int i = 0; i < 5; i++)
        {
            self.Refresh();
            TimeSpan before = self.TotalProcessorTime;
            var watch = Stopwatch.StartNew();
            Render(pair, playedHz, sungHz, Seconds);
            wall = Math.Max(wall, Seconds / watch.Elapsed.TotalSeconds);
            self.Refresh();
            processor = Math.Max(processor, Seconds / (self.TotalProcessorTime - before).TotalSeconds);
        }

        return (wall, processor);
    }
}
