using System.Collections.Immutable;
using BrassVox.Practice.Planning;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What a player decided of one day's plan. It ends with the day: on the next the advice holds again.</summary>
/// <param name="Player">Name of the player.</param>
/// <param name="Day">The day.</param>
internal sealed record PlanChoices(string Player, DateOnly Day)
{
    /// <summary>What was made of the advice that body notes give.</summary>
    public BodyChoice Choice { get; init; } = BodyChoice.AsAdvised;

    /// <summary>Ids of the exercises that wait for another day.</summary>
    public ImmutableHashSet<string> Swapped { get; init; } = [];

    /// <summary>A plan's inputs with what was decided.</summary>
    /// <param name="inputs">The inputs.</param>
    public PlanInputs On(PlanInputs inputs) => inputs with { Choice = Choice, Swapped = Swapped };
}
