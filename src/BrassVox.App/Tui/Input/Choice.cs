namespace BrassVox.App.Tui.Input;

/// <summary>Something that can be marked and then done by Enter or the forward pedal.</summary>
/// <param name="Label">A few words.</param>
/// <param name="Do">Does it; called on the screen's thread.</param>
internal sealed record Choice(string Label, Action Do);
