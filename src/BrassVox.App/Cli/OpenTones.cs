using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>Two tones of which nothing tells which is played: medians over the frames in which they stood apart.</summary>
internal sealed record OpenTones(double LowerHz, string LowerNote, double LowerCents, double UpperHz, string UpperNote, double UpperCents)
{
    /// <summary>Null when every frame that gives two tones gives their roles.</summary>
    public static OpenTones? Of(IReadOnlyList<AnalysisFrame> frames, double a4Hz)
    {
        double[] lower = [.. frames.Where(frame => frame.RolesOpen is not null).Select(frame => frame.RolesOpen!.Value.Lower.FrequencyHz)];
        double[] upper = [.. frames.Where(frame => frame.RolesOpen is not null).Select(frame => frame.RolesOpen!.Value.Upper.FrequencyHz)];
        return lower.Length == 0 ? null : Of(lower, upper, a4Hz);
    }

    /// <summary>The medians of two tones, frame by frame, in Hz.</summary>
    public static OpenTones Of(double[] lower, double[] upper, double a4Hz)
    {
        (double lowerHz, double upperHz) = (Median.Of(lower), Median.Of(upper));
        NearestNote low = NearestNote.Of(lowerHz, a4Hz);
        NearestNote high = NearestNote.Of(upperHz, a4Hz);
        return new OpenTones(
            Math.Round(lowerHz, 3), low.Note.ToString(), Math.Round(low.Cents, 2), Math.Round(upperHz, 3), high.Note.ToString(), Math.Round(high.Cents, 2));
    }
}
