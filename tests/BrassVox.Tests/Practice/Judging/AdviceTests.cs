using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>One thing to try next: which of several faults it answers, and for which tone. The cures are our own, to be tried with players.</summary>
public sealed class AdviceTests
{
    private static readonly ResolvedExercise Home = ShippedExercises.Resolve("open-home-pair");

    private static Finding Missed(Fault fault, VoiceRole? role = VoiceRole.Sung, double? value = null, string criterion = "") => new("", criterion, role, Verdict.Missed, fault, value, null, "", null, "");

    private static Finding Of(Verdict verdict, string criterion = "", VoiceRole? role = null) => new("", criterion, role, verdict, Fault.None, null, null, "", null, "");

    private static JudgedTone Tone(VoiceRole role, double? offset) => new(role, offset, 0, 0, null, null, 0, 1, 1);

    private static string Next(params Finding[] findings) => Advice.Next(Home, findings, []);

    public static TheoryData<Fault, VoiceRole?, string> Cures() => new()
    {
        { Fault.NoTone, VoiceRole.Sung, "Sing alone through the instrument with still lips" },
        { Fault.NoTone, VoiceRole.Played, "Play alone until the note speaks at once" },
        { Fault.WrongOctave, VoiceRole.Sung, "Hear the sung note in your head in its own octave" },
        { Fault.WrongOctave, VoiceRole.Played, "Hear the played note in your head in its own octave" },
        { Fault.OtherNote, VoiceRole.Sung, "Another note than asked: hear the sung note" },
        { Fault.OtherNote, VoiceRole.Played, "Another note than asked: hear the played note" },
        { Fault.TooShort, VoiceRole.Sung, "a lower, easier breath" },
        { Fault.NotTogether, null, "Overlap for one easy beat" },
        { Fault.Late, VoiceRole.Sung, "Breathe with the count" },
        { Fault.Broken, VoiceRole.Sung, "the played tone soft" },
        { Fault.Broken, VoiceRole.Played, "the sung tone soft" },
        { Fault.Drift, VoiceRole.Sung, "renew the breath before the tone moves" },
        { Fault.Spread, VoiceRole.Sung, "The sung tone alone, long and soft" },
        { Fault.Spread, VoiceRole.Played, "The played tone alone, long and soft" },
        { Fault.Flinch, VoiceRole.Played, "The played tone alone with the breath you use for both; then let the sung tone come in very softly" },
        { Fault.NotReturned, VoiceRole.Sung, "Keep the place in mouth and throat" },
        { Fault.Interval, null, "the two notes with the widest error" },
        { Fault.NotLanded, null, "listen for the beats to slow down" },
        { Fault.Balance, null, "Keep the voice where it is and change the lips alone" },
        { Fault.BeatRate, null, "Count the beats aloud" },
    };

    [Theory]
    [MemberData(nameof(Cures))]
    public void Each_fault_has_its_own_cure(Fault fault, VoiceRole? role, string words) => Assert.Contains(words, Next(Missed(fault, role)), StringComparison.Ordinal);

    [Theory]
    [InlineData(VoiceRole.Sung, 12.0, "The sung tone is high: hear it lower")]
    [InlineData(VoiceRole.Sung, -12.0, "The sung tone is low: hear it higher")]
    [InlineData(VoiceRole.Played, 12.0, "The played tone is high: hear it lower")]
    [InlineData(VoiceRole.Played, -12.0, "The played tone is low: hear it higher")]
    public void A_place_is_cured_by_its_sign(VoiceRole role, double cents, string words) => Assert.StartsWith(words, Next(Missed(Fault.Offset, role, cents)), StringComparison.Ordinal);

