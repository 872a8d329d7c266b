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
    /// <summary>Name of the finding that nothing reached the microphone.</summary>
    public const string InputName = "input";

    /// <summary>Name of the finding that the take is too short to be judged.</summary>
    public const string LengthName = "length";

    // Less of the take's length than this, or less than half a second, is no take of it. Ours.
    private const double LeastLengthShare = 0.1;
    private const double LeastLengthSeconds = 0.5;

    // Less of what was asked tells nothing about a take.
    private const double LeastAloneShare = 0.25;

    private const string Headphones = "Put headphones on, one ear open, or turn the sound down; then the same once more.";

    /// <summary>Whether the program's own sound was in the take; null when that could not be looked for.</summary>
    public DroneInTake? Drone { get; init; }

    /// <summary>True when the program sounds anything during the take; a cue before it is none.</summary>
    public bool HasDrone => Exercise.Steps.Any(step => step.Sounding.Any(part => part.Windows.Count > 0));

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
    /// <param name="sent">What the program played meanwhile, mono, at the rate of the take and from its first sample; null when that is not known. Where it bleeds into the take it is taken out before anything is measured; where it cannot be, only what the player did after it had left is.</param>
    /// <param name="wayBackSeconds">Round trip from output to input, at least 0.</param>
    public static JudgedTake Of(
        ResolvedExercise exercise, int number, RecordedTake recorded, TrackerFactory factory, float[]? sent = null, double wayBackSeconds = 0)
    {
        if (recorded.IsSilent)
        {
            return new JudgedTake(exercise, number, recorded, [], NothingArrived(TakeJudge.Judge(exercise, [], recorded.StartSeconds)));
        }

        float[] samples = recorded.Samples;
        double length = (recorded.Samples.Length / (double)recorded.SampleRateHz) - recorded.StartSeconds;
        if (length < Math.Min(exercise.TakeSeconds, Math.Max(LeastLengthSeconds, LeastLengthShare * exercise.TakeSeconds)))
        {
            return new JudgedTake(exercise, number, recorded, [], TooShort(TakeJudge.Judge(exercise, [], recorded.StartSeconds), Math.Max(0, length), exercise.TakeSeconds));
        }

        DroneInTake? drone = null;
        if (sent is not null)
        {
            (drone, samples) = DroneInTake.TakeOut(sent, samples, recorded.SampleRateHz, recorded.StartSeconds);
        }

        if (drone is { IsTakenOut: false })
        {
            return UnderDrone(exercise, number, recorded, factory, drone, DroneInTake.Alone(sent!, recorded.Samples.Length, recorded.SampleRateHz, wayBackSeconds));
        }

        (IReadOnlyList<AnalysisFrame> frames, double start, double late) = SecondLook.Of(exercise, samples, recorded.SampleRateHz, factory, recorded.StartSeconds);
        TakeResult result = TakeJudge.Judge(exercise, frames, start, sound: samples);
        if (late != 0)
        {
            result = OffClock(result, late);
            recorded = recorded with { StartSeconds = start };
        }

        return new JudgedTake(exercise, number, recorded, frames, result)
        {
            Drone = drone,
            Stretches = StretchResultants.Of(exercise, samples, frames, recorded.StartSeconds),
        };
    }

    // The drone could not be taken out: what the player did after it had left is judged, where that is enough, and nothing else is.
    private static JudgedTake UnderDrone(
        ResolvedExercise exercise, int number, RecordedTake recorded, TrackerFactory factory, DroneInTake drone, IReadOnlyList<Window> alone)
    {
        (double asked, double known) = KnownWindows.Asked(exercise, recorded.StartSeconds, alone);
        if (known < LeastAloneShare * asked)
        {
            TakeResult none = TakeJudge.Judge(exercise, [], recorded.StartSeconds, []);
            return new JudgedTake(exercise, number, recorded, [], Spoiled(none, drone)) { Drone = drone };
        }

        // The rest is made silent, so that nothing measured over several windows reaches back into the drone.
        float[] heard = new float[recorded.Samples.Length];
        foreach (Window window in alone)
        {
            int from = (int)Math.Ceiling(window.FromSeconds * recorded.SampleRateHz);
            int to = Math.Min(heard.Length, (int)(window.ToSeconds * recorded.SampleRateHz));
            recorded.Samples.AsSpan(from..to).CopyTo(heard.AsSpan(from));
        }

        double tones = exercise.Steps.Select(step => (PlayTask)step.Task).Any(task => task is { Played: not null, Sung: not null }) ? 2 : 1;
        drone = drone with { AloneSeconds = Math.Round(known / tones, 2), AskedSeconds = Math.Round(asked / tones, 2) };
        (IReadOnlyList<AnalysisFrame> frames, double start, _) = SecondLook.Of(exercise, heard, recorded.SampleRateHz, factory, recorded.StartSeconds, alone);
        return new JudgedTake(exercise, number, recorded, frames, PartlyKnown(TakeJudge.Judge(exercise, frames, start, alone, heard), drone)) { Drone = drone };
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

    // A muted microphone is no missed note: neither passed nor failed.
    private static TakeResult NothingArrived(TakeResult result) => result with
    {
        AsAsked = null,
        Reached = null,
        Findings = [new Finding("", InputName, null, Verdict.NotTold, Fault.None, null, null, "", null, "Nothing reached the microphone: the take is silence.")],
        Next = "Nothing reached the microphone, so nothing is held against you. Is one plugged in, muted, or another one in use? Set-up, line 3, shows what arrives.",
    };

    // Neither passed nor failed: a take that was hardly begun.
    private static TakeResult TooShort(TakeResult result, double seconds, double askedSeconds) => result with
    {
        AsAsked = null,
        Reached = null,
        BestSecond = null,
        Findings =
        [
            new Finding("", LengthName, null, Verdict.NotTold, Fault.None, seconds, askedSeconds, "s", null, string.Create(CultureInfo.InvariantCulture,
                $"The take is too short to be judged: {seconds:0.0} s of {askedSeconds:0.0} s.")),
        ],
        Next = "Nothing is held against you. Once more, from the beginning to the end.",
    };

    // Neither passed nor failed by the player; no figure can be theirs.
    private static TakeResult Spoiled(TakeResult result, DroneInTake drone) => result with
    {
        AsAsked = null,
        Reached = null,
        Findings =
        [
            new Finding("", "bleed", null, Verdict.Missed, Fault.Bleed, drone.LeftDb, null, "dB", null, "The program's own sound bleeds into the take and cannot be taken out: its pitches cannot be told from yours."),
        ],
        Next = Headphones,
    };

    private static TakeResult PartlyKnown(TakeResult result, DroneInTake drone) => result with
    {
        Findings =
        [
            new Finding("", "bleed", null, Verdict.NotTold, Fault.Bleed, drone.LeftDb, null, "dB", null, string.Create(CultureInfo.InvariantCulture,
                $"The program's own sound bleeds into the take and cannot be taken out: while it sounded you are not known. Judged is what you did after it had left, {drone.AloneSeconds:0.0} of {drone.AskedSeconds:0.0} s.")),
            .. result.Findings,
        ],
        Next = result.AsAsked is null ? Headphones : result.Next,
    };
}
