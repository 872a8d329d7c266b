using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox exercise run ID --input take.wav</c>: a file as the player.</summary>
internal static class ExerciseRun
{
    // Who stops so little before the end has played it all.
    private const double LeastShortSeconds = 0.5;

    public static int File(ResolvedExercise resolved, string path, double? startSeconds, Prediction? expected, TakeStore? keepIn, bool asJson)
    {
        if (WavInput.Read(path) is not { } sound)
        {
            return ExitCode.UnusableInput;
        }

        if (sound.Seconds < DuetTracker.WindowSeconds)
        {
            return Failure.Say(ExitCode.UnusableInput, FormattableString.Invariant(
                $"{path} lasts {sound.Seconds:F2} s; one measurement takes {DuetTracker.WindowSeconds:F2} s of sound. Record longer."));
        }

        float[] mono = sound.Mono();
        if (new RecordedTake(mono, sound.SampleRateHz, 0).IsSilent)
        {
            return Failure.Say(ExitCode.UnusableInput, $"{path} is silent throughout: there is no take in it. Record nearer to the microphone, or look whether it was muted.");
        }

        double start = startSeconds ?? TakeAnalysis.FindStartSeconds(mono, sound.SampleRateHz);
        if (start >= sound.Seconds)
        {
            return Failure.Say(ExitCode.BadCommandLine, FormattableString.Invariant($"{path} is {sound.Seconds:0.00} s long; --start {start:0.00} lies beyond it."));
        }

        JudgedTake take = JudgedTake.Of(resolved, 1, new RecordedTake(mono, sound.SampleRateHz, start), MakeTracker);

        // Nobody knows what sounded while a file was made.
        take = take with { Result = take.Result with { DroneComparisons = [] }, Expected = expected };
        return Report(take, path, startSeconds is null, keepIn, asJson);
    }

    public static IDuetTracker MakeTracker(int sampleRateHz, DuetPrior prior) => new DuetTracker(sampleRateHz, prior);

    /// <summary>Prints a judged take and, where a store is given, keeps it.</summary>
    public static int Report(JudgedTake take, string path, bool startWasFound, TakeStore? keepIn, bool asJson)
    {
        if (asJson)
        {
            DateTimeOffset madeAt = path.Length > 0 ? System.IO.File.GetLastWriteTimeUtc(path) : TimeProvider.System.GetUtcNow();
            string id = Path.GetFileNameWithoutExtension(path);
            Console.Out.Write(TakeRecord.Of(take, null, id, Path.GetFileName(path), madeAt, withFrames: false).ToJson(indented: true) + "\n");
        }
        else
        {
            string[] remarks = startWasFound
                ? [FormattableString.Invariant($"The take begins at {take.Recorded.StartSeconds:0.00} s of the file, where its sound begins (--start says otherwise).")]
                : [];
            (int flatTops, double first) = FlatTops.Of(take.Recorded.Samples, take.Recorded.SampleRateHz);
            if (flatTops > 0)
            {
                remarks = [.. remarks, FormattableString.Invariant($"The recording is cut off at its loudest (flat peaks: {flatTops}, the first at {first:0.00} s): the input was too loud. Turn it down; pitches suffer least.")];
            }

            double endSeconds = (double)take.Recorded.Samples.Length / take.Recorded.SampleRateHz;
            double askedSeconds = take.Recorded.StartSeconds + take.Exercise.TakeSeconds;
            if (path.Length > 0 && endSeconds < askedSeconds - LeastShortSeconds)
            {
                remarks = [.. remarks, FormattableString.Invariant($"The file ends at {endSeconds:0.0} s, the exercise at {askedSeconds:0.0} s: what it asks after the end counts as not heard. exercise show says when each step begins.")];
            }

            Console.Out.Write(ExerciseText.Result(take, remarks));
        }

        return Keep(take, keepIn);
    }

    private static int Keep(JudgedTake take, TakeStore? keepIn)
    {
        if (keepIn is null)
        {
            return ExitCode.Done;
        }

        TakeSaving saving = keepIn.Keep(take, null);
        if (saving.Record is not { } record)
        {
            return Failure.Say(ExitCode.CannotStore, saving.Message!);
        }

        Console.Error.WriteLine($"brassvox: kept as {record.Id}{(record.PlayerName is { } whose ? $" for {whose}" : "")} in {keepIn.Folder}");
        return saving.Message is { } trouble ? Failure.Say(ExitCode.CannotStore, trouble) : ExitCode.Done;
    }
}
