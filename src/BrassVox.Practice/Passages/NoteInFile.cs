using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>A note of a score before it is known whether it is played or sung.</summary>
/// <param name="StartTick">Where it begins.</param>
/// <param name="LengthTicks">How long it lasts.</param>
/// <param name="Note">Sounding pitch.</param>
/// <param name="Cents">Cents beside it.</param>
/// <param name="IsMarked">True when its head is not the usual one.</param>
/// <param name="IsTied">True when it continues the note before.</param>
/// <param name="Line">Line of the file; 0 when there is none.</param>
internal sealed record NoteInFile(long StartTick, long LengthTicks, Pitch Note, double Cents, bool IsMarked, bool IsTied, int Line)
{
    public long EndTick => StartTick + LengthTicks;
}
