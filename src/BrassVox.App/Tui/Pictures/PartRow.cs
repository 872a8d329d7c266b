using BrassVox.App.Tui.Drawing;

namespace BrassVox.App.Tui.Pictures;

/// <summary>One line of the parts panel.</summary>
/// <param name="Name">P, S or the formula.</param>
/// <param name="Ink">Whose it is.</param>
/// <param name="FrequencyHz">Its frequency in Hz.</param>
/// <param name="LevelDb">Its level in dB, or null while nothing sounds.</param>
/// <param name="IsStrong">True to draw its mark solid.</param>
/// <param name="State">A word or two: in hand, muted; empty when there is nothing to say.</param>
/// <param name="IsInHand">True when the keys act on it.</param>
internal sealed record PartRow(
    string Name, Ink Ink, double FrequencyHz, double? LevelDb, bool IsStrong, string State, bool IsInHand);
