using Xunit;

namespace BrassVox.Tests.Support;

/// <summary>The comparison that the records rest on.</summary>
public sealed class GoldenRecordTests
{
    [Theory]
    [InlineData("3 Separable 116.5401 NaN - Infinity", "3 Separable 116.5401 NaN - Infinity", true)]
    [InlineData("3 Separable 116.5401", "3 Separable 116.5402", true)]
    [InlineData("-31.204", "-31.205", true)]
    [InlineData("0.0312", "0.0313", true)]
    [InlineData("3 Separable 116.5401", "3 Separable 116.5501", false)]
    [InlineData("0.0312", "0.0314", false)]
    [InlineData("Infinity", "2.1", false)]
    [InlineData("Infinity", "-Infinity", false)]
    [InlineData("2.1", "Infinity", false)]
    [InlineData("NaN", "2.1", false)]
    [InlineData("2.1", "NaN", false)]
    [InlineData("Separable", "OneTone", false)]
    [InlineData("7", "8", false)]
    [InlineData("7 -", "7", false)]
    [InlineData("---ss", "---sp", false)]
    public void Lines_are_the_same_but_for_the_arithmetic(string was, string now, bool isSame) => Assert.Equal(isSame, GoldenRecord.IsSame(was, now));
}
