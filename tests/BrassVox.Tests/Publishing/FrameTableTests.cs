using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Publishing;
using Xunit;

namespace BrassVox.Tests.Publishing;

public sealed class FrameTableTests
{
    [Fact]
    public void What_is_not_known_is_an_empty_cell()
    {
        string[] rows = Rows(
            new AnalysisFrame(4800, 9600, 48000, -20, new PitchEstimate(116.5409, -21.5, 0.98), new PitchEstimate(174.6141, -30, 0.5), 0.395, Separability.Separable),
            new AnalysisFrame(5280, 9600, 48000, -20, new PitchEstimate(116.5, -21, 0.9), null, 1.25, Separability.NotSeparable),
            new AnalysisFrame(5760, 9600, 48000, double.NegativeInfinity, null, null, null, Separability.Silent));

        Assert.StartsWith("timeSeconds,playedHz,sungHz,beatsPerSecond,separable,", rows[0], StringComparison.Ordinal);
        Assert.Equal("0.2000,116.5409,174.6141,0.395,true,-21.50,-30.00,0.980,0.500,-20.00", rows[1]);
        Assert.Equal("0.2100,116.5000,,1.250,false,-21.00,,0.900,,-20.00", rows[2]);
        Assert.Equal("0.2200,,,,,,,,,", rows[3]);
    }

    [Fact]
    public void A_decimal_comma_never_gets_in()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            string[] rows = Rows(new AnalysisFrame(0, 4800, 48000, -20, new PitchEstimate(58.27, -20, 1), null, null, Separability.OneTone));
            Assert.Equal("0.0500,58.2700,,,,-20.00,,1.000,,-20.00", rows[1]);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static string[] Rows(params AnalysisFrame[] frames)
    {
        StringWriter text = new();
        FrameTable.Write(text, frames);
        return text.ToString().TrimEnd('\n').Split('\n');
    }
}
