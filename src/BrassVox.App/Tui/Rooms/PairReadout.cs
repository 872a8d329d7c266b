namespace BrassVox.App.Tui.Rooms;

/// <summary>A pair as heard over the last quarter of a second.</summary>
/// <param name="PlayedHz">P in Hz.</param>
/// <param name="SungHz">S in Hz; null when it is not heard or cannot be told apart.</param>
/// <param name="BeatRateHz">Beats per second, or null.</param>
internal readonly record struct PairReadout(double PlayedHz, double? SungHz, double? BeatRateHz);
