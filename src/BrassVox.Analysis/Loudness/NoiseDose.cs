namespace BrassVox.Analysis.Loudness;

/// <summary>How long a sound level may be borne, by two published rules. Only for a calibrated microphone; local rules go first.</summary>
public static class NoiseDose
{
    /// <summary>Hours a day at an A-weighted level that fill the recommended limit.</summary>
    /// <param name="levelDbA">Level in dB(A), finite.</param>
    /// <remarks>Source: NIOSH recommended exposure limit, 85 dB(A) for 8 h, half the time for each 3 dB more.</remarks>
    public static double NioshHours(double levelDbA) => 8.0 / Math.Pow(2.0, (levelDbA - 85.0) / 3.0);

    /// <summary>Hours a week of listening at an A-weighted level that fill the limit for adults.</summary>
    /// <param name="levelDbA">Level in dB(A), finite.</param>
    /// <remarks>Source: WHO-ITU H.870, 80 dB(A) for 40 h a week, equal energy.</remarks>
    public static double WeeklyHours(double levelDbA) => 40.0 * Math.Pow(10.0, (80.0 - levelDbA) / 10.0);

    /// <summary>Share of the day's recommended limit that some time at a level uses up; 1 is the limit.</summary>
    /// <param name="levelDbA">Level in dB(A), finite.</param>
    /// <param name="hours">Time in hours, at least 0.</param>
    /// <remarks>Source: NIOSH, dose = sum of time over allowed time. Shares of one day add up.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    public static double NioshShare(double levelDbA, double hours)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(hours);
        return hours / NioshHours(levelDbA);
    }
}
