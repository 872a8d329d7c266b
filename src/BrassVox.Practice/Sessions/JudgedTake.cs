using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Sessions;

/// <summary>A take with all that is known of it.</summary>
/// <param name="Exercise">What was asked.</param>
/// <param name="Number">Number within the session, from 1.</param>
/// <param name="Recorded">Its sound.</param>
/// <param name="Frames">Its frames, on the clock of the recorded samples.</param>
/// <param name="Result">What it came to.</param>
public sealed record JudgedTake(
    ResolvedExercise Exercise, int Number, RecordedTake Recorded, IReadOnlyList<AnalysisFrame> Frames, TakeResult Result)
{
    /// <summary>Whether the program's own sound was in the take; null when that could not be looked for.</summary>
    public DroneInTake? Drone { get; init; }

    /// <summary>The number the player expected before the take; null when none was asked for or given.</summary>
    public Prediction? Expected { get; init; }

    /// <summary>The expected number beside the measured one; null where there is none.</summary>
    public SayingCheck? ExpectedCheck => Expected is { } expected ? Predictions.Compare(expected, Result, Exercise.Pair.SungHz) : null;

    /// <summary>The strongest resultant of each held stretch, where the exercise is about the balance; empty for others.</summary>
    public IReadOnlyList<StretchResultant> Stretches { get; init; } = [];

    /// <summary>Measures and judges a take. Takes a while; not on a screen's or a sound's thread.</summary>
    /// <param name="exercise">A resolved play-along exercise.</param>
    /// <param name="number">Number within the session, from 1.</param>
    /// <param name="recorded">The sound.</param>
    /// <param name="factory">Makes the tracker.</param>
    /// <param name="sent">What the program played meanwhile, mono, at the rate of the take and from its first sample; null when that is not known. Where it bleeds into the take it is taken out before anything is measured.</param>
    public static JudgedTake Of(ResolvedExercise exercise, int number, RecordedTake recorded, TrackerFactory factory, float[]? sent = null)
    {
        float[] samples = recorded.Samples;
        DroneInTake? drone = null;
        if (sent is not null)
        {
            (drone, samples) = DroneInTake.TakeOut(sent, samples, recorded.SampleRateHz, recorded.StartSeconds);
        }

        (IReadOnlyList<AnalysisFrame> frames, double start, double late) = SecondLook.Of(exercise, samples, recorded.SampleRateHz, factory, recorded.StartSeconds);
        TakeResult result = TakeJudge.Judge(exercise, frames, start);
        if (late != 0)
        {
            result = OffClock(result, late);
            recorded = recorded with { StartSeconds = start };
        }

        return new JudgedTake(exercise, number, recorded, frames, drone is { IsTrusted: false } ? Spoiled(result, drone) : result)
        {
            Drone = drone,
            Stretches = StretchResultants.Of(exercise, samples, frames, recorded.StartSeconds),
        };
    }

    // The pitches count all the same: they are judged from where the player began.
    private static TakeResult OffClock(TakeResult result, double lateSeconds)
    {
        string way = lateSeconds > 0 ? "late" : "early";
        string text = string.Create(CultureInfo.InvariantCulture, $"The whole take came {Math.Abs(lateSeconds):0.0} s {way}; pitches are judged from where it began.");
        return result with
        {
            AsAsked = false,
            Reached = null,
            Findings = [new Finding("", "clock", null, Verdict.Missed, Fault.Late, lateSeconds, SecondLook.OnClockSeconds, "s", null, text), .. result.Findings],
            Next = lateSeconds > 0 ? "Breathe with the count and begin on it." : "Wait for the whole count; begin when it has ended.",
        };
    }

    // Neither passed nor failed by the player: the reason comes first.
    private static TakeResult Spoiled(TakeResult result, DroneInTake drone) => result with
    {
        AsAsked = null,
        Reached = null,
        Findings =
        [
            new Finding("", "bleed", null, Verdict.Missed, Fault.Bleed, drone.LeftDb, null, "dB", null, "The program's own sound lies in the take: its pitches cannot be told from yours."),
            .. result.Findings,
        ],
        Next = "Put headphones on, one ear open, or turn the sound down; then the same once more.",
    };
}
