namespace BrassVox.Practice.Demo;

/// <summary>What an invented player does with one tone against the path that is asked: the truth behind a simulated take.</summary>
/// <param name="OffsetCents">Constant distance from the path, in cents.</param>
/// <param name="SpreadCents">Standard deviation of its wander, in cents.</param>
/// <param name="DriftCents">Rise from the beginning of the take to its end, in cents.</param>
/// <param name="VibratoCents">Vibrato, cents to each side.</param>
/// <param name="VibratoPerSecond">Vibrato rate in Hz.</param>
/// <param name="LateSeconds">How late it begins, in seconds.</param>
/// <param name="PullCents">Cents it is moved for each semitone that the other tone's path has moved from its first note.</param>
/// <param name="Seed">Seed of its wander.</param>
public sealed record SimulatedTone(
    double OffsetCents = 0,
    double SpreadCents = 0,
    double DriftCents = 0,
    double VibratoCents = 0,
    double VibratoPerSecond = 5.5,
    double LateSeconds = 0,
    double PullCents = 0,
    int Seed = 1)
{
    // Whole cycles over the take, so that the wander's mean is zero and its deviation is exact; all under vibrato's 4 Hz for takes of 4 s and more.
    private static readonly int[] Cycles = [3, 5, 8, 13];

    /// <summary>Distance from the path at a moment, in cents, pull left out.</summary>
    /// <param name="seconds">Seconds of the take.</param>
    /// <param name="takeSeconds">Length of the take in seconds.</param>
    public double Cents(double seconds, double takeSeconds)
    {
        double share = seconds / takeSeconds;
        double each = SpreadCents * Math.Sqrt(2.0 / Cycles.Length);
        double wander = 0;
        for (int i = 0; i < Cycles.Length; i++)
        {
            wander += each * Math.Sin(2 * Math.PI * ((Cycles[i] * share) + Phase(i)));
        }

        return OffsetCents + wander + (DriftCents * (share - 0.5)) + (VibratoCents * Math.Sin(2 * Math.PI * VibratoPerSecond * seconds));
    }

    // Golden-ratio multiples of the seed: spread evenly over a turn, the same everywhere.
    private double Phase(int index)
    {
        double turn = 0.6180339887498949 * ((Seed * 7919L) + (index * 104729L));
        return turn - Math.Floor(turn);
    }
}
