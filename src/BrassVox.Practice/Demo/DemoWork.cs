namespace BrassVox.Practice.Demo;

/// <summary>What an invented player works on, and the truth of it in the first week.</summary>
/// <param name="ExerciseId">The exercise.</param>
/// <param name="Played">P; null takes the player's home note.</param>
/// <param name="Sung">S; null takes the player's home note.</param>
/// <param name="PlayedOffsetCents">True offset of P.</param>
/// <param name="PlayedSpreadCents">True spread of P.</param>
/// <param name="SungOffsetCents">True offset of S.</param>
/// <param name="SungSpreadCents">True spread of S.</param>
/// <param name="SungDriftCents">True drift of S.</param>
/// <param name="PullCents">Cents P moves for each semitone S moves.</param>
internal sealed record DemoWork(
    string ExerciseId,
    string? Played = null,
    string? Sung = null,
    double PlayedOffsetCents = 2,
    double PlayedSpreadCents = 3,
    double SungOffsetCents = 8,
    double SungSpreadCents = 6,
    double SungDriftCents = -5,
    double PullCents = 0);
