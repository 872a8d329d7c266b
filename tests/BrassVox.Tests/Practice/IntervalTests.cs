using BrassVox.Practice.Exercises;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class IntervalTests
{
    /// <summary>Spelled intervals as any harmony handbook counts them (common practice).</summary>
    [Theory]
    [InlineData("P1", "Bb1", "Bb1")]
    [InlineData("P5", "Bb1", "F2")]
    [InlineData("M3", "Bb2", "D3")]
    [InlineData("m3", "Bb2", "Db3")]
    [InlineData("-M3", "Bb2", "Gb2")]
    [InlineData("-P4", "Bb3", "F3")]
    [InlineData("A4", "F2", "B2")]
    [InlineData("d5", "B2", "F3")]
    [InlineData("M6", "Bb2", "G3")]
    [InlineData("P8", "E2", "E3")]
    [InlineData("M10", "Eb2", "G3")]
    [InlineData("P12", "Bb1", "F3")]
    [InlineData("P15", "Bb1", "Bb3")]
    [InlineData("-P8", "C4", "C3")]
    [InlineData("m2", "E3", "F3")]
    [InlineData("-m2", "C4", "B3")]
    public void Intervals_lead_to_the_note_a_musician_writes(string interval, string from, string to)
    {
        Interval parsed = Interval.Parse(interval);
        Assert.Equal(Pitch.Parse(to), parsed.From(Pitch.Parse(from)));
        Assert.Equal(interval, parsed.ToString());
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("P")]
    [InlineData("P3")]
    [InlineData("M5")]
    [InlineData("m8")]
    [InlineData("P0")]
    [InlineData("P30")]
    [InlineData("p5")]
    [InlineData("--P5")]
    [InlineData("P5 ")]
    [InlineData("P+5")]
    public void What_is_no_interval_is_refused(string? text) => Assert.False(Interval.TryParse(text, out _));
}
