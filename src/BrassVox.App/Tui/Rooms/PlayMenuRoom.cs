using BrassVox.Practice.Exercises;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Chooses a play-along exercise.</summary>
/// <param name="stand">The stand.</param>
internal sealed class PlayMenuRoom(MusicStand stand) : ExerciseMenuRoom(stand, exercise => !exercise.IsListening)
{
    /// <inheritdoc/>
    public override string Title => "PLAY ALONG";

    /// <inheritdoc/>
    protected override string About => "predict, then see";

    /// <inheritdoc/>
    protected override void Begin(ResolvedExercise exercise) => Stand.Open(new PlayAlongRoom(Stand, exercise));
}
