using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>The number said before a take beside the one measured. The limit of 10 c is our own curriculum's; no outside source.</summary>
public sealed class PredictionTests
{
    [Theory]
    [InlineData("balance", VoiceRole.Played, 12, 3, true)]
    [InlineData("balance", VoiceRole.Played, 12, -2, false)]
    [InlineData("passage", VoiceRole.Sung, -18, -10, true)]
    [InlineData("passage", VoiceRole.Sung, -18, 0, false)]
    public void What_was_expected_is_right_within_10_cents(string id, VoiceRole role, double offset, double expected, bool isRight)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(id);
        PredictedFigure figure = Predictions.AskedBy(resolved)!.Value;
        Assert.Equal(role == VoiceRole.Played ? PredictedFigure.PlayedCents : PredictedFigure.SungCents, figure);
        SimulatedTone off = new() { OffsetCents = offset };
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, role == VoiceRole.Played ? off : new(), role == VoiceRole.Sung ? off : new()), 1);
        SayingCheck check = Predictions.Compare(new Prediction(figure, expected), result, resolved.Pair.SungHz);
        Assert.Equal(isRight, check.IsRight);
        Assert.Contains($"{offset:+0;-0} c", check.Measured, StringComparison.Ordinal);
    }

    [Fact]
    public void Beats_are_right_within_what_10_cents_of_the_sung_tone_come_to()
    {
        // 10 c at 100 Hz: 100 x (2^(10/1200) - 1) = 0.579 Hz.
        TakeResult result = new("", Grade.I, null, null, [], null, null, new JudgedPair(2.0, 0, 1, null, 1, 0), null, "");
        Assert.True(Predictions.Compare(new Prediction(PredictedFigure.Beats, 2.57), result, 100).IsRight);
        Assert.False(Predictions.Compare(new Prediction(PredictedFigure.Beats, 2.59), result, 100).IsRight);
    }

    [Fact]
    public void A_tone_that_was_not_told_leaves_the_prediction_open()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("balance");
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, new() { Sounds = false }, new()), 1);
        Assert.Null(Predictions.Compare(new Prediction(PredictedFigure.PlayedCents, 0), result, resolved.Pair.SungHz).IsRight);
    }

    [Fact]
    public void Who_only_sings_is_not_asked_about_the_played_tone()
    {
        ResolvedExercise resolved = new TakeOptions(PlayerRole.Sings).Apply(ShippedExercises.Resolve("balance"));
        Assert.Null(Predictions.AskedBy(resolved));
    }

    [Theory]
    [InlineData(PredictedFigure.SungCents, "-12.5", -12.5)]
    [InlineData(PredictedFigure.Beats, "1.5", 1.5)]
    public void A_number_is_read(PredictedFigure figure, string text, double value) => Assert.Equal(value, Predictions.Read(figure, text).Prediction!.Value);

    [Theory]
    [InlineData(PredictedFigure.SungCents, "sharp")]
    [InlineData(PredictedFigure.SungCents, "601")]
    [InlineData(PredictedFigure.Beats, "-1")]
    [InlineData(PredictedFigure.Beats, "NaN")]
    public void What_is_no_number_is_refused_with_what_to_write(PredictedFigure figure, string text)
    {
        (Prediction? prediction, string? problem) = Predictions.Read(figure, text);
        Assert.Null(prediction);
        Assert.Contains($"\"{text}\"", problem, StringComparison.Ordinal);
        Assert.Contains("write one from", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_kept_take_keeps_what_was_expected()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("balance");
        var frames = SimulatedPlayer.Frames(resolved, new(), new());
        string folder = Directory.CreateTempSubdirectory("brassvox-expected-").FullName;
        try
        {
            var take = new JudgedTake(resolved, 1, new RecordedTake(new float[4800], 48000, 0), frames, TakeJudge.Judge(resolved, frames, 1)) { Expected = new Prediction(PredictedFigure.PlayedCents, -10) };
            var store = new TakeStore(folder, TimeProvider.System);
            TakeRecord kept = store.Keep(take, null).Record!;
            Assert.Equal(take.Expected, store.Read(kept.Id)!.Expected);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
