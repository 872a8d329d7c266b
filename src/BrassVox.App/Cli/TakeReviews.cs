using BrassVox.Audio.Wav;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Handouts;

namespace BrassVox.App.Cli;

/// <summary>Kept takes as a handout shows them, for the command line and the screens alike. Blocks on the disk.</summary>
/// <param name="folder">The data folder.</param>
/// <param name="exercises">The exercises there are.</param>
/// <param name="time">The clock.</param>
internal sealed class TakeReviews(string folder, ExerciseLibrary exercises, TimeProvider time)
{
    // What playing and singing at once asks for, where the exercise itself cannot be asked any more.
    private static readonly Caution[] Usual = [Caution.Voice, Caution.Lips, Caution.Pressure, Caution.Dizziness];

    private readonly TakeStore _store = new(folder, time);
    private readonly List<string> _remarks = [];

    /// <summary>What could not be shown of the takes so far, a sentence each.</summary>
    public IReadOnlyList<string> Remarks => _remarks;

    /// <summary>True when a take was ever kept there.</summary>
    public bool IsAnythingKept => File.Exists(Path.Combine(folder, PracticeLog.FileName)) || Directory.Exists(Path.Combine(folder, "takes"));

    /// <summary>The takes of a player, oldest first; of everybody where none is named.</summary>
    /// <param name="player">Name of the player; null for all.</param>
    public TakeListing List(string? player = null) => _store.List(new TakeFilter(player));

    /// <summary>One take.</summary>
    /// <param name="take">The take as the log knows it.</param>
    /// <param name="player">Whose it is.</param>
    /// <param name="all">All takes of that player, for the error map; empty leaves it out.</param>
    /// <param name="withSound">True takes in the sound, where it was kept.</param>
    public TakeReview Of(TakeRecord take, Player player, IReadOnlyList<LoggedTake> all, bool withSound)
    {
        TakeRecord whole = _store.Read(take.Id) ?? take;
        if (_store.ProblemOf(take.Id) is { } problem)
        {
            _remarks.Add($"{problem} The log's figures are shown in its place.");
        }

        ResolvedExercise? asked = TakeTask.Of(whole, exercises, folder);
        Exercise? exercise = asked?.Exercise ?? exercises.Find(take.ExerciseId);
        if (asked is null)
        {
            _remarks.Add($"{take.Id}: {(exercise is null ? $"{take.ExerciseName} is not there any more" : $"{take.ExerciseName} is not as it was when the take was made, or draws its notes")}; the take is shown without what was asked.");
        }

        byte[]? sound = null;
        if (withSound)
        {
            double? end = asked is null ? null : whole.StartSeconds + asked.TakeSeconds + TakeSound.RingsOnSeconds;
            string path = _store.SoundPath(whole);
            sound = !File.Exists(path) ? null : WavReader.Read(path) is WavSound wav ? TakeSound.Opus(wav.Mono(), wav.SampleRateHz, whole.StartSeconds, end, take.ExerciseName) : null;
            if (sound is null)
            {
                _remarks.Add($"{take.Id}: its sound {(take.IsSimulated ? "was never made: figures only" : "is not kept here any more, or cannot be read")}.");
            }
        }

        // A passage is many pairs; the map's cell of its first one says nothing of it.
        ErrorCell? cell = take.IsOfPassage ? null : ErrorMap.Of(all).Find(IntervalFamilies.Of(take.Played, take.Sung), PlayedRegister.Of(take.Played));
        return new TakeReview(whole, asked, exercise?.Cautions ?? Usual, time.LocalTimeZone, sound, cell is null ? null : WeekTrend.Of(cell, all, time.LocalTimeZone), Plan(take, player));
    }

    /// <summary>What the plan of the day has of the exercise, and why; else what it has first.</summary>
    private string? Plan(TakeRecord take, Player player)
    {
        try
        {
            PracticePlan plan = Planner.Plan(PlanInputs.Read(_store.Log, player, exercises, time));
            PlanLine? same = plan.Lines.FirstOrDefault(line => line.Exercises.Any(exercise => exercise.Exercise.Id == take.ExerciseId));
            PlanLine? line = same ?? plan.Lines.FirstOrDefault(other => other.Kind == PlanLineKind.Playing && other.Exercises.Count > 0);
            return line is null ? null : FormattableString.Invariant(
                $"{(same is null ? "First to play on the plan" : "On the plan again")}: {line.What(player.NoteNames)}, {line.Minutes} minutes{(line.Because.Length > 0 ? $"; why: {line.Because}" : "")}.");
        }
        catch (LogException)
        {
            // Where the log cannot be used the takes say so already.
            return null;
        }
    }
}
