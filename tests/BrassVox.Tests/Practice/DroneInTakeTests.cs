using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>What the program sounds during a take must never be judged as the player.</summary>
public sealed class DroneInTakeTests
{
    [Fact]
    public void A_microphone_that_hears_only_the_loudspeaker_has_heard_no_player()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 0.5f);
        Assert.True(judged.Drone is { Bleeds: true, IsTrusted: true }, judged.Drone?.ToString());
        Assert.Null(judged.Result.Played!.OffsetCents);
        Assert.Null(judged.Result.Sung!.OffsetCents);
        Assert.NotEqual(true, judged.Result.AsAsked);
    }

    [Fact]
    public void With_headphones_no_drone_is_found() => Assert.True(TakeThrough(loudspeaker: 0) is { Drone.Bleeds: false });

    [Fact]
    public void A_sound_in_the_cue_does_not_hide_the_drone()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 0.5f, cueNoise: 0.5f);
        Assert.True(judged.Drone is { Bleeds: true }, judged.Drone?.ToString());
        Assert.NotEqual(true, judged.Result.AsAsked);
    }

    private static JudgedTake TakeThrough(float loudspeaker, float cueNoise = 0)
    {
        const int DelaySamples = 960;
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        var offline = new OfflineEngine();
        var session = new PlayAlongSession(
            resolved, offline.Engine, (rate, prior) => new DuetTracker(rate, prior), new PlayAlongOptions(OfflineEngine.SampleRateHz, OfflineEngine.SampleRateHz));
        session.Begin();
        Random room = new(11);
        Queue<float> way = new(new float[DelaySamples]);
        float[] block = new float[OfflineEngine.BlockSamples];
        float[] heard = new float[OfflineEngine.BlockSamples];
        while (session.Phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark)
        {
            offline.Engine.Render(block);
            session.HearSent(block);
            for (int i = 0; i < block.Length; i++)
            {
                way.Enqueue(block[i]);
                heard[i] = (loudspeaker * way.Dequeue()) + ((session.Phase == PlayAlongPhase.Cue ? Math.Max(1e-4f, cueNoise) : 1e-4f) * (float)((2 * room.NextDouble()) - 1));
            }

            session.Hear(heard);
            session.Poll();
        }

        return session.Measuring!.GetAwaiter().GetResult();
    }
}
