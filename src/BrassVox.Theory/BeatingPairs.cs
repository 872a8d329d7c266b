namespace BrassVox.Theory;

/// <summary>Which harmonics of two tones meet, and how fast they beat.</summary>
/// <remarks>Source: two sinusoids beat at the difference of their frequencies; for a mistuned k:m consonance |k P - m S| (exact). The limits in <see cref="Classify"/> are ours, to be tried with players.</remarks>
public static class BeatingPairs
{
    /// <summary>Under this many beats per second a pair counts as still.</summary>
    public const double StillBelowHz = 0.1;

    /// <summary>Up to this many beats per second single beats can be followed.</summary>
    public const double BeatingUpToHz = 12.0;

    /// <summary>All pairs that beat no faster than a limit, lowest in frequency first.</summary>
    /// <param name="playedHz">P in Hz, finite and &gt; 0.</param>
    /// <param name="sungHz">S in Hz, finite and &gt; 0.</param>
    /// <param name="highestHarmonic">Highest harmonic number of either tone, at least 1.</param>
    /// <param name="fastestHz">Fastest rate listed, in beats per second, at least 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static IReadOnlyList<BeatingPair> Of(double playedHz, double sungHz, int highestHarmonic, double fastestHz = BeatingUpToHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(playedHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sungHz);
        ArgumentOutOfRangeException.ThrowIfLessThan(highestHarmonic, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(fastestHz);

        List<BeatingPair> pairs = [];
        for (int k = 1; k <= highestHarmonic; k++)
        {
            int lowest = Math.Max(1, (int)Math.Ceiling(((k * playedHz) - fastestHz) / sungHz));
            for (int m = lowest; m <= highestHarmonic && (m * sungHz) - (k * playedHz) <= fastestHz; m++)
            {
                double rate = Math.Abs((k * playedHz) - (m * sungHz));
                pairs.Add(new BeatingPair(k, m, rate, 0.5 * ((k * playedHz) + (m * sungHz))));
            }
        }

        pairs.Sort((a, b) => a.FrequencyHz.CompareTo(b.FrequencyHz));
        return pairs;
    }

    /// <summary>How two neighbouring partials meet.</summary>
    /// <param name="firstHz">One partial in Hz, &gt; 0.</param>
    /// <param name="secondHz">The other in Hz, &gt; 0.</param>
    public static Meeting Classify(double firstHz, double secondHz)
    {
        double apart = Math.Abs(firstHz - secondHz);
        return apart switch
        {
            < StillBelowHz => Meeting.Still,
            <= BeatingUpToHz => Meeting.Beating,
            _ when apart <= CriticalBands.ErbHz(0.5 * (firstHz + secondHz)) => Meeting.Grain,
            _ => Meeting.Apart,
        };
    }
}
