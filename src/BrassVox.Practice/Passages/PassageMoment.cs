using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>A stretch of a passage in which neither tone changes.</summary>
/// <param name="Place">Bar and beat, as in 3.1.</param>
/// <param name="Bar">Bar number.</param>
/// <param name="StartTick">Where it begins.</param>
/// <param name="Seconds">When, at the written tempo.</param>
/// <param name="Played">P; null for silence.</param>
/// <param name="Sung">S; null for silence.</param>
/// <param name="PlayedBegins">True when P begins here.</param>
/// <param name="SungBegins">True when S begins here.</param>
/// <param name="PlayedHz">P in Hz; null for silence.</param>
/// <param name="SungHz">S in Hz; null for silence.</param>
/// <param name="Between">The interval's name; empty unless both sound.</param>
/// <param name="Cents">The interval in cents, negative when S lies below; null unless both sound.</param>
/// <param name="Made">The nearest note of the difference tone; null when there is none.</param>
/// <param name="MadeHz">The difference tone in Hz; null when there is none.</param>
/// <param name="Cares">What it asks attention for.</param>
/// <param name="Difficulty">How hard it is, 0 to about 10; our own count, to be tried with players.</param>
public sealed record PassageMoment(
    string Place,
    int Bar,
    long StartTick,
    double Seconds,
    Pitch? Played,
    Pitch? Sung,
    bool PlayedBegins,
    bool SungBegins,
    double? PlayedHz,
    double? SungHz,
    string Between,
    double? Cents,
    NearestNote? Made,
    double? MadeHz,
    IReadOnlyList<Care> Cares,
    double Difficulty);
