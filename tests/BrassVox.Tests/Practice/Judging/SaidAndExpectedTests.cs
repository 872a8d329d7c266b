using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>A player's sentence and expected number beside figures that are given. No outside source: the limits are the program's own.</summary>
public sealed class SaidAndExpectedTests
{
    private static JudgedTone Tone(VoiceRole role, double? offset = 0, double? spread = 0, double? drift = 0) => new(role, offset, spread, drift, null, null, 0, 1, 1);

    private static TakeResult Result(JudgedTone? played = null, JudgedTone? sung = null, JudgedPair? pair = null, Grade aim = Grade.II, params Finding[] findings) =>
        new("", aim, null, null, findings, played, sung, pair ?? new JudgedPair(null, 0, 0, null, 0, 0), null, "");

    private static Finding Place(VoiceRole role, double limit, string unit = "c", string criterion = "offset") => new("", criterion, role, Verdict.Met, Fault.None, 0, limit, unit, null, "");

    private static SayingCheck OfPlayed(SaidPitch said, double? offset, Grade aim = Grade.II, params Finding[] findings) =>
        Sayings.Compare(new Saying(said, null, null, SaidLine.Held, Sureness.Certain), Result(Tone(VoiceRole.Played, offset), aim: aim, findings: findings))[0];

    [Theory]
    [InlineData(Grade.I, 25, SaidPitch.True)]
    [InlineData(Grade.I, 25.1, SaidPitch.High)]
    [InlineData(Grade.II, 15, SaidPitch.True)]
    [InlineData(Grade.II, 15.1, SaidPitch.High)]
    [InlineData(Grade.II, -15.1, SaidPitch.Low)]
    [InlineData(Grade.III, -10, SaidPitch.True)]
    [InlineData(Grade.III, -10.1, SaidPitch.Low)]
    public void Where_nothing_is_asked_true_means_the_limit_of_the_grade(Grade aim, double offset, SaidPitch right)
    {
        foreach (SaidPitch said in Enum.GetValues<SaidPitch>())
        {
            SayingCheck check = OfPlayed(said, offset, aim);
            Assert.Equal(said == right, check.IsRight);
            Assert.Equal($"my played tone was {said.ToString().ToLowerInvariant()}", check.Said);
            Assert.Equal(FormattableString.Invariant($"it was {right.ToString().ToLowerInvariant()}: {offset:+0;-0} c, true means within {(aim == Grade.I ? 25 : aim == Grade.II ? 15 : 10)}"), check.Measured);
        }
    }

    [Fact]
    public void What_an_exercise_asks_of_the_place_in_cents_is_what_true_means_there()
    {
        Assert.Equal((true, "it was true: +28 c, asked within 30"), (OfPlayed(SaidPitch.True, 28, Grade.II, Place(VoiceRole.Played, 20), Place(VoiceRole.Played, 30)).IsRight, OfPlayed(SaidPitch.True, 28, Grade.II, Place(VoiceRole.Played, 20), Place(VoiceRole.Played, 30)).Measured));

        // The other tone's limit, a limit in beats and one of drift are none of its place.
        Assert.Equal("it was high: +28 c, true means within 15", OfPlayed(SaidPitch.True, 28, Grade.II, Place(VoiceRole.Sung, 30), Place(VoiceRole.Played, 30, "/s"), Place(VoiceRole.Played, 30, "c", "drift")).Measured);
    }

    [Fact]
    public void A_tone_that_was_not_told_leaves_the_sentence_open()
    {
        Assert.Equal((null, "not told"), (OfPlayed(SaidPitch.True, null).IsRight, OfPlayed(SaidPitch.True, null).Measured));
        IReadOnlyList<SayingCheck> none = Sayings.Compare(new Saying(null, SaidPitch.Low, SaidPair.Beat, SaidLine.Held, Sureness.Certain), Result());
        Assert.Equal(["my sung tone was low", "the pair beat", "it held"], none.Select(check => check.Said));
        Assert.All(none, check => Assert.Equal((null, "not told"), (check.IsRight, check.Measured)));
    }

    [Fact]
    public void Only_what_was_said_is_compared() =>
        Assert.Equal(["my sung tone was high", "it drifted"], Sayings.Compare(new Saying(null, SaidPitch.High, null, SaidLine.Drifted, Sureness.Certain), Result(Tone(VoiceRole.Played), Tone(VoiceRole.Sung))).Select(check => check.Said));

    [Theory]
    [InlineData(3.0, 2.0, 5.0, SaidPair.Still, "it stood still: under 1.0 /s")]
    [InlineData(2.0, 2.0, 12.0, SaidPair.Beat, "it beat, half the time over 12.0 /s")]
    [InlineData(0.0, 2.0, 12.1, SaidPair.Grainy, "it beat, half the time over 12.1 /s")]
    public void A_pair_stands_still_beats_or_is_grainy_over_12_a_second(double still, double beating, double rate, SaidPair right, string measured)
    {
        foreach (SaidPair said in Enum.GetValues<SaidPair>())
        {
            SayingCheck check = Sayings.Compare(new Saying(null, null, said, SaidLine.Held, Sureness.Certain), Result(pair: new JudgedPair(rate, still, beating, null, 0, 0)))[0];
            Assert.Equal((said == right, measured), (check.IsRight, check.Measured));
            Assert.Equal(said switch { SaidPair.Still => "the pair stood still", SaidPair.Beat => "the pair beat", _ => "the pair was grainy" }, check.Said);
        }
    }

