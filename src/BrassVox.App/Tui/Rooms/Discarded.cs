using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What is to be deleted when the program ends: a take, or a body note.</summary>
/// <param name="Take">The take; null for a note.</param>
/// <param name="Note">The note; null for a take.</param>
internal sealed record Discarded(TakeRecord? Take, BodyNote? Note);
