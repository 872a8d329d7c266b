using System.Globalization;

namespace BrassVox.Practice.Log;

/// <summary>One body tag at a time, perhaps of a take.</summary>
/// <param name="At">When it was noticed.</param>
/// <param name="Player">Name of the player's profile; empty for the only one.</param>
/// <param name="Tag">Where.</param>
/// <param name="TakeId">The take it belongs to; null when it belongs to none.</param>
/// <param name="IsSimulated">True for invented data.</param>
public sealed record BodyNote(DateTimeOffset At, string Player, BodyTag Tag, string? TakeId = null, bool IsSimulated = false)
{
    /// <summary>A name to ask for it by: time in UTC to the millisecond, tag, player.</summary>
    public string Id => string.Create(
        CultureInfo.InvariantCulture, $"note-{At.UtcDateTime:yyyyMMdd'T'HHmmss.fff'Z'}-{BodyTags.Name(Tag).Replace(' ', '-')}{(Player.Length > 0 ? "-" + Player.Replace(' ', '-') : "")}");
}
