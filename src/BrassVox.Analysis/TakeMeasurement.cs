using BrassVox.Analysis.Tracking;

namespace BrassVox.Analysis;

/// <summary>Measures a whole take at once, by the same tracker as a live stream.</summary>
/// <remarks>
/// With a declared note the frames are those of the live stream. With none, which tone is played and which is sung is settled for
/// each unbroken stretch by all of it: live, the first moments of a pair stay without roles, here they get them from what follows.
/// </remarks>
public static class TakeMeasurement
{
    /// <summary>All frames of a take.</summary>
    /// <param name="mono">Samples, full scale 1; values that are not finite count as 0. Shorter than one window gives no frame.</param>
    /// <param name="sampleRateHz">Rate in Hz, 8,000 to 384,000.</param>
    /// <param name="prior">What is known before listening.</param>
    /// <returns>Frames in order of time; a new list. Any thread.</returns>
    public static IReadOnlyList<AnalysisFrame> Frames(ReadOnlySpan<float> mono, int sampleRateHz, DuetPrior prior)
    {
        DuetTracker tracker = new(sampleRateHz, prior);
        List<(long FirstSample, WindowReading Reading)> readings = [];
        tracker.Read(mono, readings);
        Dictionary<int, double> odds = [];
        foreach ((long _, WindowReading reading) in readings)
        {
            if (reading.Separability is Separability.Separable or Separability.OneTone)
            {
                odds[reading.Segment] = reading.FirstIsPlayed;
            }
        }

        List<AnalysisFrame> frames = new(readings.Count);
        foreach ((long firstSample, WindowReading reading) in readings)
        {
            frames.Add(reading.ToFrame(firstSample, tracker.WindowSamples, sampleRateHz, odds.GetValueOrDefault(reading.Segment, reading.FirstIsPlayed)));
        }

        return frames;
    }
}
