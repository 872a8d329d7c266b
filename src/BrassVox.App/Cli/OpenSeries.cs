using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>One harmonic series that nothing tells a role: the median over the frames that hold it.</summary>
/// <param name="FrequencyHz">Its pitch in Hz.</param>
/// <param name="Note">The nearest note.</param>
/// <param name="Cents">Cents above that note.</param>
/// <param name="LevelDbfs">RMS level in dB; a full-scale sine reads -3.01.</param>
internal sealed record OpenSeries(double FrequencyHz, string Note, double Cents, double LevelDbfs)
{
    /// <summary>Null when no frame holds one.</summary>
    public static OpenSeries? Of(IReadOnlyList<AnalysisFrame> frames, double a4Hz)
    {
        PitchEstimate[] found = [.. frames.Where(frame => frame.OneSeries is not null).Select(frame => frame.OneSeries!.Value)];
        if (found.Length == 0)
        {
            return null;
        }

        double hz = Median.Of([.. found.Select(one => one.FrequencyHz)]);
        NearestNote near = NearestNote.Of(hz, a4Hz);
        return new OpenSeries(Math.Round(hz, 3), near.Note.ToString(), Math.Round(near.Cents, 2), Math.Round(Median.Of([.. found.Select(one => one.LevelDbfs)]), 2));
    }
}
