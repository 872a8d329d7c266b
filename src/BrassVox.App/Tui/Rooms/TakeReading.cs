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
    public static JudgedTake? Whole(TakeStore store, TakeRecord take, ExerciseLibrary exercises)
    {
        if (store.Read(take.Id) is not { } record || exercises.Find(take.ExerciseId) is not { } exercise
            || ExerciseResolver.Resolve(exercise, record.Player, new PairChoice(record.Played, record.Sung)).Resolved is not { } resolved)
        {
            return null;
        }

        int length = record.SampleRateHz * 16 / 100;
        AnalysisFrame[] frames = [.. record.Frames.Select(frame => new AnalysisFrame(
            (long)Math.Round((frame.TimeSeconds * record.SampleRateHz) - (0.5 * length)), length, record.SampleRateHz, frame.LevelDbfs,
            Estimate(frame.PlayedHz, frame.LevelDbfs), Estimate(frame.SungHz, frame.LevelDbfs), frame.BeatsPerSecond, frame.Separability))];
        return new JudgedTake(resolved, 1, new RecordedTake([], record.SampleRateHz, record.StartSeconds), frames, record.Result) { Drone = record.Drone, Expected = record.Expected };
    }

    /// <summary>The sound of a kept take.</summary>
    /// <param name="path">Path of its file.</param>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static (float[] Samples, int SampleRateHz) Sound(string path) => WavReader.Read(path) switch
    {
        WavSound sound => (sound.Mono(), sound.SampleRateHz),
        WavFailure failure => throw new IOException(failure.Message),
        _ => throw new InvalidOperationException("A WAV reading is a sound or a failure."),
    };

    private static PitchEstimate? Estimate(double? hz, double levelDbfs) => hz is { } known ? new PitchEstimate(known, levelDbfs, 1) : null;
}
