using BrassVox.Analysis.Transforms;

namespace BrassVox.Analysis.Bleed;

/// <summary>Tells whether a drone from a loudspeaker reaches the microphone, before anything is scored.</summary>
/// <remarks>
/// Any thread, pure. The drone's partials are looked up in the recording piece by piece; only bleed keeps the same
/// strength and phase against them from piece to piece, a player wanders. Best done on two bars of drone alone (the count-in):
/// a tone held rock-steady in unison with the drone through the whole recording cannot be told from bleed.
/// Source: magnitude-squared coherence, Carter 1987; for unrelated signals and Q pieces it exceeds c with chance (1 - c)^(Q - 1).
/// The thresholds are ours.
/// </remarks>
public static class BleedCheck
{
    /// <summary>The shortest recording that can be judged, in seconds.</summary>
    public const double ShortestSeconds = 2.0;

    private const double PieceSeconds = 0.25;
    private const double ShortPieceSeconds = 0.125;
    private const int PiecesOfStretch = 4;
    private const double SoundingShare = 0.01;
    private const double LowestHz = 40.0;
    private const double HighestHz = 4_000.0;
    private const double PartialsWithinPower = 1e-4;
    private const int MostPartials = 40;
    private const double FaintestShareDb = -40.0;
    private const double ChanceOfFalseAlarm = 1e-4;

    /// <summary>Judges a recording.</summary>
    /// <param name="reference">What was sent to the loudspeaker, full scale 1, on the same clock.</param>
    /// <param name="microphone">What the microphone gave; as far as the shorter of the two goes.</param>
    /// <param name="sampleRateHz">Rate of both in Hz, at least 8000.</param>
    /// <param name="delaySamples">Round-trip delay in samples, 0 when not known; less than half a piece (125 ms) of error does no harm.</param>
    /// <returns>The reading; no bleed when the reference is silent or less than <see cref="ShortestSeconds"/> are given.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Rate or delay is outside its range.</exception>
    public static BleedReading Measure(
        ReadOnlySpan<float> reference, ReadOnlySpan<float> microphone, int sampleRateHz, int delaySamples = 0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfNegative(delaySamples);
        if (delaySamples >= microphone.Length)
        {
            return None;
        }

        ReadOnlySpan<float> heard = microphone[delaySamples..];
        int length = Math.Min(reference.Length, heard.Length);
        var plan = new FourierPlan(FourierPlan.FastLength((int)(PieceSeconds * sampleRateHz)));
        int pieces = length / plan.Length;
        if (length < ShortestSeconds * sampleRateHz)
        {
            return None;
        }

        int bins = Math.Min((int)(HighestHz * plan.Length / sampleRateHz), plan.Length / 2);
        var cross = new CrossSpectrum(plan, bins);
        for (int piece = 0; piece < pieces; piece++)
        {
            cross.Add(
                reference.Slice(piece * plan.Length, plan.Length),
                heard.Slice(piece * plan.Length, plan.Length));
        }

        int lowestBin = (int)Math.Ceiling(LowestHz * plan.Length / sampleRateHz);
        List<int> partials = Partials(cross.ReferencePower, lowestBin);
        return partials.Count == 0 || cross.HeardTotal <= 0.0 ? None : Judge(cross, partials, pieces);
    }

