using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>What an exercise sounds as a model: two tones make a third while both sound, and only then (by definition of a product; the truth is what is asked).</summary>
public sealed class PairScriptTests
{
    private const double Depth = 0.6;

    [Theory]
    [InlineData("alternate")]
    [InlineData("overlap")]
    [InlineData("open-home-pair")]
    public void Nothing_is_made_while_one_tone_rests(string id)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(id);
        const int rate = OfflineEngine.SampleRateHz;
        var engine = new OfflineEngine().Engine;
        var waiting = new Queue<PairEvent>(PairScript.Model(resolved, engine.Parts, rate, rate / 10, Depth));
        var made = new float[(int)((resolved.TakeSeconds + 0.2) * rate) / OfflineEngine.BlockSamples * OfflineEngine.BlockSamples];
        float[] played = new float[OfflineEngine.BlockSamples], sung = new float[OfflineEngine.BlockSamples];
        for (int at = 0; at < made.Length; at += OfflineEngine.BlockSamples)
        {
            while (waiting.TryPeek(out PairEvent next) && next.AtSample < engine.SamplesRendered + (4 * OfflineEngine.BlockSamples) && engine.TryPost(next))
            {
                waiting.Dequeue();
            }

            engine.RenderStems(played, sung, made.AsSpan(at, OfflineEngine.BlockSamples));
        }

        // A quarter of a second after a tone has ended or begun, its fade and the room are over.
        (int both, int alone) = (0, 0);
        for (double t = 0.3; t < resolved.TakeSeconds - 0.1; t += 0.05)
        {
            bool[] areBoth = [.. new[] { t - 0.3, t, t + 0.1 }.Select(seconds => IsAsked(resolved, VoiceRole.Played, seconds) && IsAsked(resolved, VoiceRole.Sung, seconds))];
            if (areBoth.Distinct().Count() > 1)
            {
                continue;
            }

            int from = (int)((0.1 + t) * rate);
            double rms = Math.Sqrt(made.AsSpan(from, rate / 20).ToArray().Average(sample => (double)sample * sample));
            Assert.True(areBoth[0] ? rms > 1e-3 : rms < 1e-4, $"{t:0.00} s: {20 * Math.Log10(rms + 1e-12):0} dB while {(areBoth[0] ? "both sound" : "one rests")}");
            _ = areBoth[0] ? both++ : alone++;
        }

        Assert.Equal((id != "alternate", id != "open-home-pair"), (both > 10, alone > 10));
    }

    private static bool IsAsked(ResolvedExercise resolved, VoiceRole role, double seconds) => resolved.Steps
        .Where((step, i) => seconds >= resolved.StepStartSeconds(i) && seconds < resolved.StepStartSeconds(i) + step.DurationSeconds)
        .Any(step => (role == VoiceRole.Played ? ((PlayTask)step.Task).Played : ((PlayTask)step.Task).Sung)?.IsAskedAt(seconds - resolved.StepStartSeconds(resolved.Steps.ToList().IndexOf(step))) == true);
}
