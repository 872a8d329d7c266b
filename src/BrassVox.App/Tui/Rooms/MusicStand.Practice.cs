using BrassVox.Practice.Demo;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Whose practice it is, and where it is kept.</summary>
internal sealed partial class MusicStand
{
    private bool? _isSimulated;
    private Task<PracticeReading>? _practice;
    private PracticeReading? _lastPractice;
    private readonly Dictionary<string, PlanChoices> _planned = new(StringComparer.Ordinal);

    /// <summary>Name of the player; empty for the only one.</summary>
    public string PlayerName => Memory.Now.PlayerName;

    /// <summary>True when all takes here belong to the invented ensemble.</summary>
    public bool IsSimulated => _isSimulated ??= DemoEnsemble.IsMarked(Parts.DataFolder);

    /// <summary>The log of the data folder.</summary>
    public PracticeLog Log => new(Parts.DataFolder);

    /// <summary>What was sung, as of the last reading; null before the first.</summary>
    public VoiceLoad? Voice => LastPractice?.Voice;

    /// <summary>How many takes the player has, as of the last reading; 0 before the first.</summary>
    public int TakeCount => LastPractice?.Takes ?? 0;

    /// <summary>What the plan would have the player do next; null before the first reading and when today's work is done.</summary>
    public PlanLine? Next => LastPractice?.Next;

    /// <summary>Today's plan, as of the last reading; null before the first.</summary>
    public PracticePlan? Today => LastPractice?.Plan;

    /// <summary>What the player decided of today's plan, wherever the plan is shown.</summary>
    public PlanChoices Planned
    {
        get
        {
            DateOnly today = WeekTrend.DayOf(Parts.Time.GetUtcNow(), Parts.Time.LocalTimeZone);
            return _planned.TryGetValue(PlayerName, out PlanChoices? planned) && planned.Day == today ? planned : new PlanChoices(PlayerName, today);
        }
        set => _planned[value.Player] = value;
    }

    /// <summary>True once <see cref="Next"/> is known.</summary>
    public bool IsPracticeRead => LastPractice is not null;

    private string? PracticeTrouble => LastPractice?.Trouble;

    private PracticeReading? LastPractice
    {
        get
        {
            if (_practice is { IsCompletedSuccessfully: true, Result: { } read })
            {
                _lastPractice = read;
            }

            return _lastPractice;
        }
    }

    /// <summary>The takes of the data folder, for the present player.</summary>
    public TakeStore Store() => new(Parts.DataFolder, Parts.Time, PlayerName, IsSimulated);

    /// <summary>Reads what was sung and kept anew, and what is next, elsewhere; <see cref="Voice"/>, <see cref="TakeCount"/> and <see cref="Next"/> then tell it.</summary>
    public void ReadPractice()
    {
        TakeStore store = Store();
        Player player = Memory.Now.Player;
        ExerciseLibrary exercises = Parts.Exercises;
        TimeProvider time = Parts.Time;
        string folder = Parts.DataFolder;
        PlanChoices planned = Planned;
        // A take that is still being kept counts.
        Task kept = Kept();
        _practice = Task.Run(async () =>
        {
            await kept.ConfigureAwait(false);
            return PracticeReading.Read(store, player, exercises, time, folder, planned.On);
        });
    }

    /// <summary>A body note was made: whoever lists takes or shows that one shows it, also under the room that is open.</summary>
    /// <param name="tag">The tag.</param>
    /// <param name="takeId">The take; null for none.</param>
    public void Noted(BodyTag tag, string? takeId)
    {
        foreach (Room room in _rooms)
        {
            (room as TakesRoom)?.Noted(tag, takeId);
            if (takeId is not null)
            {
                (room as TakeRoom)?.Noted(tag, takeId);
            }
        }
    }
}
