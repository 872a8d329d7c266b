using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>That a tone rests where only the other is asked for. Pure.</summary>
internal static class RestCriteria
{
    // A rest shorter than that is a change from one tone to the other: its edges are the players' own.
    private const double EdgeSeconds = 0.3;
    private const double LeastRestSeconds = 0.5;

    // Overlapping by a third of the rest is late or early, not sounding through. These three are ours, to be tried with players.
    private const double LargestSoundedShare = 0.3;

    /// <summary>For each tone that sounded through its rests, that it did. Only frames that tell both tones apart say so: fog, and one tone alone, hold nothing against the player.</summary>
    /// <param name="track">The step.</param>
    public static IEnumerable<Finding> Broken(TakeTrack track)
    {
        if (!track.IsWhole)
        {
            yield break;
        }

        foreach (VoiceRole role in new[] { VoiceRole.Played, VoiceRole.Sung })
        {
            AskedPart? other = track.Asked(role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played);
            if (other is null || track.Step.Sounding.Any(sounding => sounding.Role == role))
            {
                continue;
            }

            double[] rest = [.. track.Frames.Select(track.TimeOf)
                .Where(at => new[] { -EdgeSeconds, 0, EdgeSeconds }.All(edge => other.IsAskedAt(at + edge) && track.Asked(role)?.IsAskedAt(at + edge) != true))];
            HashSet<double> inRest = [.. rest];
            double restSeconds = rest.Length * track.HopSeconds;
            double sounded = track.Frames.Count(frame => frame.Separability == Separability.Separable && frame is { Played: not null, Sung: not null } && inRest.Contains(track.TimeOf(frame))) * track.HopSeconds;
            if (restSeconds >= LeastRestSeconds && sounded > LargestSoundedShare * restSeconds)
            {
                yield return Findings.Plain(
                    track.Step.Id, "rest", role, false, Fault.NotRested, sounded, LargestSoundedShare * restSeconds, "s",
                    $"{Findings.ToneName(role)} sounded for {Findings.Seconds(sounded)} where it was to rest.");
            }
        }
    }
}
