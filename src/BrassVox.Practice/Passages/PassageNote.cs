using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>One note of one tone, ties joined.</summary>
/// <param name="StartTick">Where it begins.</param>
/// <param name="LengthTicks">How long it lasts, over 0.</param>
/// <param name="Note">Sounding (concert) pitch.</param>
/// <param name="Cents">Cents written beside the note, as in F3-14; usually 0.</param>
public sealed record PassageNote(long StartTick, long LengthTicks, Pitch Note, double Cents = 0)
{
    /// <summary>Where it ends.</summary>
    public long EndTick => StartTick + LengthTicks;
}
