using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class JustIntervalTests
{
    // Exact mathematics: the ratios that a tempered interval stands for; 2:5 is a major tenth, 1:3 a twelfth.
    [Theory]
    [InlineData(0, "1:1")]
    [InlineData(100, "16:15")]
    [InlineData(400, "5:4")]
    [InlineData(-700, "3:2")]
    [InlineData(900, "5:3")]
    [InlineData(1195, "2:1")]
    [InlineData(1600, "5:2")]
    [InlineData(1900, "3:1")]
    [InlineData(2400, "4:1")]
    [InlineData(969, "7:4")]
    public void Tempered_intervals_stand_for_small_ratios(double cents, string ratio) =>
        Assert.Equal(ratio, JustInterval.NearestTo(cents).ToString());
}
