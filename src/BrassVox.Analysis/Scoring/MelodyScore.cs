namespace BrassVox.Analysis.Scoring;

/// <summary>How well one measured pitch line follows the truth, by the measures of the melody-extraction community.</summary>
/// <remarks>
/// Immutable once made, any thread. Half a semitone is far too coarse for practice; the figures serve to compare with others.
/// Source: Poliner et al. 2007, as worked by the library mir_eval (melody): a frame is right when it lies under 50 cents off.
/// </remarks>
public sealed class MelodyScore
{
    private const double RightBelowCents = 50.0;

    /// <summary>Compares frame by frame.</summary>
    /// <param name="truthHz">True pitch in Hz for each frame; 0 where nothing sounds.</param>
    /// <param name="measuredHz">Measured pitch in Hz, as many; 0 where none was found, negative for a guess given as unvoiced.</param>
    /// <exception cref="ArgumentException">The lists differ in length.</exception>
    public MelodyScore(IReadOnlyList<double> truthHz, IReadOnlyList<double> measuredHz)
    {
        if (truthHz.Count != measuredHz.Count)
        {
            throw new ArgumentException($"{truthHz.Count} true and {measuredHz.Count} measured frames cannot be compared.");
        }

        int voiced = 0, silent = 0, voicedFound = 0, silentTaken = 0, right = 0, rightKey = 0, allRight = 0;
        for (int i = 0; i < truthHz.Count; i++)
        {
            bool sounds = truthHz[i] > 0.0;
            bool found = measuredHz[i] > 0.0;
            if (!sounds)
            {
                silent++;
                silentTaken += found ? 1 : 0;
                allRight += found ? 0 : 1;
                continue;
            }

            voiced++;
            voicedFound += found ? 1 : 0;
            if (measuredHz[i] == 0.0)
            {
                continue;
            }

            double cents = 1200.0 * Math.Log2(Math.Abs(measuredHz[i]) / truthHz[i]);
            double folded = cents - (1200.0 * Math.Floor((cents / 1200.0) + 0.5));
            bool hit = Math.Abs(cents) < RightBelowCents;
            right += hit ? 1 : 0;
            rightKey += Math.Abs(folded) < RightBelowCents ? 1 : 0;
            allRight += hit && found ? 1 : 0;
        }

        RawPitchAccuracy = Share(right, voiced);
        RawChromaAccuracy = Share(rightKey, voiced);
        VoicingRecall = Share(voicedFound, voiced);
        VoicingFalseAlarm = Share(silentTaken, silent);
        OverallAccuracy = Share(allRight, truthHz.Count);
    }

    /// <summary>Share of sounding frames whose pitch is right, 0 to 1; 0 when nothing sounds.</summary>
    public double RawPitchAccuracy { get; }

    /// <summary>The same, octaves forgiven.</summary>
    public double RawChromaAccuracy { get; }

    /// <summary>Share of sounding frames in which a pitch was given.</summary>
    public double VoicingRecall { get; }

    /// <summary>Share of silent frames in which a pitch was given.</summary>
    public double VoicingFalseAlarm { get; }

    /// <summary>Share of all frames that are right: silent ones without a pitch, sounding ones with the right one.</summary>
    public double OverallAccuracy { get; }

    private static double Share(int part, int whole) => whole > 0 ? (double)part / whole : 0.0;
}
