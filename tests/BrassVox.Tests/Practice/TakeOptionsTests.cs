using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>How a take is made today: role, drop-outs, tempo, click. Our own rules.</summary>
public sealed class TakeOptionsTests
{
    private const double StartSeconds = 1.0;

    [Fact]
    public void The_error_with_and_without_the_drone_is_told_apart()
    {
        ResolvedExercise resolved = new TakeOptions(Drone: DroneUse.DropOuts).Apply(ShippedExercises.Resolve("open-home-pair"));
        Assert.Equal([new Window(0, 3), new Window(6, 8)], resolved.Steps[0].Sounding[0].Windows);
        SimulatedTone leaning = new() { JumpCents = 14, JumpAtSeconds = 3 };
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, new(), leaning, StartSeconds), StartSeconds);
        DroneComparison sung = result.DroneComparisons.Single(tone => tone.Role == VoiceRole.Sung);
        Assert.Equal((0, 14), (Math.Round(sung.WithCents), Math.Round(sung.WithoutCents)));
        Assert.True(sung.Leans);
        Assert.False(result.DroneComparisons.Single(tone => tone.Role == VoiceRole.Played).Leans);
    }

    [Theory]
    [InlineData(PlayerRole.Plays, VoiceRole.Sung)]
    [InlineData(PlayerRole.Sings, VoiceRole.Played)]
    public void The_other_tone_is_synthesised_and_not_judged(PlayerRole role, VoiceRole other)
    {
        foreach (Exercise exercise in ShippedExercises.Library.Exercises.Where(exercise => exercise.PlayAlong is { Passage: null }))
        {
            ResolvedExercise resolved = new TakeOptions(role).Apply(ShippedExercises.Resolve(exercise.Id));
            foreach (ExerciseStep step in resolved.Steps)
            {
                var task = (PlayTask)step.Task;
                Assert.NotEmpty(task.Criteria);
                Assert.All(task.Criteria, criterion => Assert.True(TakeJudge.CanApply(criterion, task.Played is not null, task.Sung is not null), exercise.Id));
            }
        }

        ResolvedExercise home = new TakeOptions(role).Apply(ShippedExercises.Resolve("open-home-pair"));
        Assert.Contains(home.Steps[0].Sounding, part => part.Role == other);
    }

    [Fact]
    public void Tempo_moves_what_counts_beats_and_leaves_seconds_alone()
    {
        ResolvedExercise beats = ShippedExercises.Resolve("contrary-motion");
        ResolvedExercise slow = new TakeOptions(TempoPercent: 50).Apply(beats);
        Assert.Equal(2 * beats.TakeSeconds, slow.TakeSeconds, 1e-9);
        AskedPart Sung(ResolvedExercise resolved) => ((PlayTask)resolved.Steps[0].Task).Sung!;
        Assert.Equal(Sung(beats).Path.FrequencyHz(3), Sung(slow).Path.FrequencyHz(6), 1e-9);
        Assert.Equal(2 * 60.0 / 50, slow.BeatSeconds, 1e-9);
        ResolvedExercise seconds = ShippedExercises.Resolve("open-home-pair");
        Assert.Equal(seconds.TakeSeconds, new TakeOptions(TempoPercent: 50).Apply(seconds).TakeSeconds, 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => new TakeOptions(TempoPercent: 39).Apply(beats));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TakeOptions(TempoPercent: 111).Apply(beats));
    }

    [Theory]
    [InlineData(PlayerRole.Both, DroneUse.Planned, " The drone leaves at 4 s.")]
    [InlineData(PlayerRole.Both, DroneUse.Throughout, " The drone sounds throughout.")]
    [InlineData(PlayerRole.Both, DroneUse.DropOuts, " The drone sounds at 0 to 3, 6 to 8 s.")]
    [InlineData(PlayerRole.Both, DroneUse.Silent, "")]
    [InlineData(PlayerRole.Sings, DroneUse.Planned, " The drone leaves at 4 s.")]
    [InlineData(PlayerRole.Sings, DroneUse.Silent, "")]
    [InlineData(PlayerRole.Plays, DroneUse.Silent, "")]
    public void A_prompt_says_of_the_drone_what_sounds(PlayerRole role, DroneUse drone, string said) =>
        Assert.Equal(
            role switch
            {
                PlayerRole.Plays => "Begin with S and play for eight seconds.",
                PlayerRole.Sings => "Begin with P and sing for eight seconds.",
                _ => "Begin together and hold for eight seconds.",
            } + said,
            new TakeOptions(role, drone).Apply(ShippedExercises.Resolve("open-home-pair")).Steps[0].Prompt);

    /// <summary>Of the tone that the program sounds nothing is asked, whatever the drone, and a drone that leaves is spoken of only where one does.</summary>
    [Theory]
    [InlineData(PlayerRole.Plays, @"\b[Ss]ing\b|\b[Tt]he voice\b|\b[Bb]oth\b|\btogether\b")]
    [InlineData(PlayerRole.Sings, @"\b[Pp]lay\b|\b[Bb]oth\b|\btogether\b|\b[Bb]end\b")]
    public void A_prompt_asks_for_the_players_own_tone_alone(PlayerRole role, string ofTheOther)
    {
        int asked = 0;
        foreach (DroneUse drone in Enum.GetValues<DroneUse>())
        {
            foreach (Exercise exercise in ShippedExercises.Library.Exercises.Where(exercise => exercise.PlayAlong is { Passage: null }))
            {
                ResolvedExercise written = ShippedExercises.Resolve(exercise.Id);
                ResolvedExercise taken = new TakeOptions(role, drone).Apply(written);
                Assert.DoesNotContain("half way", exercise.About, StringComparison.Ordinal);
                foreach ((ExerciseStep before, ExerciseStep step) in written.Steps.Zip(taken.Steps).Where(pair => pair.First.Task is PlayTask { Played: not null, Sung: not null }))
                {
                    asked++;
                    Assert.DoesNotMatch(ofTheOther, role == PlayerRole.Sings ? step.Prompt.Replace("Hold the voice", "", StringComparison.Ordinal) : step.Prompt);
                    Assert.DoesNotMatch(@"[{}]", step.Prompt);
                    bool hasOwnDrone = step.Sounding.Any(part => part.Role == (role == PlayerRole.Plays ? VoiceRole.Played : VoiceRole.Sung));
                    Assert.True(hasOwnDrone || !step.Prompt.Contains("drone", StringComparison.Ordinal), $"{exercise.Id}: {step.Prompt}");
                }
            }
        }

        Assert.True(asked > 100, $"{asked} steps");
    }

    [Fact]
    public void A_drone_of_one_tone_or_a_late_one_is_named_so()
    {
        SoundingPart Drone(VoiceRole role, params Window[] windows) => new(role, PitchPath.Constant(100), windows);
        Assert.Equal("", DroneSentence.Of([], 8));
        Assert.Equal(" The drone comes at 2.5 s.", DroneSentence.Of([Drone(VoiceRole.Sung, new Window(2.5, 8))], 8));
        Assert.Equal(
            " The drone of P sounds throughout. The drone of S sounds at 1 to 2 s.",
            DroneSentence.Of([Drone(VoiceRole.Played, new Window(0, 8)), Drone(VoiceRole.Sung, new Window(1, 2))], 8));
    }

    /// <summary>Four beats before and every beat of the take, each where it belongs to the sample; the rest of that channel is silent.</summary>
    [Fact]
    public void The_click_has_a_channel_of_its_own()
    {
        (float[] clicks, double goSeconds, _) = Clicks();
        List<double> heard = [];
        for (int i = 1; i < clicks.Length; i++)
        {
            if (Math.Abs(clicks[i]) > 0.01 && (heard.Count == 0 || (i / (double)OfflineEngine.SampleRateHz) - heard[^1] > 0.1))
            {
                heard.Add(i / (double)OfflineEngine.SampleRateHz);
            }
        }

        double beat = 60.0 / 50;
        double[] expected = [.. Enumerable.Range(-4, 12).Select(i => goSeconds + (i * beat))];
        Assert.Equal(expected.Length, heard.Count);
        Assert.All(heard.Zip(expected), pair => Assert.Equal(pair.Second, pair.First, 0.001));
    }

    /// <summary>Least of three takes: what is made once for the whole process, or by a collection, falls into one of them.</summary>
    [Fact]
    public void A_take_of_clicks_allocates_nothing() =>
        Assert.Equal(0, Enumerable.Range(0, 3).Min(_ => Clicks().AllocatedBytes));

    private static (float[] Clicks, double GoSeconds, long AllocatedBytes) Clicks()
    {
        var offline = new OfflineEngine();
        ResolvedExercise resolved = ShippedExercises.Resolve("contrary-motion");
        var session = new PlayAlongSession(
            resolved, offline.Engine, (rate, _) => new ScriptedTracker(rate, resolved),
            new PlayAlongOptions(OfflineEngine.SampleRateHz, OfflineEngine.SampleRateHz, Click: ClickUse.Throughout));
        session.Begin();
        double go = 0.15 + session.CueSeconds;
        float[] clicks = new float[(int)((go + resolved.TakeSeconds) * OfflineEngine.SampleRateHz / OfflineEngine.BlockSamples) * OfflineEngine.BlockSamples];
        int at = 0;
        long allocated = 0;
        offline.Render((double)clicks.Length / OfflineEngine.SampleRateHz, () =>
        {
            session.Poll();
            long before = GC.GetAllocatedBytesForCurrentThread();
            session.RenderClick(clicks.AsSpan(at, OfflineEngine.BlockSamples));
            allocated += GC.GetAllocatedBytesForCurrentThread() - before;
            at += OfflineEngine.BlockSamples;
        });
        return (clicks, go, allocated);
    }
}
