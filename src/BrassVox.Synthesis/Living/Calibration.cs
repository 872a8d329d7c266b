namespace BrassVox.Synthesis.Living;

/// <summary>
/// Finds the slots of an instrument: for each harmonic a tuning of the lips at which the note sits well on its resonance at every loudness, and
/// the pitch that sounds then. Because playing the whole system faster transposes it exactly, this table is all that tuning needs.
/// </summary>
internal static class Calibration
{
    /// <summary>Where a note should lie above its resonance: players were measured about 1.1 % above (Boutin, Fletcher, Smith and Wolfe, J. Acoust. Soc. Am. 137, 2015).</summary>
    internal const double AboveResonance = 1.016;

    /// <summary>Where a pedal, which has no resonance of its own, should lie beside the nominal pitch.</summary>
    internal const double BesidePedal = 0.985;

    private const double ShortestSettleSeconds = 0.7;
    private const double SettlePeriods = 60;
    private const double MostDb = 34;

    /// <summary>The slots from the pedal to the top of the usual range.</summary>
    internal static List<ColumnSlot> Run(BrassBore bore, ColumnMode[] modes)
    {
        double nominal = modes[1].Pole.Imaginary / (4 * Math.PI);
        List<ColumnSlot> slots = [];
        for (int number = 1; ; number++)
        {
            double resonance = modes[number - 1].Pole.Imaginary / (2 * Math.PI);
            bool pedal = Math.Abs((resonance / (number * nominal)) - 1) > 0.09;
            double expected = pedal ? number * nominal * BesidePedal : resonance * AboveResonance;
            if (FindSlot(bore, modes, number, expected, pedal) is { } slot)
            {
                slots.Add(slot);
            }

            if (resonance >= bore.HighestHz)
            {
                return slots;
            }
        }
    }

    private static ColumnSlot? FindSlot(BrassBore bore, ColumnMode[] modes, int number, double expected, bool pedal)
    {
        // Lip tunings to try, in units of the pitch expected, with the pitch that each gives at mf.
        double lowest = Math.Max(0.6, 1 - (1.2 / number));
        List<(double Lip, double Off)> candidates = [];
        for (double ratio = pedal ? 0.8 : lowest; ratio < 1.02; ratio += 0.01)
        {
            SteadyTone tone = SteadyTone.Measure(modes, bore, ratio * expected, BlowingState.At(0.5), expected, 0.35, 0.25);
            double off = (tone.FrequencyHz / expected) - 1;
            if (Math.Abs(off) < (pedal ? 0.03 : 0.011) && Math.Abs(tone.DriftCents) < 20)
            {
                candidates.Add((ratio * expected, Math.Abs(off)));
            }
        }

        foreach ((double lip, _) in candidates.OrderBy(candidate => candidate.Off))
        {
            if (Measure(bore, modes, number, lip, expected) is { } slot)
            {
                return slot;
            }
        }

        return null;
    }

    private static ColumnSlot? Measure(BrassBore bore, ColumnMode[] modes, int number, double lipHz, double expected)
    {
        var sounding = new double[BlowingState.Marks.Length];
        var loudness = new double[sounding.Length];
        for (int i = 0; i < sounding.Length; i++)
        {
            SteadyTone tone = SteadyTone.Measure(modes, bore, lipHz, BlowingState.Marks[i], expected, Math.Max(ShortestSettleSeconds, SettlePeriods / expected), 0.6);
            if (Math.Abs((tone.FrequencyHz / expected) - 1) > 0.04 || Math.Abs(tone.DriftCents) > 0.3 || (i > 0 && tone.LoudnessDb > loudness[0] + MostDb))
            {
                return null;
            }

            sounding[i] = Math.Round(tone.FrequencyHz, 4);
            loudness[i] = Math.Round(tone.LoudnessDb, 2);
        }

        return new ColumnSlot(number, Math.Round(lipHz, 3), sounding, loudness);
    }
}
