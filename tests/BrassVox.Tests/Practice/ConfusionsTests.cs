using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>A listening set at a glance: what was taken for what.</summary>
public sealed class ConfusionsTests
{
    private static readonly ListeningTrial Trial = new(1, [], 0, "Which?", ["fifth", "fourth", "third"], 0, null, null, "");

    [Fact]
    public void Each_thing_that_sounded_has_one_line_in_the_order_of_the_answers()
    {
        IReadOnlyList<Confusions> lines = Confusions.Of([Chose("third", "fourth"), Chose("fifth", "fifth"), Chose("third", "fourth"), Chose("fifth", "fourth"), Chose("fourth", "fourth"), Chose("third", "third")]);
        Assert.Equal(
            ["fifth: 1 of 1 told", "fourth: 1 of 4 told; 2 taken for third; 1 taken for fifth", "third: 1 of 1 told"],
            lines.Select(line => $"{line.Truth}: {line.Words}"));
    }

    [Fact]
    public void Counted_beats_are_told_by_too_slow_and_too_fast()
    {
        Confusions line = Assert.Single(Confusions.Of([Counted(-50, false), Counted(-30, false), Counted(40, false), Counted(5, true)]));
        Assert.Equal("beats: 1 of 4 told; 2 too slow; 1 too fast", $"{line.Truth}: {line.Words}");
    }

    [Fact]
    public void Before_the_first_answer_there_is_nothing() => Assert.Empty(Confusions.Of([]));

    private static TrialResult Chose(string answer, string truth) => new(Trial, answer == truth, answer, truth, null, 1);

    private static TrialResult Counted(double error, bool right) => new(Trial with { Options = [] }, right, "2.0 /s", "3.0 /s", error, 1);
}
