namespace BrassVox.Audio;

/// <summary>A device that the system lists.</summary>
/// <param name="Id">Id to ask for it by.</param>
/// <param name="Name">Name for people.</param>
/// <param name="IsInput">True when it can record.</param>
/// <param name="IsOutput">True when it can play.</param>
/// <param name="IsDefault">True for the system's default.</param>
public sealed record AudioDevice(string Id, string Name, bool IsInput, bool IsOutput, bool IsDefault);
