using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using static BrassVox.Benchmarks.Living.LivingRig;

namespace BrassVox.Benchmarks.Living;

/// <summary>What sounds when the lips are bent off a note while the column stays: slots, and the cracks between them.</summary>
internal static class SlotTable
{
    internal static void Print(VoicePreset voice, StreamWriter? csv)
    {
        csv?.WriteLine("instrument,asked_hz,lip_bend_cents,sounding_cents");
        Console.WriteLine("lips bent by so many cents (rows: instrument and note), cents that sound; x: nothing steady");
        Console.WriteLine("                        -600  -450  -300  -200  -100   -50     0   +50  +100  +200  +300  +450  +600");
        foreach (BrassBore bore in BrassBore.LoadAll(BoresFolder))
        {
            foreach (int number in (ReadOnlySpan<int>)[2, 4, 8])
            {
                ColumnSlot? slot = bore.Slots.FirstOrDefault(slot => slot.Number == number);
                if (slot is null)
                {
                    continue;
                }

                var pair = new LivingPair(bore, voice, 1);
                pair.Prepare(new RenderFormat(RateHz, 256));
                string row = Text($"{bore.Id,-14} {slot.SoundingHz[2],6:F1} Hz");
                foreach (int bend in (ReadOnlySpan<int>)[-600, -450, -300, -200, -100, -50, 0, 50, 100, 200, 300, 450, 600])
                {
                    pair.LipBendCents.Target = bend;
                    double cents = Sounding(pair, slot.SoundingHz[2]);
                    row += double.IsNaN(cents) ? "     x" : Text($"{cents,6:F0}");
                    csv?.WriteLine(Text($"{bore.Id},{slot.SoundingHz[2]:F2},{bend},{cents:F2}"));
                }

                Console.WriteLine(row);
            }
        }
    }

    private static double Sounding(LivingPair pair, double askedHz)
    {
        float[] sound = Render(pair, askedHz, null, 1.4);
        double hz = LineMeter.Repeating(sound.AsSpan(RateHz), RateHz, askedHz / 1.7, askedHz * 1.7);
        return 1200 * Math.Log2(hz / askedHz);
    }
}
