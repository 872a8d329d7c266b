using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>One harmonic series that nothing tells a role: the median over the frames that hold it.</summary>
/// <param name="FrequencyHz">Its pitch in Hz.</param>
/// <param name="Note">The nearest note.</param>
/// <param name="Cents">Cents above that note.</param>
internal sealed record OpenSeries(double FrequencyHz, string Note, double Cents)
{
    /// <summary>Null when no frame holds one.</summary>
    public static OpenSeries? Of(IReadOnlyList<AnalysisFrame> frames, double a4Hz)
    {
        double[] pitches = [.. frames.Where(frame => frame.OneSeries is not null).Select(frame => frame.OneSeries!.Value.FrequencyHz)];
        if (pitches.Length == 0)
        {
            return null;
        }

        double hz = Median.Of(pitches);
        NearestNote near = NearestNote.Of(hz, a4Hz);
        return new OpenSeries(Math.Round(hz, 3), near.Note.ToString(), Math.Round(near.Cents, 2));
    }
}
