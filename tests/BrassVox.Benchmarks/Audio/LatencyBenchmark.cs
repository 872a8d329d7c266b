using System.Diagnostics;
using System.Globalization;
using BrassVox.Audio;

namespace BrassVox.Benchmarks.Audio;

/// <summary>
/// How long a sound takes from the callback that makes it to the callback that hears it again, through the default
/// device and back: with a real card by a cable from output to input, with the private server through the sink's monitor.
/// <c>latency [SECONDS] [PERIODxPERIODS ...]</c>; the defaults are 5 and 128x4 256x3 256x4 512x4 1024x4.
/// </summary>
internal static class LatencyBenchmark
{
    private const int PulseEverySamples = 12000;
    private const int WarmUpPulses = 2;

    internal static int Run(string[] arguments)
    {
        int seconds = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 5;
        string[] sizes = arguments.Length > 1 ? arguments[1..] : ["128x4", "256x3", "256x4", "512x4", "1024x4"];
        Console.WriteLine("asked     granted   buffer ms  round trip ms (median, 90 %, max)  pulses  dropouts out, in  longest gap out, in ms  priority");
        foreach (string size in sizes)
        {
            int[] parts = [.. size.Split('x').Select(part => int.Parse(part, CultureInfo.InvariantCulture))];
            if (!Measure(size, new LineRequest(Channels: 1, PeriodSamples: parts[0], Periods: parts[1]), seconds))
                return 4;
        }

        return 0;
    }

    private static bool Measure(string size, LineRequest request, int seconds)
    {
        var sent = new long[seconds * 10];
        var heard = new long[seconds * 10];
        int sentCount = 0;
        int heardCount = 0;
        long played = 0;
        long quietSamples = PulseEverySamples;
        long lastFill = 0;
        long lastTake = 0;
        long longestFill = 0;
        long longestTake = 0;
        int rateHz = request.SampleRateHz;
        var system = new AudioSystem();
        LineOpening output = system.OpenOutput(request, block =>
        {
            long now = Stopwatch.GetTimestamp();
            longestFill = Math.Max(longestFill, lastFill == 0 ? 0 : now - lastFill);
            lastFill = now;
            block.Clear();
            for (int i = 0; i < block.Length; i++, played++)
            {
                if (played % PulseEverySamples != PulseEverySamples - 1 || sentCount == sent.Length)
                    continue;
                block[i] = 0.5f;
                sent[sentCount++] = now;
            }
        });
        LineOpening input = system.OpenInput(request, block =>
        {
            long now = Stopwatch.GetTimestamp();
            longestTake = Math.Max(longestTake, lastTake == 0 ? 0 : now - lastTake);
            lastTake = now;
            for (int i = 0; i < block.Length; i++, quietSamples++)
            {
                if (Math.Abs(block[i]) < 0.1f || quietSamples < PulseEverySamples / 2 || heardCount == heard.Length)
                    continue;
                heard[heardCount++] = now;
                quietSamples = 0;
            }
        });
        if (!output.IsDevice || !input.IsDevice)
        {
            Console.Error.WriteLine(output.Message ?? input.Message);
            return false;
        }

        input.Line.Start();
        output.Line.Start();
        Thread.Sleep(TimeSpan.FromSeconds(seconds));
        output.Line.StopAsync().GetAwaiter().GetResult();
        input.Line.StopAsync().GetAwaiter().GetResult();

        int pairs = Math.Min(sentCount, heardCount);
        double[] tripsMs = [.. Enumerable.Range(0, pairs).Skip(WarmUpPulses)
            .Select(i => (heard[i] - sent[i]) * 1000.0 / Stopwatch.Frequency).Order()];
        LineFormat granted = output.Line.Granted;
        string trips = tripsMs.Length == 0
            ? "nothing came back"
            : string.Create(CultureInfo.InvariantCulture, $"{tripsMs[tripsMs.Length / 2],8:0.0} {tripsMs[tripsMs.Length * 9 / 10],8:0.0} {tripsMs[^1],8:0.0}");
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{size,-9} {granted.PeriodSamples + "x" + granted.Periods,-9} {granted.BufferMs,9:0.0}  {trips,-34} {tripsMs.Length,7}  {output.Line.DropoutCount,12}, {input.Line.DropoutCount,-3} {Ms(longestFill),12:0.0}, {Ms(longestTake),-7:0.0} {((PcmLine)output.Line).Priority}"));
        return rateHz == granted.SampleRateHz || tripsMs.Length > 0;
    }

    private static double Ms(long ticks) => ticks * 1000.0 / Stopwatch.Frequency;
}
