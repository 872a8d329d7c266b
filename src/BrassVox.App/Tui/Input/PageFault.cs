namespace BrassVox.App.Tui.Input;

/// <summary>What is wrong in a page of text, and where.</summary>
/// <param name="Message">What is wrong and what would be right.</param>
/// <param name="Line">Line from 1; 0 for no place.</param>
/// <param name="Column">Column from 1; 0 for no place.</param>
internal sealed record PageFault(string Message, int Line, int Column);