    /// <summary>A tone, its octave, its beginning, its place, its steadiness, then the pair.</summary>
    [Fact]
    public void What_has_to_be_right_first_is_cured_first()
    {
        Fault[] order =
        [
            Fault.NoTone, Fault.WrongOctave, Fault.OtherNote, Fault.TooShort, Fault.NotTogether, Fault.Late, Fault.Broken, Fault.Offset,
            Fault.Drift, Fault.Spread, Fault.Flinch, Fault.NotReturned, Fault.Interval, Fault.NotLanded, Fault.BeatRate, Fault.Balance,
        ];
        for (int i = 1; i < order.Length; i++)
        {
            Assert.Equal(Next(Missed(order[i - 1])), Next(Missed(order[i]), Of(Verdict.Met), Missed(order[i - 1])));
        }
    }

    [Theory]
    [InlineData(Fault.Late, "The same bars slower, with the click")]
    [InlineData(Fault.Offset, "Only the notes marked no, slowly")]
    public void Note_by_note_the_cure_is_of_the_bars(Fault fault, string words) => Assert.StartsWith(words, Next(Missed(fault, null, 0.5, "notes")), StringComparison.Ordinal);

    [Fact]
    public void What_could_not_be_told_is_neither_praised_nor_blamed()
    {
        Assert.StartsWith("Nothing could be told. Play nearer to the microphone", Next(Of(Verdict.NotTold), Of(Verdict.NotTold)), StringComparison.Ordinal);
        Assert.Equal("As asked. 3 of 4 like this, then the next exercise.", Next(Of(Verdict.NotTold), Of(Verdict.Met)));
        Assert.Equal("As asked. 3 of 4 like this, then with less help, or faster.", Advice.Next(Home with { Exercise = Home.Exercise with { Number = 0 } }, [Of(Verdict.Met)], []));
    }

    /// <summary>True means within 15 c at grade II, where an exercise asks for no place.</summary>
    [Theory]
    [InlineData(15.0, -15.0, "As asked. 3 of 4 like this, then the next exercise.")]
    [InlineData(16.0, 0.0, "As asked. 3 of 4 like this, then the next exercise. Its place is not asked here, but the played tone lay 16 c high.")]
    [InlineData(16.0, -20.0, "As asked. 3 of 4 like this, then the next exercise. Its place is not asked here, but the sung tone lay 20 c low.")]
    [InlineData(null, 20.0, "As asked. 3 of 4 like this, then the next exercise. Its place is not asked here, but the sung tone lay 20 c high.")]
    public void A_place_nobody_asked_for_is_told_beside_as_asked(double? played, double? sung, string text) =>
        Assert.Equal(text, Advice.Next(Home, [Of(Verdict.Met)], [Tone(VoiceRole.Played, played), Tone(VoiceRole.Sung, sung)]));

    [Theory]
    [InlineData("offset", VoiceRole.Played, false)]
    [InlineData("offset", VoiceRole.Sung, true)]
    [InlineData("spread", VoiceRole.Played, true)]
    [InlineData("notes", null, false)]
    [InlineData("interval", null, false)]
    [InlineData("landing", null, false)]
    [InlineData("beatRate", null, false)]
    public void A_place_that_something_asked_for_is_not_told_twice(string criterion, VoiceRole? role, bool isTold) =>
        Assert.Equal(isTold, Advice.Next(Home, [Of(Verdict.Met, criterion, role)], [Tone(VoiceRole.Played, 30), null]).Contains("not asked here", StringComparison.Ordinal));

    [Theory]
    [InlineData(VoiceRole.Played, false)]
    [InlineData(VoiceRole.Sung, true)]
    public void A_tone_that_moves_has_no_place_to_lie_off(VoiceRole role, bool isTold)
    {
        ResolvedExercise moving = DrawnTake.Exercise(2, DrawnTake.Part(VoiceRole.Played, (0, 1, 100), (1, 2, 200)), DrawnTake.Part(VoiceRole.Sung, (0, 2, 150)));
        Assert.Equal(isTold, Advice.Next(moving, [Of(Verdict.Met)], [Tone(role, 30)]).Contains("not asked here", StringComparison.Ordinal));
    }
}
