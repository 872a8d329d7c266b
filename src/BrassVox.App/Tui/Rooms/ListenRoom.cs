using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui.Rooms;

/// <summary>One listening exercise: sound, answer, truth, and what can be told so far.</summary>
internal sealed partial class ListenRoom : Room
{
    private const double AdjustStepCents = 5;

    // Who taps along taps once more when the sound is over. Ours.
    private const double LateTapSeconds = 0.6;
    private const string NotCounted = "Nothing of this set is counted or kept: there is no sound device, so nothing can be heard.";
    private readonly ResolvedExercise _exercise;
    private readonly Task<IReadOnlyList<ListeningEntry>> _before;
    private ListeningSession? _session;
    private ListeningSession? _kept;
    private double _preparedAt;
    private double _endedAt;
    private IPairEngine? _engine;
    private string _shownFor = "";
    private bool _findsThreshold;

    // Trials without a sound device tell nothing of the listener: the set is looked at, not kept.
    private bool _isUnheard;

    /// <summary>Opens the room; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="exercise">A listening exercise.</param>
    public ListenRoom(MusicStand stand, ResolvedExercise exercise)
        : base(stand)
    {
        _exercise = exercise;
        List<RoomKey> keys = [new("r", "hear it again", ['r'], Again)];
        switch (Plan.Answer)
        {
            case RateAnswer:
                keys.Add(new RoomKey("n", "say the number (text)", ['n'], AskRate));
                break;
            case AdjustAnswer:
                keys.Add(new RoomKey("Left j", "S 5 c lower", [PressKind.Left, 'j'], () => Adjust(-AdjustStepCents)));
                keys.Add(new RoomKey("Right l", "S 5 c higher", [PressKind.Right, 'l'], () => Adjust(AdjustStepCents)));
                keys.Add(new RoomKey(",", "S 1 c lower", [','], () => Adjust(-1)));
                keys.Add(new RoomKey(".", "S 1 c higher", ['.'], () => Adjust(1)));
                break;
        }

        Keys = keys;
        _before = ReadBeforeAsync(exercise.Exercise.Id);
        TryPrepare();
    }

    /// <inheritdoc/>
    public override string Title => "LISTEN";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices
    {
        get
        {
            Choice again = new("hear again", Again);
            Choice leave = new("leave", Stand.Back);
            if (_session is not { } session)
            {
                return [new Choice("begin", Next), leave];
            }

            return session.Phase switch
            {
                ListeningPhase.Ready => [new Choice(session.TrialNumber == 1 ? "first trial" : "next trial", Next), .. session.TrialNumber == 1 ? OtherSet : [], leave],
                ListeningPhase.Sounding or ListeningPhase.Asking => [.. Answers(session), again, leave],
                ListeningPhase.Answered => [new Choice(session.LastResult?.Trial.Number == session.TrialCount ? "end of the set" : "next trial", Next), again, leave],
                _ => [new Choice("another set", Restart), .. OtherSet, leave],
            };
        }
    }

    /// <inheritdoc/>
    public override string Where => _session is { } session
        ? $"Listen: {_exercise.Exercise.Name}, trial {session.TrialNumber} of {session.TrialCount}. {Choices[MarkedIndex].Label} is marked."
        : $"Listen: {_exercise.Exercise.Name}.";

    /// <inheritdoc/>
    public override string Phase => $"{_session?.Phase} {_session?.TrialNumber}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => _session is { Phase: ListeningPhase.Answered, LastResult: { } result } session
        ? [$"you: {result.Answer}. it was: {result.Truth}.", result.Trial.Says, _isUnheard ? NotCounted : session.Result.Says]
        : _session is { Phase: ListeningPhase.Finished } done
            ? ["the set is done.", .. Confusions.Of(done.Result.Trials).Select(line => $"{line.Truth}: {line.Words}."), _isUnheard ? NotCounted : done.Result.Says]
        : _session is { Phase: ListeningPhase.Sounding } ? [Plan.Question] : [];

    /// <inheritdoc/>
    public override IReadOnlyList<string> Cares => _session is null or { Phase: ListeningPhase.Ready, TrialNumber: <= 1 } ? ExerciseMenuRoom.CaresOf(_exercise.Exercise) : [];

    // Where there is a threshold, a set can look for it: each trial then follows from the answers before.
    private Choice[] OtherSet => ThresholdScale.Of(Plan) is null
        ? []
        :
        [
            new Choice(
                _findsThreshold ? "a set as written" : string.Create(CultureInfo.InvariantCulture, $"find my threshold, {ThresholdSearch.TrialsNeeded} trials"),
                ChangeSet),
        ];

    private ListeningPlan Plan => _exercise.Exercise.Listening!;

    /// <inheritdoc/>
    public override void Left()
    {
        _session?.Tacet();
        RestoreGains();
        Keep();
    }

    /// <inheritdoc/>
    public override void Silenced() => _session?.Tacet();

    /// <inheritdoc/>
    public override void Closing()
    {
        _session?.Tacet();
        Keep();
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (Plan.Answer is not ChoiceAnswer choice || digit < 1 || digit > choice.Options.Count || !IsAsking)
        {
            return false;
        }

        Mark(digit - 1);
        DoMarked();
        return true;
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        if (_session is null)
        {
            TryPrepare();
        }
        else if (Stand.Desk.Engine != _engine)
        {
            bool wasSounding = _session.Phase == ListeningPhase.Sounding;
            EndSet();
            TryPrepare();
            Stand.Say(wasSounding ? "The sound was lost: that trial is dropped, not counted. The set begins anew." : "The sound came back: the set begins anew.");
        }

        _session?.Poll();
        string phase = $"{_session?.Phase} {_session?.TrialNumber}";
        if (phase != _shownFor)
        {
            bool sameTrial = _shownFor.StartsWith("Sounding", StringComparison.Ordinal) && phase.StartsWith("Asking", StringComparison.Ordinal);
            _shownFor = phase;
            if (sameTrial)
            {
                _endedAt = Stand.NowSeconds;
            }
            else
            {
                Mark(0);
            }
        }
    }

