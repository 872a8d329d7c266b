using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>What each criterion asks, in the player's words, with its own figures.</summary>
public sealed class CriterionTextTests
{
    private static readonly GradeLimits Limits = new(30, 20, 10);

    public static TheoryData<Criterion, string> Asked() => new()
    {
        { new OffsetCriterion(VoiceRole.Sung, Limits), "sung tone within 20 c of its note" },
        { new OffsetCriterion(VoiceRole.Played, Limits, AnyOctave: true), "played tone within 20 c of its note, in any octave" },
        { new SpreadCriterion(VoiceRole.Sung, Limits), "sung tone wanders at most 20 c; vibrato is not counted" },
        { new DriftCriterion(VoiceRole.Played, Limits), "played tone rises or sinks at most 20 c" },
        { new SteadyCriterion(VoiceRole.Played, Limits), "played tone shifts at most 20 c while the other comes or moves" },
        { new UnbrokenCriterion(VoiceRole.Sung), "sung tone glides in one piece, at least half the way" },
        { new UnbrokenCriterion(VoiceRole.Played, LargestJumpCents: 150), "played tone moves in one piece, at least half the way" },
        { new LandingCriterion(1.5, 2), "beats under 1.5 /s (on Bb2; elsewhere the same in cents) for 2 s" },
        { new BeatRateCriterion(3, 0.5), "beats 3 /s within 0.5" },
        { new ArrivalCriterion(VoiceRole.Sung, 0.5, Limits), "sung tone there within 0.5 s, to 20 c" },
        { new TogetherCriterion(1.5), "both tones at once for 1.5 s" },
        { new ReturnCriterion(VoiceRole.Played, Limits), "played tone comes back within 20 c" },
        { new NotesCriterion(Limits, 0.25, 0.75), "75 per cent of the notes within 20 c and 0.25 s" },
        { new BalanceCriterion(3), "the played tone grows against the sung one by 3 dB each time" },
        { new IntervalCriterion(Limits, new GradeLimits(60, 50, 40)), "the interval within 20 c, 50 c after a leap wider than a third" },
    };

    [Theory]
    [MemberData(nameof(Asked))]
    public void A_criterion_says_what_it_asks_at_a_grade(Criterion criterion, string text) => Assert.Equal(text, CriterionText.Of(criterion, Grade.II));

    [Fact]
    public void What_is_asked_of_both_tones_alike_stands_once() => Assert.Equal(
        ["each tone within 20 c of its note", "each tone wanders at most 20 c; vibrato is not counted", "sung tone rises or sinks at most 20 c", "both tones at once for 1.5 s"],
        CriterionText.Lines(
            [
                new OffsetCriterion(VoiceRole.Played, Limits), new OffsetCriterion(VoiceRole.Sung, Limits), new SpreadCriterion(VoiceRole.Sung, Limits), new DriftCriterion(VoiceRole.Sung, Limits),
                new SpreadCriterion(VoiceRole.Played, Limits), new TogetherCriterion(1.5), new TogetherCriterion(1.5),
            ],
            Grade.II));

    [Theory]
    [InlineData(Grade.I, 30)]
    [InlineData(Grade.II, 20)]
    [InlineData(Grade.III, 10)]
    public void Each_grade_has_its_own_limit(Grade grade, double limit) => Assert.Equal(limit, Limits.Of(grade));
}