    /// <summary>A pair slow enough to count as still beats all the same: who heard that heard rightly, from one beat in four seconds on.</summary>
    [Theory]
    [InlineData(0.24, false, "it stood still: under 2.0 /s")]
    [InlineData(0.26, true, "it beat slowly, half the time over 0.3 /s; still is under 2.0 /s")]
    [InlineData(1.83, true, "it beat slowly, half the time over 1.8 /s; still is under 2.0 /s")]
    [InlineData(2.0, false, "it stood still: under 2.0 /s")]
    public void Slow_beats_that_were_heard_were_heard_rightly(double rate, bool isRight, string measured)
    {
        SayingCheck check = Sayings.Compare(new Saying(null, null, SaidPair.Beat, SaidLine.Held, Sureness.Certain), Result(pair: new JudgedPair(rate, 3, 1, null, 0, 0, 2)))[0];
        Assert.Equal((isRight, measured), (check.IsRight, check.Measured));
    }

    /// <summary>Who said still and was nearer than twice the limit is told what still is there; who said something else is not.</summary>
    [Theory]
    [InlineData(SaidPair.Still, 3.9, "it beat, half the time over 3.9 /s; still is under 2.0 /s")]
    [InlineData(SaidPair.Still, 4.0, "it beat, half the time over 4.0 /s")]
    [InlineData(SaidPair.Beat, 3.9, "it beat, half the time over 3.9 /s")]
    public void Near_stillness_its_limit_is_told(SaidPair said, double rate, string measured) =>
        Assert.Equal(measured, Sayings.Compare(new Saying(null, null, said, SaidLine.Held, Sureness.Certain), Result(pair: new JudgedPair(rate, 1, 2, null, 0, 0, 2)))[0].Measured);

    [Theory]
    [InlineData(15, 15, SaidLine.Held, "it held: wander 15 c, drift +15 c")]
    [InlineData(16, 15, SaidLine.Wandered, "it wandered: wander 16 c, drift +15 c")]
    [InlineData(16, -17, SaidLine.Drifted, "it drifted: wander 16 c, drift -17 c")]
    [InlineData(17, 16, SaidLine.Wandered, "it wandered: wander 17 c, drift +16 c")]
    [InlineData(16, 16, SaidLine.Wandered, "it wandered: wander 16 c, drift +16 c")]
    public void A_line_held_wandered_or_drifted_by_what_was_larger(double wander, double drift, SaidLine right, string measured)
    {
        // The wander of one tone and the drift of the other: the worse of the two counts.
        TakeResult result = Result(Tone(VoiceRole.Played, spread: wander, drift: 1), Tone(VoiceRole.Sung, spread: 1, drift: drift));
        foreach (SaidLine said in Enum.GetValues<SaidLine>())
        {
            SayingCheck check = Sayings.Compare(new Saying(null, null, null, said, Sureness.Certain), result)[0];
            Assert.Equal((said == right, measured, $"it {said.ToString().ToLowerInvariant()}"), (check.IsRight, check.Measured, check.Said));
        }
    }

    [Fact]
    public void A_line_is_told_from_one_tone_where_the_other_has_none() =>
        Assert.True(Sayings.Compare(new Saying(null, null, null, SaidLine.Wandered, Sureness.Certain), Result(Tone(VoiceRole.Played, null, null, null), Tone(VoiceRole.Sung, 0, 20, 0)))[0].IsRight);

    [Theory]
    [InlineData(PredictedFigure.PlayedCents, -20, -10, true, "expected P -10 c", "it was -20 c; near enough is within 10 c")]
    [InlineData(PredictedFigure.PlayedCents, -20.1, -10, false, "expected P -10 c", "it was -20 c; near enough is within 10 c")]
    [InlineData(PredictedFigure.SungCents, 30, 20, true, "expected S +20 c", "it was +30 c; near enough is within 10 c")]
    [InlineData(PredictedFigure.SungCents, 9, 20, false, "expected S +20 c", "it was +9 c; near enough is within 10 c")]
    [InlineData(PredictedFigure.Beats, 2.5, 2, true, "expected 2.0 /s", "it was 2.5 /s; near enough is within 0.6 /s")]
    [InlineData(PredictedFigure.Beats, 2.7, 2, false, "expected 2.0 /s", "it was 2.7 /s; near enough is within 0.6 /s")]
    public void An_expected_number_is_right_within_10_cents(PredictedFigure figure, double measured, double expected, bool isRight, string said, string told)
    {
        // 10 c of 100 Hz: 100 (2^(10/1200) - 1) = 0.579 /s.
        TakeResult result = Result(
            Tone(VoiceRole.Played, figure == PredictedFigure.PlayedCents ? measured : 500), Tone(VoiceRole.Sung, figure == PredictedFigure.SungCents ? measured : 500),
            new JudgedPair(figure == PredictedFigure.Beats ? measured : 500, 0, 1, null, 0, 0));
        Assert.Equal(new SayingCheck(said, told, isRight), Predictions.Compare(new Prediction(figure, expected), result, 100));
    }