    private bool IsAsking => _session?.Phase is ListeningPhase.Sounding or ListeningPhase.Asking;

    private void TryPrepare()
    {
        if (Stand.Desk is { Engine: { } engine, Granted: { } granted })
        {
            _engine = engine;
            _preparedAt = Stand.NowSeconds;
            _isUnheard = false;
            _session = new ListeningSession(_exercise, engine, granted.SampleRateHz, Stand.Seed(), _findsThreshold);
        }
    }

    private void EndSet()
    {
        Keep();
        _session = null;
    }

    // Of this player and exercise, the newest first.
    private async Task<IReadOnlyList<ListeningEntry>> ReadBeforeAsync(string exerciseId)
    {
        PracticeLog log = Stand.Log;
        TakeFilter filter = new(Stand.PlayerName);
        await Stand.Kept().ConfigureAwait(false);
        return await Task.Run(() => log.Listening(filter).Where(set => set.ExerciseId == exerciseId).Reverse().ToArray()).ConfigureAwait(false);
    }

    /// <summary>What was answered is kept, whether the set came to its end or not.</summary>
    private void Keep()
    {
        if (_session is { LastResult: not null } session && session != _kept && !_isUnheard)
        {
            _kept = session;
            ListeningResult result = session.Result;
            TakeStore store = Stand.Store();
            double seconds = Stand.NowSeconds - _preparedAt;
            Stand.Await("What was told apart", Task.Run(() => store.Keep(result, seconds)));
        }
    }

    private void RestoreGains()
    {
        foreach (PairPart part in Stand.Desk.Engine?.Parts ?? [])
        {
            Stand.Desk.SetGain(part.Index, 0);
        }

        if (Stand.Desk.Engine is { } engine)
        {
            engine.SungDetuneCents.Target = 0;
        }
    }

    private List<Choice> Answers(ListeningSession session)
    {
        switch (Plan.Answer)
        {
            case ChoiceAnswer choice:
                return [.. choice.Options.Select((option, i) => new Choice(option, () => session.Answer(i)))];
            case AdjustAnswer:
                return [new Choice("now it stands still", session.AnswerStill)];
            default:
                if (session.Phase == ListeningPhase.Sounding)
                {
                    return [new Choice("tap", session.Tap)];
                }

                List<Choice> rates = [];
                if (session.TappedPerSecond is { } rate)
                {
                    rates.Add(new Choice(string.Create(CultureInfo.InvariantCulture, $"I counted {rate:0.0} /s"), () => Give(session, rate)));
                }

                rates.Add(new Choice("say the number", AskRate));
                return session.TappedPerSecond is null ? [new Choice("hear again, and tap", Again), .. rates] : rates;
        }
    }

    private void Give(ListeningSession session, double rate)
    {
        if (Stand.NowSeconds - _endedAt < LateTapSeconds)
        {
            Stand.Say("That tap came after the sound and is not counted; Enter once more answers.");
            return;
        }

        session.AnswerRate(rate);
    }

    private void Next()
    {
        if (_session is not { } session)
        {
            Stand.Say("The sound is still opening; Enter again in a moment.");
            return;
        }

        if (Stand.IsUnheard)
        {
            _isUnheard = true;
            Stand.Say("No sound device: nothing can be heard, so this set is not counted. Set-up tries again.");
        }

        session.Next();
        Mark(0);
    }

    private void Restart()
    {
        EndSet();
        TryPrepare();
        Mark(0);
    }

    private void ChangeSet()
    {
        _findsThreshold = !_findsThreshold;
        Restart();
        Stand.Say(_findsThreshold ? "Each trial now follows from your answers; the end says what you can just tell." : "The trials as the exercise has them.");
    }

    private void Again()
    {
        if (_session is { } session && session.Phase is not (ListeningPhase.Ready or ListeningPhase.Finished))
        {
            session.Again();
            Mark(0);
            Stand.Say(Stand.Heard("Once more."));
        }
        else
        {
            Stand.Say("Nothing to hear again yet: Enter starts a trial.");
        }
    }

    private void Adjust(double cents)
    {
        if (_session is { Phase: ListeningPhase.Sounding } session)
        {
            session.Adjust(cents);
            Stand.Say(string.Create(CultureInfo.InvariantCulture, $"S {Math.Abs(cents):0} c {(cents < 0 ? "lower" : "higher")}."));
        }
        else
        {
            Stand.Say("The arrows move S while the trial sounds.");
        }
    }

    private void AskRate()
    {
        if (_session is not { } session || !IsAsking)
        {
            Stand.Say("No question is open: Enter starts a trial.");
            return;
        }

        Stand.Ask(new TextBox("swells a second:", text =>
        {
            if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double rate) || rate is not (>= 0 and <= 50))
            {
                return new TextFault("A number from 0 to 50 with a full stop, as in 1.5.", 0);
            }

            session.Tacet();
            session.AnswerRate(rate);
            return null;
        }));
    }
}
