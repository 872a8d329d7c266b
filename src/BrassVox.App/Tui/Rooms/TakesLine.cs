using System.Globalization;
using BrassVox.Practice.Log;

namespace BrassVox.App.Tui.Rooms;

/// <summary>A line of Takes: a take, or a body note between takes.</summary>
/// <param name="Take">The take; null for a note.</param>
/// <param name="Note">The note; null for a take.</param>
internal sealed record TakesLine(LoggedTake? Take, BodyNote? Note)
{
    /// <summary>When it was made.</summary>
    public DateTimeOffset At => Take?.Take.MadeAt ?? Note!.At;

    /// <summary>Takes and the notes between them, the newest first.</summary>
    /// <param name="takes">The takes.</param>
    /// <param name="notes">The notes.</param>
    public static TakesLine[] Of(IEnumerable<LoggedTake> takes, IEnumerable<BodyNote> notes) =>
    [
        .. takes.Select(take => new TakesLine(take, null)).Concat(notes.Select(note => new TakesLine(null, note))).OrderByDescending(line => line.At),
    ];

    /// <summary>When, in the player's own time: Tue 2026-09-08 18:04.</summary>
    public string When => At.ToLocalTime().ToString("ddd yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
