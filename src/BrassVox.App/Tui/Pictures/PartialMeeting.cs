using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>A partial of P and a neighbouring one of S.</summary>
/// <param name="Played">Number of P's partial, from 1.</param>
/// <param name="Sung">Number of S's partial, from 1.</param>
/// <param name="RateHz">Their distance in Hz: beats per second.</param>
/// <param name="Kind">How they are heard together.</param>
internal readonly record struct PartialMeeting(int Played, int Sung, double RateHz, Meeting Kind);
