using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using static BrassVox.Benchmarks.Living.LivingRig;

namespace BrassVox.Benchmarks.Living;

/// <summary>What lips and voice do to each other near unison and octave: where the voice catches the lips, and how they beat outside.</summary>
internal static class CaptureTable
{
    private const double PlayedHz = 116.5409;

    internal static void Print(VoicePreset voice, StreamWriter? csv)
    {
        csv?.WriteLine("case,depth,offset_hz,sounding_minus_alone_hz,beat_hz,envelope_min_db,envelope_max_db");
        BrassBore trombone = BrassBore.LoadAll(BoresFolder).First(bore => bore.Id == "trombone");
        var sound = new LivingSound(trombone, trombone.FindModes(), voice, 1, RateHz);
        Console.WriteLine("trombone Bb2 116.54 Hz at mf; offset of the sung tone in Hz from the pitch that catches best");
        foreach ((string name, double ratio, double colour) in (ReadOnlySpan<(string, double, double)>)
            [("unison (pure voice)", 1, 0), ("unison (vowel)", 1, 1), ("octave above (vowel)", 2, 1), ("octave below (vowel)", 0.5, 1)])
        {
            Console.WriteLine(name);
            Console.WriteLine("  depth  voice Pa  lock Hz  (cents)  centre c   beat / sqrt(offset^2 - lock^2) at 1.15 1.3 1.6 2 3 4 locks");
            foreach (float depth in (ReadOnlySpan<float>)[0.1f, 0.2f, 0.4f, 0.7f, 1f])
            {
                PrintOne(sound, name, ratio, depth, colour, csv);
            }
        }
    }

    private static void PrintOne(LivingSound sound, string name, double ratio, float depth, double colour, StreamWriter? csv)
    {
        // All in terms of the played pitch: the sung offset divided by the ratio.
        double above = Edge(sound, ratio, depth, colour, +1);
        double below = Edge(sound, ratio, depth, colour, -1);
        double centre = 0.5 * (above + below);
        double half = 0.5 * (above - below);
        List<string> laws = [];
        if (half > 0.01)
        {
            foreach (double times in (ReadOnlySpan<double>)[1.15, 1.3, 1.6, 2, 3, 4])
            {
                double offset = times * half;
                double law = Math.Sqrt((offset * offset) - (half * half));
                double up = Math.Abs(CaptureRun.Measure(sound, PlayedHz, ratio, centre + offset, depth, colour, 60).BeatHz);
                double down = Math.Abs(CaptureRun.Measure(sound, PlayedHz, ratio, centre - offset, depth, colour, 60).BeatHz);
                laws.Add(Text($"{down / law:F2}/{up / law:F2}"));
            }
        }

        double voicePa = LivingSound.DeepestVoice * depth * BlowingState.At(0.5).MouthPressurePa;
        Console.WriteLine(Text($"  {depth,5:F2} {voicePa,9:F0} {half * ratio,8:F3} {1200 * Math.Log2(1 + (half / PlayedHz)),8:F2} {1200 * Math.Log2(1 + (centre / PlayedHz)),9:F2}   {string.Join(' ', laws)}"));
        if (csv is not null)
        {
            for (int i = -20; i <= 20; i++)
            {
                double offset = 0.15 * i * (1 + (0.03 * Math.Abs(i)));
                CaptureRun run = CaptureRun.Measure(sound, PlayedHz, ratio, offset, depth, colour, 6);
                csv.WriteLine(Text($"{name},{depth:F2},{offset * ratio:F4},{offset + run.BeatHz:F4},{Math.Abs(run.BeatHz):F4},{run.LowDb:F2},{run.HighDb:F2}"));
            }
        }
    }

    // Offset of the played pitch at which the voice just loses the lips, by halving.
    private static double Edge(LivingSound sound, double ratio, double depth, double colour, int sign)
    {
        double inside = double.NaN;
        foreach (double start in (ReadOnlySpan<double>)[0, 0.03, -0.03, 0.1, -0.1, 0.3, -0.3])
        {
            if (IsCaught(sound, ratio, start, depth, colour))
            {
                inside = start;
                break;
            }
        }

        if (double.IsNaN(inside))
        {
            return 0;
        }

        double outside = inside + (4 * sign);
        while (Math.Abs(outside - inside) > 0.001)
        {
            double middle = 0.5 * (inside + outside);
            (inside, outside) = IsCaught(sound, ratio, middle, depth, colour) ? (middle, outside) : (inside, middle);
        }

        return 0.5 * (inside + outside);
    }

    private static bool IsCaught(LivingSound sound, double ratio, double offset, double depth, double colour) =>
        CaptureRun.Measure(sound, PlayedHz, ratio, offset, depth, colour, 40).IsCaught;
}
