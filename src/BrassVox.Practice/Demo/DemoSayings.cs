using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Demo;

/// <summary>What an invented player says of a take before looking.</summary>
internal static class DemoSayings
{
    private const double TrueWithinCents = 15;

    /// <summary>A sentence that is right as often as the role is.</summary>
    public static Saying Of(TakeResult result, DemoRole role, DemoDice dice)
    {
        bool right = dice.Chance(role.RightShare);
        int wrongPart = dice.Below(3);
        SaidPitch? played = result.Played is null ? null : Pitch(result.Played.OffsetCents, right || wrongPart != 0);
        SaidPitch? sung = result.Sung is null ? null : Pitch(result.Sung.OffsetCents, right || wrongPart == 0);
        SaidPair still = result.Pair.StillSeconds > result.Pair.BeatingSeconds ? SaidPair.Still
            : result.Pair.MedianBeatsPerSecond is > 12 ? SaidPair.Grainy : SaidPair.Beat;
        SaidPair? pair = played is null || sung is null ? null : right || wrongPart != 2 ? still : still == SaidPair.Still ? SaidPair.Beat : SaidPair.Still;
        Sureness sure = dice.Chance(role.CertainShare) ? Sureness.Certain : dice.Chance(0.6) ? Sureness.FairlySure : Sureness.Guessing;
        return new Saying(played, sung, pair, Line(result), sure);
    }

    private static SaidPitch Pitch(double? offset, bool right)
    {
        SaidPitch measured = offset is not { } cents || Math.Abs(cents) <= TrueWithinCents ? SaidPitch.True : cents > 0 ? SaidPitch.High : SaidPitch.Low;
        return right ? measured : measured == SaidPitch.True ? SaidPitch.High : SaidPitch.True;
    }

    private static SaidLine Line(TakeResult result)
    {
        JudgedTone[] tones = [.. new[] { result.Played, result.Sung }.OfType<JudgedTone>().Where(tone => tone.SpreadCents is not null)];
        double wander = tones.Select(tone => tone.SpreadCents!.Value).DefaultIfEmpty().Max();
        double drift = tones.Select(tone => Math.Abs(tone.DriftCents ?? 0)).DefaultIfEmpty().Max();
        return drift > TrueWithinCents && drift > wander ? SaidLine.Drifted : wander > TrueWithinCents ? SaidLine.Wandered : SaidLine.Held;
    }
}
