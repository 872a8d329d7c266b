namespace BrassVox.Audio.Wav;

/// <summary>One entry of a WAV file's INFO list.</summary>
/// <param name="Id">Four ASCII letters, as in INAM for the name and IPRD for what it belongs to (Multimedia Programming Interface 1.0, 1991, from memory).</param>
/// <param name="Text">The text; written as UTF-8.</param>
public sealed record WavTag(string Id, string Text);
