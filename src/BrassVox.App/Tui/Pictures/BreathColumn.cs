namespace BrassVox.App.Tui.Pictures;

/// <summary>A tenth of a second of both tones.</summary>
/// <param name="PlayedCents">P from what was asked, in cents; null when not heard or not known.</param>
/// <param name="SungCents">S from what was asked, in cents; null when not heard or not known.</param>
/// <param name="IsFog">True when the two could not be told apart.</param>
/// <param name="BeatRateHz">Beats per second, or null.</param>
/// <param name="PlayedVibrato">True while P moves to and fro about its centre.</param>
/// <param name="SungVibrato">True while S moves to and fro about its centre.</param>
internal readonly record struct BreathColumn(
    double? PlayedCents, double? SungCents, bool IsFog, double? BeatRateHz, bool PlayedVibrato = false, bool SungVibrato = false);
