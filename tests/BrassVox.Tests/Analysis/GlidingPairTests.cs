using BrassVox.Analysis;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>The voice glides from the octave to the tenth above a held tuba, as an exercise declares it.</summary>
public sealed class GlidingPairTests
{
    private const int RateHz = 48_000;
    private const double Seconds = 6.0;
    private const double HeldHz = 116.5409;

    /// <summary>Coupled to the full the voice's own lines are gone, and a line P+S stands where another voice could be: told as the voice in at most a hundredth of the frames.</summary>
    [Theory]
    [InlineData(0.6f, 0.6)]
    [InlineData(1.0f, 0.0)]
    public void A_line_that_coupling_makes_is_not_told_as_the_voice(float coupling, double leastTold)
    {
        double fromHz = 2.0 * HeldHz;
        double toHz = HeldHz * Math.Pow(2.0, 15.0 / 12.0);
        double middleHz = Math.Sqrt(fromHz * toHz);
        var prior = new DuetPrior(HeldHz, middleHz, SungMoves: true, SungLowestHz: middleHz / Math.Sqrt(2.0), SungHighestHz: middleHz * Math.Sqrt(2.0));
        AnalysisFrame[] frames = [.. TakeMeasurement.Frames(Render(coupling, fromHz, toHz), RateHz, prior).Where(frame => frame.CentreSeconds is > 0.3 and < Seconds - 0.3)];
        Assert.True(frames.Length > 500);
        int wrong = frames.Count(frame => IsOff(frame.Played, HeldHz) || IsOff(frame.Sung, fromHz * Math.Pow(toHz / fromHz, frame.CentreSeconds / Seconds)));
        Assert.True(wrong <= 0.01 * frames.Length, $"{wrong} of {frames.Length}");
        int told = frames.Count(frame => frame is { Played: not null, Sung: not null });
        Assert.True(told >= leastTold * frames.Length, $"{told} of {frames.Length}");
    }

    private static bool IsOff(PitchEstimate? tone, double hz) => tone is { } told && Math.Abs(Cents.Between(hz, told.FrequencyHz)) > 150.0;

    private static float[] Render(float coupling, double fromHz, double toHz)
    {
        TonePresets tones = TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones"));
        FlowPair pair = new(tones.BrassById("tuba"), tones.VoiceById("bass"), seed: 3);
        pair.Prepare(new RenderFormat(RateHz, 1024));
        pair.Parameters.Single(parameter => parameter.Spec.Id == "life").Target = 1f;
        _ = pair.TryPost(PairEvent.Coupling(coupling, 0f));
        _ = pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(HeldHz)));
        _ = pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Glide(fromHz, toHz, Seconds)));
        _ = pair.TryPost(PairEvent.Start());
        float[] sound = new float[(int)(Seconds * RateHz)];
        for (int at = 0; at < sound.Length; at += 1024)
        {
            pair.Render(sound.AsSpan(at, Math.Min(1024, sound.Length - at)));
        }

        return sound;
    }
}
