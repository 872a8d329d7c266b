namespace BrassVox.App.Tui.Pictures;

/// <summary>What is shown to a hall of one pair.</summary>
/// <param name="Spectrum">Its lines.</param>
/// <param name="PlayedName">P's note, in large signs; empty where P does not sound.</param>
/// <param name="SungName">S's note, in large signs; empty where S does not sound.</param>
/// <param name="Middle">What stands large between them; empty for nothing.</param>
/// <param name="MiddleWord">What that is: made by the two, or to be sung.</param>
/// <param name="MiddleLabel">What that is, in words.</param>
/// <param name="PlayedText">P in small print: its Hz.</param>
/// <param name="SungText">S in small print.</param>
/// <param name="Spotlight">Name of the part under the spotlight, or null.</param>
internal sealed record StageFigure(
    PairSpectrum Spectrum,
    string PlayedName,
    string SungName,
    string Middle,
    string MiddleWord,
    string MiddleLabel,
    string PlayedText,
    string SungText,
    string? Spotlight);
