using BrassVox.App.Tui.Drawing;

namespace BrassVox.App.Tui.Pictures;

/// <summary>What the signs of the pictures mean, one group a line.</summary>
internal static class SignWords
{
    /// <summary>Columns it takes.</summary>
    public const int Width = 80;

    private const int WordsColumn = 9;

    private static readonly (string Signs, string Words)[] Lines =
    [
        ($"{Glyphs.PlayedStrong}  {Glyphs.PlayedWeak}", "partials of the played tone P: strong; weak, or not sounding"),
        ($"{Glyphs.SungStrong}  {Glyphs.SungWeak}", "partials of the sung tone S, likewise; in APPROACH: distance, multiples"),
        ($"{Glyphs.ResultantStrong}  {Glyphs.ResultantWeak}", "tones that the two make, likewise, each with its formula"),
        ($"{Glyphs.Tie}  {Glyphs.Beating}  {Glyphs.Grain}", "two partials meet: still; beating, to 12 /s; grain, too fast to count"),
        ($"{Glyphs.Gap}", "in the picture from P to S, and as long again from 0 to S-P"),
        ($"{Glyphs.Gap}", "in SWELL as wide as it is loud; in BEATS unbroken still, dashes beats"),
        ($"{Glyphs.High} {Glyphs.Middle} {Glyphs.Low}", "where a tone lay: high, in the middle, low in its row"),
        ($"{Glyphs.Vibrato}  {Glyphs.Beyond}  {Glyphs.Below}", "its vibrato, drawn at the centre; beyond the lane, above and below"),
        ($"{Glyphs.OtherHigh} {Glyphs.OtherMiddle} {Glyphs.OtherLow}", "the earlier of two takes, under the later one"),
        ($"{Glyphs.Asked}", "what is asked; a shape in it: not asked for now"),
        ($"{Glyphs.Fog}", "fog: two tones too near each other's lines to be told apart"),
        ($"{Glyphs.InHand}  {Glyphs.Marked}  {Glyphs.Place}", "in hand, or shown now; marked: Enter does it; your tap"),
        ("o  w  d", "cents: offset from what is asked, wander about its own line, drift"),
    ];

    /// <summary>Rows it takes, its heading included.</summary>
    public static int Rows => Lines.Length + 1;

    /// <summary>Draws as many lines as there is room for.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="end">The row after the last one that may be used.</param>
    public static void Draw(Canvas canvas, int left, int top, int end)
    {
        canvas.Write(left, top, "SIGNS", Ink.Quiet);
        for (int i = 0; i < Lines.Length && top + 1 + i < end; i++)
        {
            canvas.Write(left, top + 1 + i, Lines[i].Signs);
            canvas.Write(left + WordsColumn, top + 1 + i, Lines[i].Words, Ink.Quiet);
        }
    }
}
