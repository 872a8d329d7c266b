using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Tests.Practice.Judging;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>The two ways in which the beats of a take are told: at the centres of its tones, and as they moved.</summary>
public sealed class PairBeatsTests
{
    private static readonly PlayerProfile LowTrombone = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low);

    /// <summary>Exact: 3 x 116.54 Hz moved by 1 c against 2 x 174.81 Hz moved by 3 c differ by 349.62 (2^(3/1200) - 2^(1/1200)) = 0.404 a second.</summary>
    [Fact]
    public void Centres_beat_as_their_offsets_say_and_a_still_one_does_not()
    {
        ResolvedExercise fifth = ExerciseResolver.Resolve(ShippedExercises.Find("open-home-pair"), LowTrombone).Resolved!;
        double line = 3 * fifth.Pair.PlayedHz;
        Assert.Equal(line * (Math.Pow(2, 3 / 1200.0) - Math.Pow(2, 1 / 1200.0)), PairBeats.OfCentres(fifth, Took(1, 3))!.Value, 1e-6);
        Assert.Equal(0, PairBeats.OfCentres(fifth, Took(5, 5))!.Value, 1e-6);
    }

    /// <summary>S 10 c over its note: the lowest harmonics that nearly meet as asked beat by m S (2^(10/1200) - 1), S beside P = 100 Hz. Exact.</summary>
    [Theory]
    [InlineData(100, 1, 1)]
    [InlineData(103.9, 1, 1)]
    [InlineData(96.1, 1, 1)]
    [InlineData(400.0 / 3, 4, 3)]
    [InlineData(150, 3, 2)]
    [InlineData(200, 2, 1)]
    [InlineData(50, 1, 2)]
    [InlineData(600, 6, 1)]
    [InlineData(800, 8, 1)]
    public void The_lowest_harmonics_that_nearly_meet_beat(double sungHz, int k, int m) =>
        Assert.Equal(Math.Abs((m * DrawnTake.Up(sungHz, 10)) - (k * 100)), PairBeats.OfCentres(Drawn((0, 2, sungHz)), Took(0, 10))!.Value, 1e-9);

    /// <summary>4.1 Hz apart, an equal minor third, nine to one: no harmonics up to the eighth lie within four hundredths of P.</summary>
    [Theory]
    [InlineData(104.1)]
    [InlineData(95.9)]
    [InlineData(118.92)]
    [InlineData(900)]
    public void Where_no_low_harmonics_meet_nothing_beats(double sungHz) => Assert.Null(PairBeats.OfCentres(Drawn((0, 2, sungHz)), Took(0, 10)));

    [Fact]
    public void A_note_with_rests_is_one_note_and_two_are_none()
    {
        Assert.NotNull(PairBeats.OfCentres(Drawn((0, 0.5, 150), (0.5, 1, 0), (1, 2, 150)), Took(0, 10)));
        Assert.Null(PairBeats.OfCentres(Drawn((0, 1, 150), (1, 2, 200)), Took(0, 10)));
    }

    private static ResolvedExercise Drawn(params (double FromSeconds, double ToSeconds, double Hz)[] sung) =>
        DrawnTake.Exercise(2, DrawnTake.Part(VoiceRole.Played, (0, 2, 100)), DrawnTake.Part(VoiceRole.Sung, sung));

    /// <summary>Ten frames from 0.25 to 2.5 s; what is no number tells no rate.</summary>
    [Fact]
    public void Ten_rates_make_a_course_and_its_ends_belong_to_it()
    {
        AnalysisFrame[] frames = [.. Enumerable.Range(1, 10).Select(i => Frame(0.25 * i, i)), Frame(1, double.PositiveInfinity), Frame(1, double.NaN)];
        Assert.Equal((1.0, 9.0), PairBeats.Course(frames, 0.25, 2.5));
        Assert.Null(PairBeats.Course(frames, 0.26, 2.5));
        Assert.Null(PairBeats.Course(frames, 0.25, 2.49));
    }

    [Fact]
    public void Where_a_tone_moves_or_is_not_told_there_are_no_centres()
    {
        ResolvedExercise glide = ExerciseResolver.Resolve(ShippedExercises.Find("voice-glides-to-the-octave"), LowTrombone).Resolved!;
        ResolvedExercise fifth = ExerciseResolver.Resolve(ShippedExercises.Find("open-home-pair"), LowTrombone).Resolved!;
        Assert.Null(PairBeats.OfCentres(glide, Took(1, 3)));
        Assert.Null(PairBeats.OfCentres(fifth, Took(null, 3)));
        Assert.Null(PairBeats.OfCentres(fifth, Took(1, null)));
    }

    [Fact]
    public void The_course_leaves_out_the_slowest_and_the_fastest_tenth_and_all_outside_the_take()
    {
        AnalysisFrame[] frames = [.. Enumerable.Range(0, 101).Select(i => Frame(1 + (0.04 * i), 0.1 * i)), .. Enumerable.Range(0, 50).Select(i => Frame(0.01 * i, 40))];
        (double low, double high) = PairBeats.Course(frames, 0.9, 6)!.Value;
        Assert.Equal(1, low, 1e-9);
        Assert.Equal(9, high, 1e-9);
        Assert.Null(PairBeats.Course(frames.Take(9), 0, 6));
    }

    private static AnalysisFrame Frame(double centreSeconds, double beats) =>
        new((long)Math.Round((centreSeconds - 0.08) * 48000), 7680, 48000, -20, null, null, beats, Separability.NotSeparable);

    private static TakeResult Took(double? played, double? sung) => new(
        "open-home-pair", Grade.II, true, Grade.II, [], Tone(VoiceRole.Played, played), Tone(VoiceRole.Sung, sung), new JudgedPair(4.7, 0, 4, null, 8, 0), null, "");

    private static JudgedTone Tone(VoiceRole role, double? offset) => new(role, offset, 10, 0, null, null, 0, 8, 8);
}
