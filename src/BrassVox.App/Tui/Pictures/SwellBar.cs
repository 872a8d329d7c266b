using BrassVox.App.Tui.Drawing;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>The beat envelope, seen: a bar that grows from its middle. Size, never flashing.</summary>
internal static class SwellBar
{
    /// <summary>Faster swells are drawn as a steady dotted bar, in beats per second.</summary>
    public const double FollowedUpToHz = 4.0;

    private const int Left = 13;
    private const double SteadyAmount = 17.0 / 28.0;

    /// <summary>Draws the bar between two ticks.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="y">Row.</param>
    /// <param name="leading">The meeting that swells; null when none does.</param>
    /// <param name="amount">Envelope from 0 to 1; not used over <see cref="FollowedUpToHz"/>.</param>
    public static void Draw(Canvas canvas, int y, PartialMeeting? leading, double amount)
    {
        int right = canvas.Width - 9;
        canvas.Write(0, y, "SWELL");
        canvas.Put(Left, y, Glyphs.Tie, Ink.Quiet);
        canvas.Put(right, y, Glyphs.Tie, Ink.Quiet);
        if (leading is not { } meeting)
        {
            return;
        }

        bool dotted = meeting.Kind == Meeting.Grain || meeting.RateHz > FollowedUpToHz;
        int room = ((right - Left) / 2) - 1;
        int half = (int)Math.Round(room * (dotted ? SteadyAmount : Math.Clamp(amount, 0, 1)));
        int middle = (Left + right) / 2;
        canvas.Fill(middle - half, y, (2 * half) + 1, dotted ? Glyphs.Grain : Glyphs.Gap, Ink.Text);
    }

    /// <summary>Envelope of two beating partials, 1 where they agree.</summary>
    /// <param name="firstDb">Level of one in dB.</param>
    /// <param name="secondDb">Level of the other in dB.</param>
    /// <param name="phaseCycles">How far they have drifted apart, in cycles.</param>
    public static double Envelope(double firstDb, double secondDb, double phaseCycles)
    {
        double ratio = Math.Pow(10, -Math.Abs(firstDb - secondDb) / 20);
        double squared = 1 + (ratio * ratio) + (2 * ratio * Math.Cos(Math.Tau * phaseCycles));
        return Math.Sqrt(Math.Max(0, squared)) / (1 + ratio);
    }
}
