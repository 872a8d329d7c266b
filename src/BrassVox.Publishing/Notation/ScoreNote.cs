using BrassVox.Theory;

namespace BrassVox.Publishing.Notation;

/// <summary>A note of a score, in sounding pitch.</summary>
/// <param name="StartTick">Where it begins, in ticks of <see cref="Practice.Passages.Passage.TicksPerQuarter"/>.</param>
/// <param name="LengthTicks">Length in ticks, over 0.</param>
/// <param name="Note">The note as it is spelled.</param>
/// <param name="Cents">Cents written as part of its pitch, under 50 either way; usually 0.</param>
/// <param name="FromHz">Pitch at its beginning in Hz.</param>
/// <param name="ToHz">Pitch at its end in Hz; another than <paramref name="FromHz"/> for a glide.</param>
/// <param name="Text">Words beside the note; null for none.</param>
public sealed record ScoreNote(long StartTick, long LengthTicks, Pitch Note, double Cents, double FromHz, double ToHz, string? Text = null)
{
    /// <summary>Where it ends, in ticks.</summary>
    public long EndTick => StartTick + LengthTicks;

    /// <summary>True when the pitch moves.</summary>
    public bool Glides => FromHz != ToHz;
}
