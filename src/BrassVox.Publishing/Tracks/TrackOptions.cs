using BrassVox.Practice.Sessions;

namespace BrassVox.Publishing.Tracks;

/// <summary>How practice tracks sound.</summary>
/// <param name="SampleRateHz">Samples per second, 44100 to 192000.</param>
/// <param name="CouplingDepth">0: two tones beside each other; up to 1: the voice opens and shuts the flow through the lips.</param>
/// <param name="Click">Where it clicks.</param>
/// <param name="LoudnessLufs">Integrated loudness of the mix in LUFS, unless a peak forbids it.</param>
/// <param name="ClickPeakDb">Peak of a click over the loudness of the tones, in dB. Ours.</param>
public sealed record TrackOptions(
    int SampleRateHz = 48000,
    double CouplingDepth = 0.6,
    ClickUse Click = ClickUse.CountIn,
    double LoudnessLufs = PracticeTracks.UsualLufs,
    double ClickPeakDb = 10);
