using BrassVox.Practice.Takes;

namespace BrassVox.Practice.Log;

/// <summary>All that a log holds, as it is handed to another machine or a spreadsheet. Sounds and frames are not part of it.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Takes">Takes without frames, oldest first.</param>
/// <param name="BodyNotes">Body notes.</param>
/// <param name="Spells">Stretches of practice.</param>
/// <param name="Listening">Listening sets.</param>
public sealed record LogContents(
    int FormatVersion,
    IReadOnlyList<TakeRecord> Takes,
    IReadOnlyList<BodyNote> BodyNotes,
    IReadOnlyList<PracticeSpell> Spells,
    IReadOnlyList<ListeningEntry> Listening)
{
    /// <summary>The version that is written and read.</summary>
    public const int Version = 1;
}
