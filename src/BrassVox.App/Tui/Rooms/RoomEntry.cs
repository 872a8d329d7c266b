namespace BrassVox.App.Tui.Rooms;

/// <summary>A room as Start lists it.</summary>
/// <param name="Number">Its digit, which stays the same when other rooms come or go.</param>
/// <param name="Stage">The stage of the work it belongs to; empty when the room above belongs to the same.</param>
/// <param name="Name">Its name.</param>
/// <param name="About">What stands beside it. Asked twice a second while Start is shown: quick, and without waiting.</param>
/// <param name="Create">Makes it; nothing sounds yet.</param>
internal sealed record RoomEntry(int Number, string Stage, string Name, Func<MusicStand, string> About, Func<MusicStand, Room> Create);
