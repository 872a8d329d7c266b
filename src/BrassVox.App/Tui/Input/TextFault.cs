namespace BrassVox.App.Tui.Input;

/// <summary>Why a typed line was not taken.</summary>
/// <param name="Message">What is wrong and what would be right.</param>
/// <param name="At">Column of the fault in the text, or -1.</param>
internal sealed record TextFault(string Message, int At = -1);
