using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Planning;

/// <summary>One line of a day's plan.</summary>
/// <param name="Kind">What it is for.</param>
/// <param name="Minutes">How long, in whole minutes.</param>
/// <param name="Exercises">The exercises, in the player's notes, the first to begin with; empty for rest and review.</param>
/// <param name="Because">Why this one.</param>
public sealed record PlanLine(PlanLineKind Kind, int Minutes, IReadOnlyList<ResolvedExercise> Exercises, string Because)
{
    /// <summary>What to do, in a few words: 14 Open home pair, F3 + C4.</summary>
    /// <param name="naming">The language of note names.</param>
    public string What(NoteNaming naming) => Kind switch
    {
        PlanLineKind.Rest => "rest: lips, voice, water",
        PlanLineKind.Review => "look back",
        _ when Exercises.Count == 1 && Kind == PlanLineKind.Playing =>
            FormattableString.Invariant($"{Exercises[0].Exercise.Number} {Exercises[0].Exercise.Name}, {NoteNames.Of(Exercises[0].Pair.Played, naming)} + {NoteNames.Of(Exercises[0].Pair.Sung, naming)}"),
        _ => string.Join(", ", Exercises.Select(exercise => FormattableString.Invariant($"{exercise.Exercise.Number} {exercise.Exercise.Name}"))),
    };

    /// <summary>The same by the exercises' short names: 11 Alternating, 13 Held entry.</summary>
    /// <param name="naming">The language of note names.</param>
    public string InShort(NoteNaming naming) => Kind switch
    {
        PlanLineKind.Rest or PlanLineKind.Review => What(naming),
        _ when Exercises.Count == 1 && Kind == PlanLineKind.Playing =>
            $"{Exercises[0].Exercise.InShort}, {NoteNames.Of(Exercises[0].Pair.Played, naming)} + {NoteNames.Of(Exercises[0].Pair.Sung, naming)}",
        _ => string.Join(", ", Exercises.Select(exercise => exercise.Exercise.InShort)),
    };
}
