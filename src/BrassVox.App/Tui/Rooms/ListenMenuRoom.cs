using BrassVox.App.Tui.Input;
using BrassVox.Practice.Exercises;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Chooses a listening exercise.</summary>
/// <param name="stand">The stand.</param>
internal sealed class ListenMenuRoom(MusicStand stand) : ExerciseMenuRoom(stand, exercise => exercise.IsListening)
{
    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; } = [new("n", "a section: name two to five players' tones", ['n'], () => stand.Open(new SectionRoom(stand)))];

    /// <inheritdoc/>
    public override string Title => "LISTEN";

    /// <inheritdoc/>
    protected override string About => "know what you can tell";

    /// <inheritdoc/>
    protected override IReadOnlyList<Choice> More => [new Choice("a section: two to five players, who is off?", () => Stand.Open(new SectionRoom(Stand)))];

    /// <inheritdoc/>
    protected override void Begin(ResolvedExercise exercise) => Stand.Open(new ListenRoom(Stand, exercise));
}
