using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Compares a take's error with and without the drone. Pure.</summary>
internal static class DroneComparisons
{
    private const double LeastSeconds = 0.5;

    public static IReadOnlyList<DroneComparison> Of(IReadOnlyList<TakeTrack> tracks)
    {
        List<DroneComparison> found = [];
        foreach (VoiceRole role in new[] { VoiceRole.Played, VoiceRole.Sung })
        {
            // What strays out of fog is not where the tone stands.
            if (FogEdge.HasNoMiddle(tracks, role))
            {
                continue;
            }

            List<double> with = [];
            List<double> without = [];
            foreach (TakeTrack track in tracks)
            {
                if (FogEdge.Strays(track, role))
                {
                    continue;
                }

                Window[] sounds = [.. track.Step.Sounding.SelectMany(part => part.Windows)];
                foreach (SoundedPoint point in track.Counted(role))
                {
                    bool near = sounds.Any(window => Math.Abs(point.Seconds - window.FromSeconds) < TakeTrack.EdgeSeconds || Math.Abs(point.Seconds - window.ToSeconds) < TakeTrack.EdgeSeconds);
                    bool heard = sounds.Any(window => point.Seconds >= window.FromSeconds && point.Seconds < window.ToSeconds);
                    if (!near)
                    {
                        (heard ? with : without).Add(point.Cents!.Value);
                    }
                }
            }

            double hop = tracks.Count == 0 ? 0.01 : tracks[0].HopSeconds;
            if (with.Count * hop >= LeastSeconds && without.Count * hop >= LeastSeconds)
            {
                found.Add(new DroneComparison(role, Median.Of(with), Median.Of(without)));
            }
        }

        return found;
    }
}
