using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Lays a player's sentence beside the measurement. Pure.</summary>
public static class Sayings
{
    // So many times the limit of stillness is near enough to ask for it.
    private const double NearStill = 2;
    private const double LeastHeardShare = 0.5;
    private static readonly GradeLimits TrueWithinCents = new(25, 15, 10);

    /// <summary>Compares each part that was said.</summary>
    /// <param name="saying">The sentence.</param>
    /// <param name="result">The take's result; its aim says what counts as true and as held.</param>
    public static IReadOnlyList<SayingCheck> Compare(Saying saying, TakeResult result)
    {
        List<SayingCheck> checks = [];
        double limit = TrueWithinCents.Of(result.Aim);
        if (saying.Played is { } played)
        {
            checks.Add(Pitch("my played tone was", played, result.Played?.OffsetCents, AskedWithin(result, VoiceRole.Played), limit));
        }

        if (saying.Sung is { } sung)
        {
            checks.Add(Pitch("my sung tone was", sung, result.Sung?.OffsetCents, AskedWithin(result, VoiceRole.Sung), limit));
        }

        if (saying.Pair is { } pair)
        {
            checks.Add(Pair(pair, result));
        }

        checks.Add(Line(saying.Line, result, limit));
        return checks;
    }

    /// <summary>Largest offset in cents that is called true where an exercise asks for no place.</summary>
    /// <param name="aim">The grade aimed at.</param>
    internal static double TrueWithin(Grade aim) => TrueWithinCents.Of(aim);

    // What the exercise asks of the tone's place; null where it asks for none, such as one about drift or note by note.
    private static double? AskedWithin(TakeResult result, VoiceRole role) => result.Findings
        .Where(finding => finding.Criterion == "offset" && finding.Role == role && finding.Unit == "c")
        .Max(finding => finding.Limit);

    private static SayingCheck Pitch(string what, SaidPitch said, double? offset, double? askedWithin, double usual)
    {
        double limit = askedWithin ?? usual;
        string words = $"{what} {said.ToString().ToLowerInvariant()}";
        if (offset is not { } cents)
        {
            return new SayingCheck(words, "not told", null);
        }

        SaidPitch measured = Math.Abs(cents) <= limit ? SaidPitch.True : cents > 0 ? SaidPitch.High : SaidPitch.Low;
        return new SayingCheck(words, string.Create(CultureInfo.InvariantCulture,
            $"it was {measured.ToString().ToLowerInvariant()}: {cents:+0;-0;0} c, {(askedWithin is null ? "true means" : "asked")} within {limit:0}"), measured == said);
    }

    // A beat every four seconds: the slowest that a note's length lets one hear (our choice).
    private const double SlowestHeardPerSecond = 0.25;

    private static SayingCheck Pair(SaidPair said, TakeResult result)
    {
        JudgedPair pair = result.Pair;
        string words = said switch
        {
            SaidPair.Still => "the pair stood still",
            SaidPair.Beat => "the pair beat",
            _ => "the pair was grainy",
        };
        if (!AreTwoHeard(result))
        {
            return new SayingCheck(words, "not told", null);
        }

        if (pair.StillSeconds > pair.BeatingSeconds)
        {
            // Slow enough for the exercise is still a beat that an ear hears.
            if (said == SaidPair.Beat && pair.MedianBeatsPerSecond is >= SlowestHeardPerSecond and var slow && slow < pair.StillBelowPerSecond)
            {
                return new SayingCheck(words, string.Create(CultureInfo.InvariantCulture, $"it beat slowly, half the time over {slow:0.0} /s; still is {JudgedPair.StillMeans(pair.StillBelowPerSecond)}"), true);
            }

            return new SayingCheck(words, $"it stood still: {JudgedPair.StillMeans(pair.StillBelowPerSecond)}", said == SaidPair.Still);
        }

        if (pair.MedianBeatsPerSecond is not { } rate)
        {
            return new SayingCheck(words, "not told", null);
        }

        // Over 12 /s single beats cannot be followed. The limit is told where the two are near enough to ask for it.
        string limit = said == SaidPair.Still && rate < NearStill * pair.StillBelowPerSecond ? $"; still is {JudgedPair.StillMeans(pair.StillBelowPerSecond)}" : "";
        SaidPair measured = rate <= BeatingPairs.BeatingUpToHz ? SaidPair.Beat : SaidPair.Grainy;
        return new SayingCheck(words, string.Create(CultureInfo.InvariantCulture, $"it beat, half the time over {rate:0.0} /s{limit}"), measured == said);
    }

    // Stillness tells of one tone, and of a loudspeaker's, as well: what the pair did is told where every tone asked for was there and nothing else was.
    private static bool AreTwoHeard(TakeResult result) =>
        new[] { result.Played, result.Sung }.OfType<JudgedTone>().All(tone => tone.HeardSeconds >= LeastHeardShare * tone.AskedSeconds)
        && !result.Findings.Any(finding => finding.Fault == Fault.Bleed || finding.Criterion == PairCriteria.SecondName);

    private static SayingCheck Line(SaidLine said, TakeResult result, double limit)
    {
        string words = $"it {said.ToString().ToLowerInvariant()}";
        JudgedTone[] tones = [.. new[] { result.Played, result.Sung }.OfType<JudgedTone>().Where(tone => tone.SpreadCents is not null)];
        if (tones.Length == 0)
        {
            return new SayingCheck(words, "not told", null);
        }

        double wander = tones.Max(tone => tone.SpreadCents!.Value);
        double drift = tones.Select(tone => tone.DriftCents!.Value).MaxBy(Math.Abs);
        SaidLine measured = Math.Abs(drift) > limit && Math.Abs(drift) > wander ? SaidLine.Drifted
            : wander > limit ? SaidLine.Wandered : SaidLine.Held;
        return new SayingCheck(words, string.Create(CultureInfo.InvariantCulture,
            $"it {measured.ToString().ToLowerInvariant()}: wander {wander:0} c, drift {drift:+0;-0;0} c"), measured == said);
    }
}
