namespace BrassVox.Synthesis;

/// <summary>What a preset has to hold beyond its types. Each check returns the place and what is wrong there, or null.</summary>
internal static class TonePresetChecks
{
    private const int MostVowels = 16;

    internal static string? Check(BrassPreset preset)
    {
        if (Head(preset.FormatVersion, preset.Id, preset.Name, preset.Source, preset.LowestHz, preset.HighestHz) is { } complaint)
        {
            return complaint;
        }

        if (!InRange(preset.BellDiameterMm, 20, 1500))
        {
            return "$.bellDiameterMm: lies from 20 to 1500 mm";
        }

        if (preset.LipOpening.Count is < 1 or > BrassTone.MostOpeningPartials || preset.LipOpening[0] != 1 || preset.LipOpening.Any(amplitude => !InRange(amplitude, -1, 1)))
        {
            return $"$.lipOpening: 1 to {BrassTone.MostOpeningPartials} amplitudes from -1 to 1, the first of them 1";
        }

        if (!InRange(preset.SlopeAboveCutoffDbPerOctave, 6, 60))
        {
            return "$.slopeAboveCutoffDbPerOctave: lies from 6 to 60 dB per octave";
        }

        if (!InRange(preset.CutoffHz, 50, 5000))
        {
            return "$.cutoffHz: lies from 50 to 5000 Hz";
        }

        if (!InRange(preset.BrighteningDbPerOctave, 0, 2))
        {
            return "$.brighteningDbPerOctave: lies from 0 to 2 dB per octave for each dB";
        }

        if (!InRange(preset.Attack.RiseMs, 1, 500) || !InRange(preset.Attack.SpreadMs, 0, 200))
        {
            return "$.attack: riseMs lies from 1 to 500, spreadMs from 0 to 200";
        }

        if (!InRange(preset.Attack.ScoopCents, 0, 200) || !InRange(preset.Attack.ScoopMs, 1, 200))
        {
            return "$.attack: scoopCents and scoopMs lie from 0 and 1 to 200";
        }

        if (!InRange(preset.DriftCents, 0, 50))
        {
            return "$.driftCents: lies from 0 to 50 cents";
        }

        if (!InRange(preset.BreathNoiseDb, -100, -10))
        {
            return "$.breathNoiseDb: lies from -100 to -10 dB";
        }

        if (preset.Spectra.Count == 0)
        {
            return "$.spectra: holds at least one note";
        }

        for (int i = 0; i < preset.Spectra.Count; i++)
        {
            PlayedSpectrum note = preset.Spectra[i];
            if (!InRange(note.FrequencyHz, 10, 5000) || (i > 0 && note.FrequencyHz <= preset.Spectra[i - 1].FrequencyHz))
            {
                return $"$.spectra[{i}].frequencyHz: lies from 10 to 5000 Hz and rises from note to note";
            }

            if (note.LevelsDb.Count is < 1 or > 64 || note.LevelsDb.Any(level => !InRange(level, -120, 0)))
            {
                return $"$.spectra[{i}].levelsDb: 1 to 64 levels from -120 to 0 dB";
            }

            if (!InRange(note.SixDbDownHz, note.FrequencyHz * 0.99, 24000) || !InRange(note.TwentyDbDownHz, note.SixDbDownHz, 24000))
            {
                return $"$.spectra[{i}]: sixDbDownHz and twentyDbDownHz rise from the fundamental to at most 24000 Hz";
            }
        }

        return null;
    }

    internal static string? Check(VoicePreset preset)
    {
        if (Head(preset.FormatVersion, preset.Id, preset.Name, preset.Source, preset.LowestHz, preset.HighestHz) is { } complaint)
        {
            return complaint;
        }

        if (!InRange(preset.ChestRd, 0.3, 2.7))
        {
            return "$.chestRd: lies from 0.3 to 2.7";
        }

        if (!InRange(preset.FalsettoRd, 0.3, 2.7))
        {
            return "$.falsettoRd: lies from 0.3 to 2.7";
        }

        if (!InRange(preset.VibratoHz, 5, 7))
        {
            return "$.vibratoHz: lies from 5 to 7 Hz";
        }

        if (!InRange(preset.JitterPercent, 0, 5) || !InRange(preset.ShimmerPercent, 0, 20) || !InRange(preset.DriftCents, 0, 50))
        {
            return "$: jitterPercent lies from 0 to 5, shimmerPercent from 0 to 20, driftCents from 0 to 50";
        }

        if (preset.Vowels.Count == 0 || !preset.Vowels.Any(vowel => string.Equals(vowel.Name, preset.DefaultVowel, StringComparison.Ordinal)))
        {
            return "$.defaultVowel: names one of the vowels";
        }

        if (preset.Vowels.Count > MostVowels)
        {
            return $"$.vowels: at most {MostVowels}";
        }

        for (int i = 0; i < preset.Vowels.Count; i++)
        {
            IReadOnlyList<Formant> formants = preset.Vowels[i].Formants;
            if (formants.Count != 5)
            {
                return $"$.vowels[{i}].formants: holds five";
            }

            for (int k = 0; k < formants.Count; k++)
            {
                Formant formant = formants[k];
                if (!InRange(formant.FrequencyHz, 100, 10000) || !InRange(formant.LevelDb, -100, 0) || !InRange(formant.BandwidthHz, 10, 1000)
                    || (k > 0 && formant.FrequencyHz <= formants[k - 1].FrequencyHz))
                {
                    return $"$.vowels[{i}].formants[{k}]: frequencyHz 100 to 10000 and rising, levelDb -100 to 0, bandwidthHz 10 to 1000";
                }
            }
        }

        return null;
    }

    private static string? Head(int formatVersion, string id, string name, string source, double lowestHz, double highestHz) =>
        formatVersion != 1 ? "$.formatVersion: is 1"
        : string.IsNullOrWhiteSpace(id) ? "$.id: is not empty"
        : string.IsNullOrWhiteSpace(name) ? "$.name: is not empty"
        : string.IsNullOrWhiteSpace(source) ? "$.source: is not empty"
        : !InRange(lowestHz, 10, 5000) ? "$.lowestHz: lies from 10 to 5000 Hz"
        : !InRange(highestHz, lowestHz, 5000) ? "$.highestHz: lies from lowestHz to 5000 Hz"
        : null;

    private static bool InRange(double value, double low, double high) => value >= low && value <= high;
}
