using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Practice.Log;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>What a kept take was asked, found again from its record; and where in it a tone left its place.</summary>
public sealed class TakeTaskTests : IDisposable
{
    private static readonly PlayerProfile Trombone = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low);
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-task-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Xunit.Theory]
    [InlineData("open-home-pair", PlayerRole.Both, 100)]
    [InlineData("parallel-fifths", PlayerRole.Both, 80)]
    [InlineData("parallel-fifths", PlayerRole.Sings, 57)]
    [InlineData("alternate", PlayerRole.Plays, 110)]
    public void Tempo_and_role_come_back(string id, PlayerRole role, double tempo)
    {
        ResolvedExercise asked = new TakeOptions(role, TempoPercent: tempo).Apply(ShippedExercises.Resolve(id));
        ResolvedExercise found = TakeTask.Of(Record(asked), ShippedExercises.Library, _folder)!;
        Assert.Equal(asked.TakeSeconds, found.TakeSeconds, 3);
        for (double at = 0; at < asked.TakeSeconds; at += 0.05)
        {
            Assert.Equal(asked.AskedHz(VoiceRole.Played, at), found.AskedHz(VoiceRole.Played, at), (one, other) => (one is null) == (other is null) && Math.Abs((one ?? 0) - (other ?? 0)) < 0.01);
            Assert.Equal(asked.AskedHz(VoiceRole.Sung, at), found.AskedHz(VoiceRole.Sung, at), (one, other) => (one is null) == (other is null) && Math.Abs((one ?? 0) - (other ?? 0)) < 0.01);
        }
    }

    [Fact]
    public void A_loop_of_a_passage_comes_back_with_its_tempo()
    {
        Passage passage = ShippedPassages.Load(ShippedPassages.First, Trombone).Passage!;
        ResolvedExercise asked = PassageExercise.Resolve(passage, Trombone, new PassageTurn(5, 8), new TakeOptions(TempoPercent: 70));
        ResolvedExercise found = TakeTask.Of(Record(asked), ShippedExercises.Library, _folder)!;
        Assert.Equal(asked.TakeSeconds, found.TakeSeconds, 3);
        Assert.Equal(asked.AskedHz(VoiceRole.Sung, 3)!.Value, found.AskedHz(VoiceRole.Sung, 3)!.Value, 2);
    }

    [Fact]
    public void What_is_gone_changed_or_drawn_at_random_is_not_told()
    {
        TakeRecord record = Record(ShippedExercises.Resolve("open-home-pair"));
        Assert.Null(TakeTask.Of(record with { ExerciseId = "no-such-exercise" }, ShippedExercises.Library, _folder));
        Assert.Null(TakeTask.Of(record with { PlayedHz = record.PlayedHz * 1.01 }, ShippedExercises.Library, _folder));
        Assert.Null(TakeTask.Of(record with { Result = record.Result with { Findings = [.. record.Result.Findings.Select(finding => finding with { StepId = "other" })] } }, ShippedExercises.Library, _folder));
        Assert.Null(TakeTask.Of(Record(ShippedExercises.Resolve("twelve-intervals")), ShippedExercises.Library, _folder));
    }

    [Fact]
    public void A_tone_that_leaves_its_place_is_told_by_the_second_with_its_worst()
    {
        ResolvedExercise asked = ShippedExercises.Resolve("open-home-pair");
        IReadOnlyList<AnalysisFrame> frames = [.. SimulatedPlayer.Frames(asked, new SimulatedTone { OffsetCents = -4 }, new SimulatedTone { FlinchCents = -40, FlinchAtSeconds = 3 })
            .Select(frame => frame with { FirstSample = frame.FirstSample - frame.SampleRateHz })];
        Departure left = Assert.Single(Departures.Of(frames, asked, VoiceRole.Sung, 15));
        Assert.Equal(3, left.FromSeconds, 0.06);
        Assert.Equal(4, left.ToSeconds, 0.06);
        Assert.Equal(-40, left.FurthestCents, 0.5);
        Assert.Empty(Departures.Of(frames, asked, VoiceRole.Played, 15));
        Assert.Empty(Departures.Of(frames, asked, VoiceRole.Sung, 41));
        Assert.Equal(15, Departures.LimitOf(null, VoiceRole.Sung, Grade.II));
    }

    private static TakeRecord Record(ResolvedExercise asked)
    {
        IReadOnlyList<AnalysisFrame> frames = SimulatedPlayer.Frames(asked, new SimulatedTone(), new SimulatedTone());
        var judged = new JudgedTake(asked, 1, new RecordedTake([], 48000, 1.0), frames, TakeJudge.Judge(asked, frames, 1.0));
        return TakeRecord.Of(judged, null, "a", "a.wav", LogRig.Monday, withFrames: true);
    }

    /// <summary>Leaving a place is a fault only where a place is asked for.</summary>
    [Theory]
    [InlineData("open-home-pair", true, true)]
    [InlineData("voice-crosses", false, false)]
    [InlineData("voice-glides-to-the-octave", true, false)]
    public void Whether_a_place_is_asked_is_read_from_the_criteria(string exercise, bool played, bool sung)
    {
        ResolvedExercise asked = ShippedExercises.Resolve(exercise, Instrument.Trombone, VoiceKind.Low);
        Assert.Equal((played, sung), (Departures.IsPlaceAsked(asked, VoiceRole.Played), Departures.IsPlaceAsked(asked, VoiceRole.Sung)));
        Assert.True(Departures.IsPlaceAsked(null, VoiceRole.Sung));
    }
}
