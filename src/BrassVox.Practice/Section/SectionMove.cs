namespace BrassVox.Practice.Section;

/// <summary>How far a player moves so that the section stands still.</summary>
/// <param name="Player">The player.</param>
/// <param name="Cents">Cents up, negative when down.</param>
/// <param name="ToHz">Where the tone then lies, in Hz.</param>
public sealed record SectionMove(int Player, double Cents, double ToHz);
