using BrassVox.Theory;

namespace BrassVox.Analysis;

/// <summary>What is known before listening.</summary>
/// <param name="PlayedHz">Declared pitch of P in Hz, or null when it is to be found.</param>
/// <param name="SungHz">Declared pitch of S in Hz, or null when it is to be found.</param>
/// <param name="PlayedMoves">True when the exercise lets P move away from its declared pitch.</param>
/// <param name="SungMoves">True when the exercise lets S move away from its declared pitch.</param>
/// <param name="PlayedLowestHz">Lowest P looked for in Hz when it is free or moves.</param>
/// <param name="PlayedHighestHz">Highest P looked for in Hz when it is free or moves.</param>
/// <param name="SungLowestHz">Lowest S looked for in Hz when it is free or moves.</param>
/// <param name="SungHighestHz">Highest S looked for in Hz when it is free or moves.</param>
/// <param name="Alone">The one tone that is asked for while the other rests; null where both are asked for, or nothing is known of that. A lone tone is told in any octave, as the resting one where it lies at its declared place and not at the asked one; both are told only where the second stands out by lines of its own.</param>
public sealed record DuetPrior(
    double? PlayedHz = null,
    double? SungHz = null,
    bool PlayedMoves = false,
    bool SungMoves = false,
    double PlayedLowestHz = 27.5,
    double PlayedHighestHz = 700.0,
    double SungLowestHz = 65.0,
    double SungHighestHz = 1050.0,
    VoiceRole? Alone = null)
{
    /// <summary>Nothing declared: both tones are looked for in the whole range.</summary>
    public static DuetPrior Free { get; } = new();

    /// <summary>Both notes declared and held.</summary>
    /// <param name="playedHz">P in Hz.</param>
    /// <param name="sungHz">S in Hz.</param>
    public static DuetPrior Held(double playedHz, double sungHz) => new(playedHz, sungHz);
}
