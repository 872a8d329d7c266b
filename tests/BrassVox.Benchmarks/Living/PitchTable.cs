using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using static BrassVox.Benchmarks.Living.LivingRig;

namespace BrassVox.Benchmarks.Living;

/// <summary>Pitch error and time to speak over the usual range of each instrument, at pp, mf and ff.</summary>
internal static class PitchTable
{
    internal static void Print(VoicePreset voice, StreamWriter? csv)
    {
        csv?.WriteLine("instrument,dynamic,asked_hz,error_cents,speaks_ms,loudness_dbfs");
        Console.WriteLine("pitch error against the note asked for, every semitone of the usual range, breath noise as by default");
        Console.WriteLine("instrument       dynamic  notes  median c   worst c   at Hz  speaks ms (median, worst)");
        foreach (BrassBore bore in BrassBore.LoadAll(BoresFolder))
        {
            foreach ((string name, float dynamic) in (ReadOnlySpan<(string, float)>)[("pp", 0f), ("mf", 0.5f), ("ff", 1f)])
            {
                PrintOne(bore, voice, name, dynamic, csv);
            }
        }
    }

    private static void PrintOne(BrassBore bore, VoicePreset voice, string name, float dynamic, StreamWriter? csv)
    {
        var pair = new LivingPair(bore, voice, 1);
        pair.Dynamic.Target = dynamic;
        pair.Prepare(new RenderFormat(RateHz, 256));
        List<double> errors = [];
        List<double> speaks = [];
        double worst = 0;
        double worstHz = 0;
        for (double hz = bore.LowestHz; hz < bore.HighestHz * 1.01; hz *= Math.Pow(2, 1 / 12.0))
        {
            float[] sound = Render(pair, hz, null, 1.4);
            double off = LineMeter.OffCents(sound.AsSpan(RateHz * 8 / 10), RateHz, hz);
            double speaksMs = SpeaksMs(sound, hz);
            double level = 0;
            foreach (float sample in sound.AsSpan(RateHz * 8 / 10))
            {
                level += sample * sample;
            }

            csv?.WriteLine(Text($"{bore.Id},{name},{hz:F3},{off:F3},{speaksMs:F0},{10 * Math.Log10(level / (0.6 * RateHz)):F2}"));
            errors.Add(Math.Abs(off));
            speaks.Add(speaksMs);
            if (!(Math.Abs(off) <= worst))
            {
                (worst, worstHz) = (Math.Abs(off), hz);
            }
        }

        errors.Sort();
        speaks.Sort();
        Console.WriteLine(Text($"{bore.Id,-16} {name,-7} {errors.Count,6} {errors[errors.Count / 2],9:F3} {worst,9:F3} {worstHz,7:F1} {speaks[speaks.Count / 2],7:F0} {speaks[^1],7:F0}"));
    }

    // Time until the level has come within 3 dB of where it stays.
    private static double SpeaksMs(ReadOnlySpan<float> sound, double hz)
    {
        int window = (int)Math.Max(RateHz / 50, 2 * RateHz / hz);
        double end = Power(sound[^(RateHz / 2)..]);
        int last = 0;
        for (int at = 0; at + window < sound.Length; at += RateHz / 200)
        {
            if (Power(sound.Slice(at, window)) < 0.35 * end)
            {
                last = at + window;
            }
            else if (at > last + (RateHz / 10))
            {
                break;
            }
        }

        return 1000.0 * last / RateHz;
    }

    private static double Power(ReadOnlySpan<float> sound)
    {
        double sum = 0;
        foreach (float sample in sound)
        {
            sum += (double)sample * sample;
        }

        return sum / sound.Length;
    }
}
