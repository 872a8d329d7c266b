namespace BrassVox.Practice.Takes;

/// <summary>What came of keeping a take.</summary>
/// <param name="Record">The record as kept; null when it could not be. Once it is here, the take survives a crash and loss of power.</param>
/// <param name="Message">Why it could not be kept, or what the user should hear of; null when all is well.</param>
public sealed record TakeSaving(TakeRecord? Record, string? Message);
