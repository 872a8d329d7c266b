using BrassVox.Practice.Scenes;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>What a scene asks of the engine.</summary>
/// <param name="scene">The scene.</param>
/// <param name="a4Hz">A4 in Hz.</param>
internal sealed class SceneSound(Scene scene, double a4Hz)
{
    /// <summary>Time in which parts and coupling cross from one scene to the next, in seconds. Pitches slide in 20 ms within it.</summary>
    public const double CrossingSeconds = 0.08;

    /// <summary>A part that sounds alone is raised by this, in dB: a resultant lies some 20 dB under the pair that makes it. Ours, to be tried in halls.</summary>
    public const double RaisedDb = 12;

    private const double SilentDb = -80;
    private const double UnderDb = -18;

    /// <summary>The two tones in their places.</summary>
    public PairSetting Pair { get; } = new(
        scene.Pair.Played, scene.Pair.Sung, scene.Pair.Tuning, a4Hz, scene.Coupling, scene.Pair.PlayedCents, scene.Pair.SungCents);

    /// <summary>The way of one tone, from the moment the scene begins.</summary>
    /// <param name="role">The tone.</param>
    public PitchPath Path(VoiceRole role)
    {
        double hz = role == VoiceRole.Played ? Pair.PlayedHz : Pair.SungHz;
        if (scene.Glide is not { } glide || glide.Role != role)
        {
            return PitchPath.Constant(hz);
        }

        double from = Cents.Above(hz, glide.FromCents);
        return glide.AfterSeconds > 0
            ? new PitchPath((0, from), (glide.AfterSeconds, from), (glide.AfterSeconds + glide.Seconds, hz))
            : PitchPath.Glide(from, hz, glide.Seconds);
    }

    /// <summary>Gain of a part in dB.</summary>
    /// <param name="part">The part.</param>
    /// <param name="spotlight">The part under the spotlight, which lays the others under it; null for none.</param>
    public double GainDb(PairPart part, PairPart? spotlight)
    {
        if (scene.Only is { } only)
        {
            return string.Equals(only, part.Name, StringComparison.Ordinal) ? RaisedDb : SilentDb;
        }

        if (scene.Muted?.Contains(part.Name, StringComparer.Ordinal) == true)
        {
            return SilentDb;
        }

        return spotlight is not null && spotlight.Index != part.Index ? UnderDb : 0;
    }

    /// <summary>Sounds the scene from its beginning, or crosses into it from whatever sounds.</summary>
    /// <param name="desk">The sound.</param>
    /// <param name="spotlight">The part under the spotlight, or null.</param>
    public void Begin(Desk desk, PairPart? spotlight)
    {
        Mix(desk, spotlight);
        desk.SetCoupling(scene.Coupling, CrossingSeconds);
        desk.SetPitch(VoiceRole.Played, Path(VoiceRole.Played));
        desk.SetPitch(VoiceRole.Sung, Path(VoiceRole.Sung));
        desk.Sound();
    }

    /// <summary>Sets the parts' gains.</summary>
    /// <param name="desk">The sound.</param>
    /// <param name="spotlight">The part under the spotlight, or null.</param>
    public void Mix(Desk desk, PairPart? spotlight)
    {
        foreach (PairPart part in desk.Engine?.Parts ?? [])
        {
            desk.SetGain(part.Index, GainDb(part, spotlight), CrossingSeconds);
        }
    }
}
