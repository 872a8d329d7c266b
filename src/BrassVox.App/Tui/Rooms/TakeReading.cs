using BrassVox.Analysis;
using BrassVox.Audio.Wav;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Kept takes as the reveal wants them. Blocks on the disk.</summary>
internal static class TakeReading
{
    /// <summary>A kept take with its frames, as it was judged; null when its files or its exercise are not there any more.</summary>
    /// <param name="store">The store.</param>
    /// <param name="take">The take.</param>
    /// <param name="exercises">The exercises.</param>
    /// <param name="dataFolder">Where the player's own passages lie.</param>
    public static JudgedTake? Whole(TakeStore store, TakeRecord take, ExerciseLibrary exercises, string dataFolder)
    {
        if (store.Read(take.Id) is not { } record || (TakeTask.Of(record, exercises, dataFolder) ?? AsWritten(record, exercises)) is not { } resolved)
        {
            return null;
        }

        AnalysisFrame[] frames = [.. record.Frames.Select(frame => frame.ToAnalysis(record.SampleRateHz))];
        return new JudgedTake(resolved, 1, new RecordedTake([], record.SampleRateHz, record.StartSeconds), frames, record.Result) { Drone = record.Drone, Expected = record.Expected };
    }

    // An exercise that was changed since, or drew its steps: its pair and its length still hold.
    private static ResolvedExercise? AsWritten(TakeRecord record, ExerciseLibrary exercises) => exercises.Find(record.ExerciseId) is { } exercise
        ? ExerciseResolver.Resolve(exercise, record.Player, new PairChoice(record.Played, record.Sung)).Resolved
        : null;

    /// <summary>The sound of a kept take.</summary>
    /// <param name="path">Path of its file.</param>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static (float[] Samples, int SampleRateHz) Sound(string path) => WavReader.Read(path) switch
    {
        WavSound sound => (sound.Mono(), sound.SampleRateHz),
        WavFailure failure => throw new IOException(failure.Message),
        _ => throw new InvalidOperationException("A WAV reading is a sound or a failure."),
    };
}
