using BrassVox.Practice.Log;
using Xunit;

namespace BrassVox.Tests.Practice.Log;

/// <summary>Minutes of singing are rounded in one way: downwards.</summary>
public sealed class SungMinutesTests
{
    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(59.9, 0, 0.9)]
    [InlineData(1199.9, 19, 19.9)]
    [InlineData(1200, 20, 20)]
    [InlineData(1259, 20, 20.9)]
    public void Only_what_is_full_counts(double seconds, int whole, double tenths)
    {
        Assert.Equal(whole, SungMinutes.Whole(seconds));
        Assert.Equal(tenths, SungMinutes.Tenths(seconds), 9);
    }

    [Fact]
    public void A_minute_made_of_tenths_of_seconds_is_a_minute() => Assert.Equal(1, SungMinutes.Whole(Enumerable.Repeat(0.1, 600).Sum()));

    [Fact]
    public void A_day_is_told_as_full_exactly_when_it_is()
    {
        var almost = new VoiceLoad(VoiceLoad.FullDaySeconds - 1, 0, 0);
        Assert.False(almost.IsDayFull);
        Assert.Contains("sung 19 min of your 20 today", almost.Words, StringComparison.Ordinal);
        Assert.Contains("sung 20 min of your 20 today", new VoiceLoad(VoiceLoad.FullDaySeconds, 0, 0).Words, StringComparison.Ordinal);
    }
}
