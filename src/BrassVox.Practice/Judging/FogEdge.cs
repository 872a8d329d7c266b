using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Tones that go in and out of fog: what is told of them outside is not where they stand, or just that. Pure.</summary>
internal static class FogEdge
{
    // A vibrato has four turns and more a second; single windows of fog are none. Ours.
    private const double LeastTurnsPerSecond = 2;
    private const double LeastStrayShare = 0.05;
    private const double LeastStandShare = 0.3;
    private const double SteadyOutsideCents = 6;

    /// <summary>
    /// True when a tone goes in and out of fog, twice a second and more, and is told in different places outside: the turns of a vibrato. Fog
    /// and its beats then tell of the other half of the swing, and neither half of the middle. False where no fog is asked for: what flickers
    /// there is noise, and what is told is the tone.
    /// </summary>
    /// <param name="track">A step that asks for it.</param>
    /// <param name="role">The tone.</param>
    public static bool Strays(TakeTrack track, VoiceRole role) => PairCriteria.IsFogAsked(track)
        && AtEdge(track, role) is { } edge && edge.ToldShare is >= LeastStrayShare and <= 1 - LeastStrayShare && edge.WidthCents > SteadyOutsideCents;

    /// <summary>True when either tone does.</summary>
    /// <param name="track">A step.</param>
    public static bool Strays(TakeTrack track) => Strays(track, VoiceRole.Sung) || Strays(track, VoiceRole.Played);

    /// <summary>True when what is told of a tone beside fog is not where it stands; steps in which it strays tell nothing of it.</summary>
    /// <param name="tracks">The steps that ask for it.</param>
    /// <param name="role">The tone.</param>
    public static bool HasNoMiddle(IEnumerable<TakeTrack> tracks, VoiceRole role)
    {
        TakeTrack[] straight = [.. tracks.Where(track => !Strays(track, role))];
        return straight.Length == 0 || (PitchCriteria.IsMostlyFog(straight, role) && !straight.All(track => StandsAtEdge(track, role)));
    }

    // A steady tone at the edge of fog is in it at one moment of its beats and told at the next, always in one place: there it stands.
    private static bool StandsAtEdge(TakeTrack track, VoiceRole role) =>
        AtEdge(track, role) is { ToldShare: >= LeastStandShare, WidthCents: <= SteadyOutsideCents };

    // How much is told of a tone that keeps going in and out of fog, and how far apart its tenths lie; null for one that does not.
    private static (double ToldShare, double WidthCents)? AtEdge(TakeTrack track, VoiceRole role)
    {
        int frames = 0, changes = 0, fog = 0;
        bool? wasTold = null;
        foreach (SoundedPoint point in track.Points(role).Where(point => point.IsAsked && (point.Cents is not null || point.IsFog)))
        {
            bool isTold = point.Cents is not null;
            changes += wasTold is { } before && before != isTold ? 1 : 0;
            wasTold = isTold;
            frames++;
            fog += isTold ? 0 : 1;
        }

        double[] told = [.. track.Counted(role).Select(point => point.Cents!.Value).Order()];
        if (told.Length == 0 || changes < LeastTurnsPerSecond * frames * track.HopSeconds)
        {
            return null;
        }

        double width = told[(int)(0.9 * (told.Length - 1))] - told[(int)(0.1 * (told.Length - 1))];
        return ((double)told.Length / (fog + told.Length), width);
    }
}
