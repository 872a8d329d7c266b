namespace BrassVox.Analysis.Scoring;

/// <summary>How well several measured pitches match several true ones, by the measures of the multi-pitch community.</summary>
/// <remarks>
/// One thread. Source: Bay, Ehmann and Downie 2009, as worked by the library mir_eval (multipitch): one measured pitch serves
/// one true pitch, within half a semitone.
/// </remarks>
public sealed class MultiPitchScore
{
    private const double MatchCents = 50.0;

    private int _true;
    private int _measured;
    private int _matched;
    private int _substituted;
    private int _missed;
    private int _invented;

    /// <summary>Share of the measured pitches that are true, 0 to 1; 0 when none was measured.</summary>
    public double Precision => Share(_matched, _measured);

    /// <summary>Share of the true pitches that were measured.</summary>
    public double Recall => Share(_matched, _true);

    /// <summary>Matches over all pitches that are true or measured.</summary>
    public double Accuracy => Share(_matched, _true + _measured - _matched);

    /// <summary>Wrong pitches in place of true ones, per true pitch.</summary>
    public double SubstitutionError => Share(_substituted, _true);

    /// <summary>Missing pitches, per true pitch.</summary>
    public double MissError => Share(_missed, _true);

    /// <summary>Pitches too many, per true pitch.</summary>
    public double FalseAlarmError => Share(_invented, _true);

    /// <summary>All errors, per true pitch.</summary>
    public double TotalError => SubstitutionError + MissError + FalseAlarmError;

    /// <summary>Adds one frame.</summary>
    /// <param name="truthHz">True pitches in Hz, &gt; 0, any number.</param>
    /// <param name="measuredHz">Measured pitches in Hz, &gt; 0, any number.</param>
    public void Add(ReadOnlySpan<double> truthHz, ReadOnlySpan<double> measuredHz)
    {
        int matched = Matches(truthHz, measuredHz);
        _true += truthHz.Length;
        _measured += measuredHz.Length;
        _matched += matched;
        _substituted += Math.Min(truthHz.Length, measuredHz.Length) - matched;
        _missed += Math.Max(0, truthHz.Length - measuredHz.Length);
        _invented += Math.Max(0, measuredHz.Length - truthHz.Length);
    }

    /// <summary>
    /// Largest one-to-one matching. Both lists sorted, the lowest measured pitch that reaches a true one is taken: on a line,
    /// with one reach for all, that matches the most.
    /// </summary>
    private static int Matches(ReadOnlySpan<double> truthHz, ReadOnlySpan<double> measuredHz)
    {
        double[] truth = [.. truthHz];
        double[] measured = [.. measuredHz];
        Array.Sort(truth);
        Array.Sort(measured);
        int matched = 0;
        for (int t = 0, m = 0; t < truth.Length && m < measured.Length;)
        {
            double cents = 1200.0 * Math.Log2(measured[m] / truth[t]);
            if (Math.Abs(cents) < MatchCents)
            {
                matched++;
                t++;
                m++;
            }
            else if (cents < 0.0)
            {
                m++;
            }
            else
            {
                t++;
            }
        }

        return matched;
    }

    private static double Share(int part, int whole) => whole > 0 ? (double)part / whole : 0.0;
}
