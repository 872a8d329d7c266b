using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Tests.Synthesis;

/// <summary>Renders pairs for measurement.</summary>
internal static class TakenSound
{
    public const int Rate = 48000;

    /// <summary>A pair that starts at sample 0 on two standing pitches, with parameters set by id.</summary>
    public static FlowPair Pair(string brass, string voice, double playedHz, double sungHz, params ReadOnlySpan<(string Id, double Value)> set)
    {
        FlowPair pair = new(SourceUnderTest.Presets.BrassById(brass), SourceUnderTest.Presets.VoiceById(voice), 1);
        foreach ((string id, double value) in set)
        {
            Parameter(pair, id).Target = (float)value;
        }

        pair.Prepare(new RenderFormat(Rate, 512));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(playedHz)));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(sungHz)));
        pair.TryPost(PairEvent.Start());
        return pair;
    }

    public static Parameter Parameter(IPairEngine pair, string id) => pair.Parameters.Single(parameter => parameter.Spec.Id == id);

    /// <summary>Leaves only the part of that name.</summary>
    public static FlowPair Alone(this FlowPair pair, string part)
    {
        foreach (PairPart other in pair.Parts)
        {
            if (other.Name != part)
            {
                pair.TryPost(PairEvent.Gain(other.Index, -80));
            }
        }

        return pair;
    }

    public static float[] Take(this ISoundSource source, double seconds)
    {
        float[] sound = new float[(int)(seconds * Rate)];
        for (int at = 0; at < sound.Length; at += 512)
        {
            source.Render(sound.AsSpan(at, Math.Min(512, sound.Length - at)));
        }

        return sound;
    }

    public static double LevelDb(this float[] sound, double fromSeconds, double seconds, double hz) =>
        Spectrum.LevelDb(sound.AsSpan((int)(fromSeconds * Rate), (int)(seconds * Rate)), Rate, hz);
}
