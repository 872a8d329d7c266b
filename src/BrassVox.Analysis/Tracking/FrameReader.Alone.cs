using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Windows in which one tone alone is asked for.</summary>
internal sealed partial class FrameReader
{
    private WindowReading ReadAlone(ReadOnlySpan<float> window, double level, double band, VoiceRole asked)
    {
        FrameVerdict verdict = _alone.Read(window, _prior, asked, band);
        _last = null;
        _before = verdict.Separability;
        return new WindowReading(level, verdict.Played, verdict.Sung, verdict.BeatRateHz, verdict.Separability, _segment, double.PositiveInfinity);
    }
}
