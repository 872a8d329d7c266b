using BrassVox.Analysis.Loudness;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using static BrassVox.Benchmarks.Living.LivingRig;

namespace BrassVox.Benchmarks.Living;

/// <summary>What the depth of coupling does to loudness and to the played pitch, for a fifth and for a major sixth sung.</summary>
internal static class CouplingTable
{
    internal static void Print(VoicePreset voice)
    {
        Console.WriteLine("short-term loudness in LUFS (pitch at which the lips swing, cents from the one asked for) at depths 0 0.1 0.2 0.4 0.6 0.8 1, mf");
        foreach (BrassBore bore in BrassBore.LoadAll(BoresFolder))
        {
            var pair = new LivingPair(bore, voice, 1);
            pair.Prepare(new RenderFormat(RateHz, 256));
            double hz = bore.Slots.First(slot => slot.SoundingHz[2] > 1.3 * bore.LowestHz).SoundingHz[2];
            foreach (double ratio in (ReadOnlySpan<double>)[1.5, 5.0 / 3])
            {
                string row = Text($"  {bore.Id,-14} {hz,6:F1} x {ratio:F2}");
                foreach (float depth in (ReadOnlySpan<float>)[0, 0.1f, 0.2f, 0.4f, 0.6f, 0.8f, 1])
                {
                    pair.CouplingDepth.Target = depth;
                    Render(pair, hz, hz * ratio, 3);
                    var meter = new LoudnessMeter(RateHz, 1);
                    meter.Push(Continue(pair, 3.1));
                    row += Text($" {meter.ShortTermLufs,6:F1} ({1200 * Math.Log2(pair.Read(0).FrequencyHz / hz),5:F1})");
                }

                Console.WriteLine(row);
            }
        }
    }
}
