using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>How much of the way asked of a gliding tone it went. Pure.</summary>
internal static class GlideWay
{
    /// <summary>Share of the way that has to be covered, 0 to 1. Our own curriculum, to be tried with players.</summary>
    public const double LeastShare = 0.5;

    // A vibrato's cycle or more, so that its swing is no way.
    private const double StandSeconds = 0.25;
    private const int LeastFrames = 10;

    /// <summary>That too little of the way was covered, or that this cannot be told; null where it was covered, or no glide is asked.</summary>
    /// <param name="track">The step.</param>
    /// <param name="criterion">The glide.</param>
    public static Finding? Shortfall(TakeTrack track, UnbrokenCriterion criterion)
    {
        VoiceRole role = criterion.Role;
        AskedSegment[] glides = [.. track.Asked(role)!.Segments.Where(segment => segment.Move == Move.Glide)];
        if (glides.Length == 0)
        {
            return null;
        }

        double homeHz = glides[0].FromHz;
        double[] ends = [.. glides.SelectMany(glide => new[] { Cents.Between(homeHz, glide.FromHz), Cents.Between(homeHz, glide.ToHz) })];
        double asked = ends.Max() - ends.Min();
        double[] stood = Stood(track, role, homeHz);
        string tone = Findings.ToneName(role);
        if (stood.Length > 0)
        {
            double went = stood.Max() - stood.Min();
            return went >= LeastShare * asked ? null : Findings.Plain(
                track.Step.Id, "unbroken", role, false, Fault.ShortWay, went, LeastShare * asked, "c",
                $"{tone} went {Findings.Cents(went)} of the {Findings.Cents(asked)} asked for; at least half the way is wanted.");
        }

        // Pairs that lie in fog all the way, as a twelfth on a low note does: the beats grow and shrink as it goes.
        double[] rates = [.. PairCriteria.Rates(track).Select(rate => rate.Rate).Order()];
        double fastest = FastestAsked(track);
        if (rates.Length < LeastFrames || fastest <= 0)
        {
            return Findings.NotTold(track.Step.Id, "unbroken", role, "c", $"{tone} was never told from the other, so how far it went is not known.");
        }

        double beat = rates[(int)(0.95 * (rates.Length - 1))];
        return beat >= LeastShare * fastest ? null : Findings.Plain(
            track.Step.Id, "unbroken", role, false, Fault.ShortWay, beat, LeastShare * fastest, "/s", string.Create(CultureInfo.InvariantCulture,
                $"{tone} lay in fog and beat at most {beat:0.0} /s; the way asked for would beat {fastest:0.0} /s at its ends."));
    }

    // Where the tone stood, quarter second by quarter second, in cents; what lies in fog stood where the pair asked for does.
    private static double[] Stood(TakeTrack track, VoiceRole role, double homeHz)
    {
        SoundedPoint[] told = [.. track.Points(role).Where(point => point.IsAsked && point.FrequencyHz is not null)];
        if (told.Length < LeastFrames)
        {
            return [];
        }

        List<double> stood = [];
        for (double at = told[0].Seconds; at <= told[^1].Seconds; at += StandSeconds / 2)
        {
            double[] here = [.. told.Where(point => point.Seconds >= at && point.Seconds < at + StandSeconds).Select(point => Cents.Between(homeHz, point.FrequencyHz!.Value))];
            if (here.Length >= LeastFrames)
            {
                stood.Add(Median.Of(here));
            }
        }

        if (stood.Count > 0 && PairCriteria.IsFogAsked(track) && track.Points(role).Count(point => point.IsAsked && point.IsFog) >= LeastFrames)
        {
            stood.Add(Cents.Between(homeHz, role == VoiceRole.Played ? track.Pair.PlayedHz : track.Pair.SungHz));
        }

        return [.. stood];
    }

    // Beats per second at the widest point of the way, of the harmonics that meet in the pair asked for; 0 where none do.
    private static double FastestAsked(TakeTrack track)
    {
        AskedPart? played = track.Asked(VoiceRole.Played);
        AskedPart? sung = track.Asked(VoiceRole.Sung);
        if (played is null || sung is null || !PairCriteria.IsFogAsked(track)
            || BeatingPairs.Of(track.Pair.PlayedHz, track.Pair.SungHz, 8, 0.02 * track.Pair.PlayedHz).Cast<BeatingPair?>().FirstOrDefault() is not { } meeting)
        {
            return 0;
        }

        return track.Frames.Select(track.TimeOf).Where(at => played.IsAskedAt(at) && sung.IsAskedAt(at))
            .Select(at => Math.Abs((meeting.PlayedHarmonic * played.Path.FrequencyHz(at)) - (meeting.SungHarmonic * sung.Path.FrequencyHz(at))))
            .DefaultIfEmpty(0).Max();
    }
}
