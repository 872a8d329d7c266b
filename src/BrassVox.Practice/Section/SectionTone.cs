using BrassVox.Theory;

namespace BrassVox.Practice.Section;

/// <summary>One player's tone in a section.</summary>
/// <param name="Player">Player from 1, in the order entered.</param>
/// <param name="Note">The note.</param>
/// <param name="Cents">Cents beside it.</param>
/// <param name="FrequencyHz">The tone in Hz.</param>
public sealed record SectionTone(int Player, Pitch Note, double Cents, double FrequencyHz);
