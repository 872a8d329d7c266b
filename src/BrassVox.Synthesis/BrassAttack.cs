namespace BrassVox.Synthesis;

/// <summary>How a played note begins: its partials enter in order, from below, and the pitch starts low.</summary>
/// <param name="RiseMs">Time in which one partial rises, in ms.</param>
/// <param name="SpreadMs">How much later than the first the twelfth partial begins, in ms; those between in order.</param>
/// <param name="ScoopCents">How far below its pitch the note begins, in cents.</param>
/// <param name="ScoopMs">Time constant with which it comes up, in ms.</param>
public sealed record BrassAttack(double RiseMs, double SpreadMs, double ScoopCents, double ScoopMs);
