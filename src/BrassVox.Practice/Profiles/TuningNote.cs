using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>A4 from a note that was played: the instrument is as it is on a cold day, and the rest follows it. Pure.</summary>
public static class TuningNote
{
    /// <summary>Lowest A4 that is taken, in Hz.</summary>
    public const double LowestA4Hz = 415;

    /// <summary>Highest A4 that is taken, in Hz.</summary>
    public const double HighestA4Hz = 466;

    private const int FewestFrames = 50;

    /// <summary>The A4 at which a note has the frequency that was heard, equal-tempered.</summary>
    /// <param name="note">The note that was played, concert pitch.</param>
    /// <param name="frequencyHz">What was heard, in Hz, &gt; 0.</param>
    public static double A4Hz(Pitch note, double frequencyHz) => frequencyHz * Math.Pow(2, (69 - note.MidiNumber) / 12.0);

    /// <summary>A4 from the frames of one held note; null when fewer than half a second of it was heard or A4 would lie outside 415 to 466.</summary>
    /// <param name="note">The note that was played, concert pitch.</param>
    /// <param name="frames">Frames at 100 a second.</param>
    public static double? A4Hz(Pitch note, IEnumerable<AnalysisFrame> frames)
    {
        double[] heard = [.. frames.Select(frame => frame.Played?.FrequencyHz).OfType<double>()];
        if (heard.Length < FewestFrames)
        {
            return null;
        }

        double a4 = Math.Round(A4Hz(note, Median.Of(heard)), 1);
        return a4 is >= LowestA4Hz and <= HighestA4Hz ? a4 : null;
    }
}
