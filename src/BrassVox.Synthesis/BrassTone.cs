namespace BrassVox.Synthesis;

/// <summary>Amplitudes of a brass tone's partials over its range, from measured notes: between two notes by harmonic number, outside them by frequency.</summary>
internal sealed class BrassTone
{
    /// <summary>Most partials of a tone.</summary>
    internal const int MostPartials = 160;

    /// <summary>Most partials of the lips' opening.</summary>
    internal const int MostOpeningPartials = 24;

    private const int LowestMidi = 12;
    private const int HighestMidi = 108;
    private const double FloorDb = -90;

    // 80 dB below the strongest partial.
    private const float Inaudible = 1e-4f;
    private readonly float[] _amplitudes = new float[(HighestMidi - LowestMidi + 1) * MostPartials];
    private readonly BrassPreset _preset;

    internal BrassTone(BrassPreset preset)
    {
        _preset = preset;
        for (int midi = LowestMidi; midi <= HighestMidi; midi++)
        {
            double hz = 440 * double.Exp2((midi - 69) / 12.0);
            for (int k = 1; k <= MostPartials; k++)
            {
                double level = LevelDb(hz, k);
                _amplitudes[((midi - LowestMidi) * MostPartials) + k - 1] = level < FloorDb ? 0 : (float)Math.Pow(10, level / 20);
            }
        }
    }

    /// <summary>Level of a harmonic in dB relative to the strongest of the measured note, at any pitch.</summary>
    internal double LevelDb(double fundamentalHz, int harmonic)
    {
        IReadOnlyList<PlayedSpectrum> notes = _preset.Spectra;
        if (fundamentalHz <= notes[0].FrequencyHz)
        {
            return EnvelopeDb(notes[0], fundamentalHz * harmonic);
        }

        if (fundamentalHz >= notes[^1].FrequencyHz)
        {
            return EnvelopeDb(notes[^1], fundamentalHz * harmonic);
        }

        int upper = 1;
        while (notes[upper].FrequencyHz < fundamentalHz)
        {
            upper++;
        }

        PlayedSpectrum a = notes[upper - 1];
        PlayedSpectrum b = notes[upper];
        double part = Math.Log(fundamentalHz / a.FrequencyHz) / Math.Log(b.FrequencyHz / a.FrequencyHz);
        return ((1 - part) * EnvelopeDb(a, a.FrequencyHz * harmonic)) + (part * EnvelopeDb(b, b.FrequencyHz * harmonic));
    }

    /// <summary>Fills amplitudes of the partials at a pitch, in linear units relative to the strongest; returns how many there are below a limit.</summary>
    /// <param name="fundamentalHz">Pitch.</param>
    /// <param name="dynamicDb">Dynamic in dB: above half the cut-off the spectrum tilts with it; the level itself is the caller's.</param>
    /// <param name="limitHz">No partial at or above it.</param>
    /// <param name="amplitudes">Filled from the first partial on.</param>
    internal int Fill(double fundamentalHz, double dynamicDb, double limitHz, Span<float> amplitudes)
    {
        double place = Math.Clamp((12 * Math.Log2(fundamentalHz / 440)) + 69 - LowestMidi, 0, HighestMidi - LowestMidi - 1e-6);
        int row = (int)place;
        float part = (float)(place - row);
        int count = Math.Min(Math.Min(MostPartials, amplitudes.Length), (int)(limitHz / fundamentalHz));
        ReadOnlySpan<float> low = _amplitudes.AsSpan(row * MostPartials, MostPartials);
        ReadOnlySpan<float> high = _amplitudes.AsSpan((row + 1) * MostPartials, MostPartials);
        float tilt = (float)(dynamicDb * _preset.BrighteningDbPerOctave / (20 * Math.Log10(2)));
        float pivot = (float)(fundamentalHz / (0.5 * _preset.CutoffHz));
        float strongest = 0;
        for (int k = 0; k < count; k++)
        {
            // Just below the limit partials fade, so that none jumps in or out during a glide.
            float fade = (float)Math.Min(1, (limitHz - ((k + 1) * fundamentalHz)) / (0.07 * limitHz));
            float amplitude = (low[k] + (part * (high[k] - low[k]))) * fade;
            float octaves = (k + 1) * pivot;
            if (tilt != 0 && octaves > 1)
            {
                amplitude *= MathF.Pow(octaves, tilt);
            }

            amplitudes[k] = amplitude;
            strongest = Math.Max(strongest, amplitude);
            if (amplitude < Inaudible * strongest && k > 24)
            {
                return k;
            }
        }

        return count;
    }

    /// <summary>Share of a partial's amplitude that has entered so long after the attack.</summary>
    internal float Entered(int harmonic, double attackSeconds)
    {
        double late = _preset.Attack.SpreadMs * Math.Min(harmonic - 1, 24) / 11;
        double part = ((attackSeconds * 1000) - late) / _preset.Attack.RiseMs;
        return part >= 1 ? 1 : part <= 0 ? 0 : (float)(part * part * (3 - (2 * part)));
    }

    /// <summary>Seconds after which all partials have entered.</summary>
    internal double AttackLengthSeconds => (_preset.Attack.RiseMs + (_preset.Attack.SpreadMs * 24 / 11)) * 0.001;

    private double EnvelopeDb(PlayedSpectrum note, double frequencyHz)
    {
        double place = frequencyHz / note.FrequencyHz;
        IReadOnlyList<double> levels = note.LevelsDb;
        if (place <= 1)
        {
            // Below the measured fundamental the envelope goes on falling by 8 dB per octave (same database, horn; trombone 4 to 8).
            return levels[0] + (8 * Math.Log2(place));
        }

        if (place < levels.Count)
        {
            int below = Math.Min((int)(place + 1e-9), levels.Count - 1);
            double part = Math.Max(0, Math.Log(place / below) / Math.Log((below + 1.0) / below));
            return levels[below - 1] + (part * (levels[below] - levels[below - 1]));
        }

        double fromHz = note.FrequencyHz * levels.Count;
        double fromDb = levels[^1];
        (double toHz, double toDb)[] known = [(note.SixDbDownHz, Math.Min(-6, fromDb)), (note.TwentyDbDownHz, Math.Min(-20, fromDb))];
        foreach ((double toHz, double toDb) in known)
        {
            if (toHz <= fromHz)
            {
                continue;
            }

            if (frequencyHz < toHz)
            {
                return fromDb + (Math.Log(frequencyHz / fromHz) / Math.Log(toHz / fromHz) * (toDb - fromDb));
            }

            (fromHz, fromDb) = (toHz, toDb);
        }

        return fromDb - (_preset.SlopeAboveCutoffDbPerOctave * Math.Log2(frequencyHz / fromHz));
    }
}