    /// <summary>
    /// How much of the time a recording follows what was sent for half a second on end. A path whose delay jumps (a line that drops blocks,
    /// two clocks) keeps no phase through a whole recording, and <see cref="Measure"/> finds nothing; between two jumps it keeps it.
    /// </summary>
    /// <param name="reference">What was sent to the loudspeaker, full scale 1, on the same clock.</param>
    /// <param name="microphone">What the microphone gave; as far as the shorter of the two goes.</param>
    /// <param name="sampleRateHz">Rate of both in Hz, at least 8000.</param>
    /// <returns>0 to 1 of the stretches in which something was sent; 0 when there are fewer than four.</returns>
    public static double FollowedShare(ReadOnlySpan<float> reference, ReadOnlySpan<float> microphone, int sampleRateHz)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        var plan = new FourierPlan(FourierPlan.FastLength((int)(ShortPieceSeconds * sampleRateHz)));
        int bins = Math.Min((int)(HighestHz * plan.Length / sampleRateHz), plan.Length / 2);
        int lowestBin = (int)Math.Ceiling(LowestHz * plan.Length / sampleRateHz);
        int pieces = Math.Min(reference.Length, microphone.Length) / plan.Length;
        double[] sent = new double[Math.Max(0, pieces)];
        for (int piece = 0; piece < pieces; piece++)
        {
            foreach (float sample in reference.Slice(piece * plan.Length, plan.Length))
            {
                sent[piece] += (double)sample * sample;
            }
        }

        double sounding = sent.Length == 0 ? 0 : SoundingShare * sent.Max();
        int stretches = 0;
        int followed = 0;
        for (int first = 0; sounding > 0 && first + PiecesOfStretch <= pieces; first += PiecesOfStretch / 2)
        {
            if (Array.Exists(sent[first..(first + PiecesOfStretch)], power => power < sounding))
            {
                continue;
            }

            var cross = new CrossSpectrum(plan, bins);
            for (int piece = first; piece < first + PiecesOfStretch; piece++)
            {
                cross.Add(reference.Slice(piece * plan.Length, plan.Length), microphone.Slice(piece * plan.Length, plan.Length));
            }

            List<int> partials = Partials(cross.ReferencePower, lowestBin);
            stretches++;
            followed += partials.Count > 0 && cross.HeardTotal > 0 && Judge(cross, partials, PiecesOfStretch).Bleeds ? 1 : 0;
        }

        return stretches < PiecesOfStretch ? 0 : (double)followed / stretches;
    }

    private static BleedReading None => new(false, -200.0, 0.0);

    private static BleedReading Judge(CrossSpectrum cross, List<int> partials, int pieces)
    {
        // A player at the octave covers every second partial: half of them have to follow, and half of the 1st, 3rd, 5th ...
        double[] coherences = [.. partials.Select(cross.Coherence)];
        double likeness = Math.Min(UpperHalf(coherences), UpperHalf([.. coherences.Where((_, i) => i % 2 == 0)]));

        // Each partial spreads over the three bins that a Hann window gives it.
        double followed = partials.Sum(bin =>
            cross.FollowedPower(bin - 1) + cross.FollowedPower(bin) + cross.FollowedPower(bin + 1));
        double shareDb = Math.Min(0.0, 10.0 * Math.Log10(Math.Max(followed / cross.HeardTotal, 1e-20)));
        double byChance = 1.0 - Math.Pow(ChanceOfFalseAlarm, 1.0 / (pieces - 1));
        return new BleedReading(likeness > byChance && shareDb > FaintestShareDb, shareDb, likeness);
    }

    private static List<int> Partials(ReadOnlySpan<double> power, int lowestBin)
    {
        double strongest = 0.0;
        for (int bin = lowestBin; bin < power.Length; bin++)
        {
            strongest = Math.Max(strongest, power[bin]);
        }

        List<(int Bin, double Power)> peaks = [];
        for (int bin = Math.Max(lowestBin, 1); bin < power.Length - 1; bin++)
        {
            bool peak = power[bin] >= power[bin - 1] && power[bin] > power[bin + 1];
            if (peak && power[bin] > PartialsWithinPower * strongest)
            {
                peaks.Add((bin, power[bin]));
            }
        }

        return [.. peaks.OrderByDescending(p => p.Power).Take(MostPartials).Select(p => p.Bin).Order()];
    }

    /// <summary>The value that half of the values, or one more, reach.</summary>
    private static double UpperHalf(double[] values) => values.Order().ElementAt(values.Length / 2);
}