    [Fact]
    public void The_numbers_offered_lie_as_far_apart_as_one_may_be_off()
    {
        Assert.Equal([-40, -30, -20, -10, 0, 10, 20, 30, 40], Predictions.Offered(PredictedFigure.PlayedCents));
        Assert.Equal(Predictions.Offered(PredictedFigure.PlayedCents), Predictions.Offered(PredictedFigure.SungCents));
        Assert.Equal([0, 0.5, 1, 2, 3, 4, 6, 9, 12], Predictions.Offered(PredictedFigure.Beats));
    }

    [Theory]
    [InlineData(PredictedFigure.PlayedCents, "played tone to lie, in cents")]
    [InlineData(PredictedFigure.SungCents, "sung tone to lie, in cents")]
    [InlineData(PredictedFigure.Beats, "the pair to beat, a second")]
    public void The_question_names_the_tone_and_the_unit(PredictedFigure figure, string words) => Assert.Contains(words, Predictions.Question(figure), StringComparison.Ordinal);

    [Theory]
    [InlineData(PredictedFigure.SungCents, "600", "601", "\"601\" is no expected number of cents; write one from -600 to 600, as in -10.")]
    [InlineData(PredictedFigure.SungCents, "-600", "-601", "\"-601\" is no expected number of cents; write one from -600 to 600, as in -10.")]
    [InlineData(PredictedFigure.Beats, "0", "-0.5", "\"-0.5\" is no expected number of beats a second; write one from 0 to 50, as in 1.5.")]
    [InlineData(PredictedFigure.Beats, "50", "50.5", "\"50.5\" is no expected number of beats a second; write one from 0 to 50, as in 1.5.")]
    public void Numbers_have_ends(PredictedFigure figure, string last, string beyond, string problem)
    {
        Assert.NotNull(Predictions.Read(figure, last).Prediction);
        Assert.Equal((null, problem), Predictions.Read(figure, beyond));
    }

    [Theory]
    [InlineData(PredictedFigure.PlayedCents, true, false, true)]
    [InlineData(PredictedFigure.PlayedCents, false, true, false)]
    [InlineData(PredictedFigure.SungCents, false, true, true)]
    [InlineData(PredictedFigure.SungCents, true, false, false)]
    [InlineData(PredictedFigure.Beats, true, true, true)]
    [InlineData(PredictedFigure.Beats, true, false, false)]
    [InlineData(PredictedFigure.Beats, false, true, false)]
    public void Only_a_tone_that_is_asked_for_is_predicted(PredictedFigure figure, bool played, bool sung, bool isAsked)
    {
        ResolvedExercise drawn = DrawnTake.Exercise(1, played ? DrawnTake.Part(VoiceRole.Played, (0, 1, 100)) : null, sung ? DrawnTake.Part(VoiceRole.Sung, (0, 1, 150)) : null);
        ResolvedExercise exercise = drawn with { Exercise = drawn.Exercise with { PlayAlong = drawn.Exercise.PlayAlong! with { Predict = figure } } };
        Assert.Equal(isAsked ? figure : null, Predictions.AskedBy(exercise));
        Assert.Null(Predictions.AskedBy(drawn with { Exercise = drawn.Exercise with { PlayAlong = drawn.Exercise.PlayAlong! with { Predict = null } } }));
    }

    /// <summary>A loudspeaker alone stands still as well: what the pair did is told where both were there and nothing else was.</summary>
    [Theory]
    [InlineData(2, Fault.None, "offset", true)]
    [InlineData(1.9, Fault.None, "offset", false)]
    [InlineData(4, Fault.Bleed, "offset", false)]
    [InlineData(4, Fault.None, "second", false)]
    public void What_the_pair_did_is_told_where_both_tones_were_there(double heardSeconds, Fault fault, string criterion, bool isTold)
    {
        TakeResult result = Result(
            Tone(VoiceRole.Played) with { HeardSeconds = 4, AskedSeconds = 4 }, Tone(VoiceRole.Sung) with { HeardSeconds = heardSeconds, AskedSeconds = 4 },
            new JudgedPair(0.2, 3, 0, null, 0, 4), Grade.II, Place(VoiceRole.Sung, 15, criterion: criterion) with { Fault = fault });
        SayingCheck pair = Sayings.Compare(new Saying(null, null, SaidPair.Still, SaidLine.Held, Sureness.Guessing), result)[0];
        Assert.Equal(isTold ? true : null, pair.IsRight);
        Assert.Equal(isTold, pair.Measured != "not told");
    }
}
