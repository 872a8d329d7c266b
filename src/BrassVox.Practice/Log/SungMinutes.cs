namespace BrassVox.Practice.Log;

/// <summary>Seconds of singing as minutes for people, rounded in one way everywhere: downwards, so that "20 of your 20" is never said before the day is full. Pure.</summary>
public static class SungMinutes
{
    // Sums of tenths may lie a hair under the minute that they make.
    private const double Hair = 1e-6;

    /// <summary>Whole minutes that are full.</summary>
    /// <param name="seconds">Seconds, at least 0.</param>
    public static int Whole(double seconds) => (int)Math.Floor((seconds / 60) + Hair);

    /// <summary>Tenths of minutes that are full.</summary>
    /// <param name="seconds">Seconds, at least 0.</param>
    public static double Tenths(double seconds) => Math.Floor((seconds / 6) + Hair) / 10;
}
