using System.Diagnostics;
using BrassVox.Analysis;

namespace BrassVox.Benchmarks.Streaming;

/// <summary>What the tracker costs while it listens: processor time, and the slowest block, at 100 frames a second.</summary>
/// <remarks>The pair is made here: two harmonic tones whose pitch wanders, in noise. Blocks of 10 ms, as a sound device gives them.</remarks>
internal static class StreamingBenchmark
{
    private const int RateHz = 48_000;
    private const double Seconds = 20.0;

    public static int Run()
    {
        Console.WriteLine($"{Seconds:0} s in blocks of 10 ms at {RateHz} Hz. Share of one core; slowest block; frames a second. Aim: under 10 %.");
        foreach ((string name, double playedHz, double sungHz) in new[] { ("Bb1+F2", 58.27, 87.3), ("Bb2+F3", 116.54, 174.6), ("F3+A4", 174.6, 440.0) })
        {
            float[] sound = Sound(playedHz, sungHz);
            Measure($"{name}, held", sound, DuetPrior.Held(playedHz, sungHz));
            Measure($"{name}, sung moves", sound, new DuetPrior(playedHz, sungHz, SungMoves: true));
            Measure($"{name}, free", sound, DuetPrior.Free);
            Measure($"{name}, held, silent", Noise(), DuetPrior.Held(playedHz, sungHz));
        }

        return 0;
    }

    private static void Measure(string name, float[] sound, DuetPrior prior)
    {
        DuetTracker tracker = new(RateHz, prior);
        List<AnalysisFrame> frames = [];
        int block = RateHz / 100;
        Feed(RateHz * 2);
        tracker.Reset();
        frames.Clear();
        long slowest = 0;
        TimeSpan start = Environment.CpuUsage.TotalTime;
        Feed(sound.Length);
        double spent = (Environment.CpuUsage.TotalTime - start).TotalSeconds;
        Console.WriteLine(FormattableString.Invariant(
            $"{name,-22}{100.0 * spent / Seconds,7:0.0} %{1000.0 * slowest / Stopwatch.Frequency,9:0.0} ms{frames.Count / Seconds,8:0}"));

        void Feed(int length)
        {
            slowest = 0;
            for (int i = 0; i + block <= length; i += block)
            {
                long before = Stopwatch.GetTimestamp();
                tracker.Push(sound.AsSpan(i, block), frames);
                slowest = Math.Max(slowest, Stopwatch.GetTimestamp() - before);
            }
        }
    }

    // A room while nobody plays.
    private static float[] Noise()
    {
        Random random = new(1);
        return [.. Enumerable.Range(0, (int)(Seconds * RateHz)).Select(_ => (float)(0.01 * (random.NextDouble() - 0.5)))];
    }

    private static float[] Sound(double playedHz, double sungHz)
    {
        Random random = new(1);
        float[] sound = new float[(int)(Seconds * RateHz)];
        double played = 0.0;
        double sung = 0.0;
        for (int i = 0; i < sound.Length; i++)
        {
            double t = (double)i / RateHz;
            double sum = 0.01 * (random.NextDouble() - 0.5);
            for (int k = 1; k <= 15; k++)
            {
                sum += (0.1 / k * Math.Cos((2.0 * Math.PI * k * played) + (k * k))) + (0.08 / k * Math.Cos((2.0 * Math.PI * k * sung) + (1.7 * k * k)));
            }

            sound[i] = (float)sum;
            played += playedHz * (1.0 + (0.001 * Math.Sin(2.0 * Math.PI * 0.7 * t))) / RateHz;
            sung += sungHz * (1.0 + (0.005 * Math.Sin(2.0 * Math.PI * 2.3 * t))) / RateHz;
        }

        return sound;
    }
}
