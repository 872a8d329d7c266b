using BrassVox.Practice.Log;

namespace BrassVox.Practice.Takes;

/// <summary>The takes that are kept.</summary>
/// <param name="Takes">Takes that could be read, oldest first, without their frames.</param>
/// <param name="Problems">One line for whatever could not be read; it is left as it is.</param>
public sealed record TakeListing(IReadOnlyList<LoggedTake> Takes, IReadOnlyList<string> Problems);
