using BrassVox.Practice.Demo;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Whose practice it is, and where it is kept.</summary>
internal sealed partial class MusicStand
{
    private bool? _isSimulated;
    private Task<(VoiceLoad Voice, int Takes)?>? _practice;
    private (VoiceLoad Voice, int Takes)? _lastPractice;

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

    private (VoiceLoad Voice, int Takes)? LastPractice
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

    /// <summary>Reads what was sung and kept anew, elsewhere; <see cref="Voice"/> and <see cref="TakeCount"/> then tell it.</summary>
    public void ReadPractice()
    {
        TakeStore store = Store();
        string player = PlayerName;
        TimeProvider time = Parts.Time;
        _practice = Task.Run((VoiceLoad, int)? () =>
        {
            int takes = store.List(new TakeFilter(player)).Takes.Count;
            try
            {
                return (VoiceLoad.Of(store.Log.Spells(new TakeFilter(player)), time.GetUtcNow(), time.LocalTimeZone), takes);
            }
            catch (LogException)
            {
                // Takes says what is wrong with the log.
                return (new VoiceLoad(0, 0, 0), takes);
            }
        });
    }

    /// <summary>A body note was made: whoever lists takes shows it.</summary>
    /// <param name="tag">The tag.</param>
    /// <param name="takeId">The take; null for none.</param>
    public void Noted(BodyTag tag, string? takeId)
    {
        if (takeId is not null && Top is TakesRoom takes)
        {
            takes.Noted(tag, takeId);
        }
    }
}
