using BrassVox.Analysis.Scoring;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Source: definitions of the library mir_eval (melody, multipitch), worked by hand on toy frames.</summary>
public sealed class ScoringTests
{
    [Fact]
    public void Melody_toy()
    {
        var score = new MelodyScore([100, 200, 300], [100, 400, 300 * Math.Pow(2, 51 / 1200.0)]);
        Assert.Equal(1 / 3.0, score.RawPitchAccuracy, 1e-12);
        Assert.Equal(2 / 3.0, score.RawChromaAccuracy, 1e-12);
        Assert.Equal(1, score.VoicingRecall);
        Assert.Equal(1 / 3.0, score.OverallAccuracy, 1e-12);
    }

    [Fact]
    public void Melody_counts_silence_and_unvoiced_guesses()
    {
        var score = new MelodyScore([0, 0, 100, 100, 100], [0, 50, -100, 100, 0]);
        Assert.Equal(0.5, score.VoicingFalseAlarm);
        Assert.Equal(1 / 3.0, score.VoicingRecall, 1e-12);
        Assert.Equal(2 / 3.0, score.RawPitchAccuracy, 1e-12);
        Assert.Equal(0.4, score.OverallAccuracy, 1e-12);
        Assert.Throws<ArgumentException>(() => new MelodyScore([1], []));
        Assert.Equal(0, new MelodyScore([], []).RawPitchAccuracy);
    }

    [Fact]
    public void Multi_pitch_toy()
    {
        var score = new MultiPitchScore();
        score.Add([58.27, 87.31], [58.27, 116.54]);
        Assert.Equal(0.5, score.Precision);
        Assert.Equal(0.5, score.Recall);
        Assert.Equal(1 / 3.0, score.Accuracy, 1e-12);
        Assert.Equal(0.5, score.SubstitutionError);
        Assert.Equal(0.5, score.TotalError);
    }

    [Fact]
    public void Multi_pitch_counts_missing_and_invented_pitches_and_matches_one_to_one()
    {
        var score = new MultiPitchScore();
        score.Add([100, 200], [100]);
        score.Add([100], [100, 150, 200]);
        score.Add([100, 104], [102]);
        score.Add([], []);
        Assert.Equal(3 / 5.0, score.Precision, 1e-12);
        Assert.Equal(3 / 5.0, score.Recall, 1e-12);
        Assert.Equal(2 / 5.0, score.MissError, 1e-12);
        Assert.Equal(2 / 5.0, score.FalseAlarmError, 1e-12);
        Assert.Equal(0, score.SubstitutionError);
    }

    /// <summary>Right is under 50 cents off, either side, in the melody's measure and in that of several pitches.</summary>
    [Theory]
    [InlineData(49.9, true)]
    [InlineData(50.1, false)]
    [InlineData(-49.9, true)]
    [InlineData(-50.1, false)]
    public void Half_a_semitone_off_is_wrong(double cents, bool isRight)
    {
        double hz = 100 * Math.Pow(2, cents / 1200);
        var melody = new MelodyScore([100, 100], [hz, 2 * hz]);
        Assert.Equal(isRight ? 0.5 : 0, melody.RawPitchAccuracy);
        Assert.Equal(isRight ? 1 : 0, melody.RawChromaAccuracy);
        var several = new MultiPitchScore();
        several.Add([100], [hz]);
        Assert.Equal((isRight ? 1 : 0, isRight ? 0 : 1), (several.Precision, several.TotalError));
    }

    /// <summary>What is missing, put in another's place and invented adds up; nothing is divided by nothing.</summary>
    [Fact]
    public void Errors_of_several_pitches_add_up()
    {
        var score = new MultiPitchScore();
        Assert.Equal((0.0, 0.0, 0.0, 0.0), (score.Precision, score.Recall, score.Accuracy, score.TotalError));
        score.Add([300, 100, 200], [210, 100]);
        score.Add([], [500]);

        // Of three true pitches: one found, one wrong, one missing; one invented.
        Assert.Equal((1 / 3.0, 1 / 3.0, 1 / 3.0, 1.0), (score.SubstitutionError, score.MissError, score.FalseAlarmError, score.TotalError));
        Assert.Equal((1 / 3.0, 1 / 3.0, 1 / 5.0), (score.Precision, score.Recall, score.Accuracy));
        Assert.Contains("2 true and 1 measured", Assert.Throws<ArgumentException>(() => new MelodyScore([1, 2], [1])).Message, StringComparison.Ordinal);
    }

    /// <summary>One measured pitch beside another serves no second time, and one too low or too high does not hide those after it.</summary>
    [Theory]
    [InlineData(new double[] { 100 }, new double[] { 100, 101 }, 0.5)]
    [InlineData(new double[] { 100, 300 }, new double[] { 200, 300 }, 0.5)]
    [InlineData(new double[] { 200, 300 }, new double[] { 100, 300 }, 0.5)]
    public void Each_pitch_is_matched_once_and_past_those_that_match_none(double[] truth, double[] measured, double precision)
    {
        var score = new MultiPitchScore();
        score.Add(truth, measured);
        Assert.Equal(precision, score.Precision);
    }
}
