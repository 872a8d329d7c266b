namespace BrassVox.App.Tui.Input;

/// <summary>A key of a room: how it is listed and what it does. It acts, or says why not.</summary>
/// <param name="Shown">The key as listed.</param>
/// <param name="Help">What it does, in a few words.</param>
/// <param name="Presses">The presses that mean it.</param>
/// <param name="Do">Does it; called on the screen's thread.</param>
/// <param name="IsListed">False when another line of the list speaks for it; it can be marked all the same.</param>
internal sealed record RoomKey(string Shown, string Help, IReadOnlyList<KeyPress> Presses, Action Do, bool IsListed = true);
