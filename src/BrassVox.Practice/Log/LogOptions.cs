namespace BrassVox.Practice.Log;

/// <summary>How the log is opened.</summary>
/// <param name="BusySeconds">How long to wait for another instance, in whole seconds, at least 1.</param>
/// <param name="MostPages">Most pages of 4096 bytes the file may have, to try out a full disk; null for no limit.</param>
internal sealed record LogOptions(int BusySeconds = 5, int? MostPages = null);
