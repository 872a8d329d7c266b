using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>Two harmonics that pass one another, each straight in cents.</summary>
/// <param name="Seconds">About when they meet, on the take's clock.</param>
/// <param name="PlayedHz">The played harmonic then, in Hz.</param>
/// <param name="PlayedSlope">Its change in cents a second.</param>
/// <param name="SungHz">The sung harmonic then, in Hz.</param>
/// <param name="SungSlope">Its change in cents a second.</param>
/// <param name="LowerToneHz">Fundamental of the lower tone: how far the neighbouring harmonics lie away.</param>
internal readonly record struct GlideMeeting(
    double Seconds, double PlayedHz, double PlayedSlope, double SungHz, double SungSlope, double LowerToneHz)
{
    /// <summary>The sung harmonic above the played one, both free, in Hz.</summary>
    public double DistanceAt(double seconds) => SungAt(seconds) - PlayedAt(seconds);

    /// <summary>Middle of the two in Hz.</summary>
    public double MiddleAt(double seconds) => 0.5 * (SungAt(seconds) + PlayedAt(seconds));

    /// <summary>Change of the distance where they meet, in Hz a second.</summary>
    public double SlopeHz => Math.Log(2.0) / 1200.0 * ((SungHz * SungSlope) - (PlayedHz * PlayedSlope));

    private double PlayedAt(double seconds) => Cents.Above(PlayedHz, PlayedSlope * (seconds - Seconds));

    private double SungAt(double seconds) => Cents.Above(SungHz, SungSlope * (seconds - Seconds));
}
