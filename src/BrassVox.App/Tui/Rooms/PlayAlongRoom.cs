using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui.Rooms;

/// <summary>One play-along exercise: cue, dark, say it, reveal. Until the sentence is whole nothing shown depends on what was measured.</summary>
internal sealed partial class PlayAlongRoom : Room
{
    private const int UnheardRateHz = 48000;
    private readonly ResolvedExercise _given;
    private readonly ClickUse _click;
    private readonly Action<JudgedTake>? _revealed;
    private readonly Listener _listener;
    private readonly TakeStore _store;
    private ResolvedExercise _exercise;
    private ResolvedExercise _next;
    private Task<TakeSaving>? _keeping;
    private TaskCompletionSource<string?> _coming = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private Task<SurenessFigure?>? _sureness;
    private PlayAlongSession? _session;
    private IPairEngine? _engine;
    private Sentence _sentence;
    private PlayAlongPhase _phase;
    private bool _troubleSaid;
    private bool _keptSaid;
    private bool _isPredicting;

    /// <summary>Opens the room and the microphone; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="exercise">A play-along exercise.</param>
    /// <param name="click">When a click is heard.</param>
    /// <param name="revealed">Told of each take once it is shown; null for nobody.</param>
    public PlayAlongRoom(MusicStand stand, ResolvedExercise exercise, ClickUse click = ClickUse.Off, Action<JudgedTake>? revealed = null)
        : base(stand)
    {
        _given = _exercise = _next = exercise;
        _click = click;
        _revealed = revealed;
        _sentence = new Sentence(exercise);
        _store = stand.Store();
        _listener = new Listener(stand.Parts.Audio, stand.Memory.Now.InputDevice);
        Keys =
        [
            new("r", "again, from the cue", ['r'], Begin),
            new("z", "undo the last word", ['z'], UndoWord),
            .. OptionKeys,
        ];
    }

    /// <summary>Ends when the microphone has been opened, or could not be.</summary>
    public Task Opening => _listener.Opening;

    /// <inheritdoc/>
    public override string Title => "PLAY ALONG";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override string Where => $"Play along: {_exercise.Exercise.Name}, {PhaseWords()}. {Choices[MarkedIndex].Label} is marked.";

    /// <inheritdoc/>
    public override NotedTake NotedTake => _phase == PlayAlongPhase.Dark ? new(_coming.Task, AboutThis)
        : _phase is PlayAlongPhase.SayIt or PlayAlongPhase.Reveal && _keeping is { } keeping ? new(IdAsync(keeping), AboutThis)
        : NotedTake.None;

    private string AboutThis => $"{(HasOptions ? $"{_exercise.Exercise.Number} " : "")}{_exercise.Exercise.Name}, this take";

    /// <inheritdoc/>
    public override string Phase => _isPredicting ? "Predict" : $"{_phase} {_sentence.Line}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => _phase switch
    {
        _ when _isPredicting => [$"{PredictionQuestion}?"],
        PlayAlongPhase.SayIt when _sentence.Line < _sentence.Count =>
            [$"say it: {_sentence.Subject(_sentence.Line)} {string.Join(", ", _sentence.Words(_sentence.Line))}?"],
        PlayAlongPhase.Reveal when _session is { Judged: { } judged, Said: { } said } =>
            [.. BleedWords(judged), .. ExpectedWords(judged), .. judged.Result.DroneComparisons.Select(RevealView.ComparisonWords), .. Sayings.Compare(said, judged.Result).Select(check => $"you said {check.Said}: {check.Measured}."), .. Sure is { } sure ? [$"you were {sure.Words}."] : Array.Empty<string>(), $"next: {judged.Result.Next}"],
        PlayAlongPhase.Ready => [.. Prompts, .. AsAsked],
        _ => [],
    };

    /// <inheritdoc/>
    public override IReadOnlyList<string> Cares => _phase == PlayAlongPhase.Ready && !_isPredicting ? [ReadyCare, .. ExerciseMenuRoom.CaresOf(_exercise.Exercise)] : [];

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices
    {
        get
        {
            Choice leave = new("leave", Stand.Back);
            if (_isPredicting && Predictions.AskedBy(_exercise) is { } figure)
            {
                return [.. Predictions.Offered(figure).Select(value => new Choice(OfferedWords(figure, value), () => BeginExpecting(new Prediction(figure, value)))), new Choice("write the number", AskNumber)];
            }

            return _phase switch
            {
                PlayAlongPhase.Cue => [new Choice("again from the cue", Again), leave],
                PlayAlongPhase.Dark => [new Choice("end the take", EndTake), new Choice("again from the cue", Again), leave],
                PlayAlongPhase.SayIt when _sentence.Line < _sentence.Count =>
                    [new Choice("no word yet", () => Stand.Say("Left or Right marks a word; Enter takes it.")), .. _sentence.Words(_sentence.Line).Select((word, i) => new Choice(word, () => TakeWord(i)))],
                PlayAlongPhase.SayIt => [new Choice("wait", () => Stand.Say("The take is being measured.")), leave],
                PlayAlongPhase.Reveal => [new Choice("again", Begin), new Choice("other exercise", Stand.Back), .. OptionChoices, leave],
                _ => [new Choice("begin", Begin), .. OptionChoices, leave],
            };
        }
    }

    /// <inheritdoc/>
    public override void Left()
    {
        End();
        _session?.Leave();
        Stand.Desk.Tap(null);
        Stand.Desk.Click(null);
        _listener.Close();
        foreach (PairPart part in Stand.Desk.Engine?.Parts ?? [])
        {
            Stand.Desk.SetGain(part.Index, 0);
        }
    }

    /// <inheritdoc/>
    public override void Silenced()
    {
        _isPredicting = false;
        if (_phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark)
        {
            Stand.Say(_phase == PlayAlongPhase.Cue ? "Tacet. The cue is broken off." : "Tacet. The take ends here and is kept to here.");
            End();
        }
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        // Before its words a line of the sentence has the mark of none: no answer is put into the player's mouth.
        int first = _phase == PlayAlongPhase.SayIt && !_isPredicting && _sentence.Line < _sentence.Count ? 1 : 0;
        if ((_phase != PlayAlongPhase.SayIt && !_isPredicting) || digit < 1 || digit + first > Choices.Count)
        {
            return false;
        }

        Mark(digit - 1 + first);
        DoMarked();
        return true;
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        if (!_troubleSaid && _listener.Trouble is { } trouble)
        {
            _troubleSaid = true;
            Stand.Say(trouble);
        }

        if (_session is { } session)
        {
            if (Stand.Desk.Engine != _engine && _phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark)
            {
                End();
                Stand.Say("The sound was lost: the take ends here and is kept to here.");
            }

            session.Poll();
            Follow(session.Phase);
        }

        if (_keeping is { IsCompleted: true } kept && !_keptSaid)
        {
            _keptSaid = true;
            if (!kept.IsCompletedSuccessfully)
            {
                Stand.Say($"The take could not be measured and is not kept: {kept.Exception?.GetBaseException().Message} Esc leaves.");
            }
            else if (kept.Result.Message is not null)
            {
                Stand.Say(kept.Result.Message ?? "");
            }
        }
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        switch (_phase)
        {
            case var _ when _isPredicting:
                DrawPrediction(canvas);
                break;
            case PlayAlongPhase.Cue or PlayAlongPhase.Dark:
                DrawDark(canvas);
                break;
            case PlayAlongPhase.SayIt:
                DrawSentence(canvas);
                break;
            case PlayAlongPhase.Reveal when _session is { Judged: { } judged, Said: { } said }:
                Stand.DrawHeader(canvas, Heading(canvas, "reveal"));
                RevealView.Draw(canvas, Stand, judged, said, Sure);
                DrawMarkedLine(canvas, "Up Down other   Space tacet   Esc leave   h keys");
                break;
            default:
                DrawReady(canvas);
                break;
        }
    }

    private static string[] BleedWords(JudgedTake judged) => judged.Drone is { Bleeds: true } drone ? [$"{drone.Words(judged.HasDrone)}."] : [];

    private static string[] ExpectedWords(JudgedTake judged) => judged.ExpectedCheck is { } check ? [$"you {check.Said}: {check.Measured}."] : [];

    private string PhaseWords() => _isPredicting ? "say what you expect first" : _phase switch
    {
        PlayAlongPhase.Cue => "the cue sounds",
        PlayAlongPhase.Dark => "the take runs, unseen",
        PlayAlongPhase.SayIt => "say it first",
        PlayAlongPhase.Reveal => "reveal",
        _ => "ready",
    };

    private void Begin()
    {
        if (_phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark)
        {
            Again();
            return;
        }

        if (_phase == PlayAlongPhase.SayIt)
        {
            Stand.Say(_sentence.Whole is null ? "Finish the sentence first; Esc leaves without looking." : "The take is being measured.");
            return;
        }

        if (Stand.Desk is not { Engine: { } engine, Granted: { } granted })
        {
            Stand.Say("The sound is still opening; Enter again in a moment.");
            return;
        }

        if (!_listener.Opening.IsCompleted)
        {
            // A session counts the microphone's samples: it needs the rate that was granted.
            Stand.Say("The microphone is still opening; Enter again in a moment.");
            return;
        }

        TakeOptionsUp();
        if (_session is null || engine != _engine)
        {
            int inputRate = _listener.SampleRateHz > 0 ? _listener.SampleRateHz : UnheardRateHz;
            // Measured in Set-up with a buffer of the usual length, or at least what both lines hold.
            double roundTripMs = Stand.Memory.Now.DelayMs is { } measured ? measured + Stand.Desk.LengthenedMs : granted.BufferMs + _listener.BlockMs;
            _engine = engine;
            _session = new PlayAlongSession(
                _exercise, engine, Stand.Parts.CreateTracker, new PlayAlongOptions(granted.SampleRateHz, inputRate, roundTripMs / 1000, Click: _click));
            _listener.LetHear(_session);
            Stand.Desk.Tap(_session.HearSent);
            Stand.Desk.Click(_click == ClickUse.Off ? null : _session.RenderClick, Stand.Memory.Now.ClickChannel);
        }

        if (_session.Predicts is { } figure)
        {
            _isPredicting = true;
            Mark(Predictions.Offered(figure).Count / 2);
            return;
        }

        BeginExpecting(null);
    }

    private void BeginExpecting(Prediction? expected)
    {
        _isPredicting = false;
        if (Stand.Desk.Engine != _engine)
        {
            Stand.Say("The sound was lost meanwhile; Enter again in a moment.");
            return;
        }

        _sentence = new Sentence(_exercise);
        _session!.Begin(expected);
        Follow(_session.Phase);
    }

    private void Again()
    {
        // Begun again at the player's own wish: what was broken off is not kept, and what was noted in it stays as a note of no take.
        _session!.End();
        _session.Leave();
        _coming.TrySetResult(null);
        _phase = _session.Phase;
        Begin();
        Stand.Say("From the cue again.");
    }

    private void EndTake() => End();

    private void End()
    {
        if (_session is { } session)
        {
            session.End();
            Follow(session.Phase);
        }
    }

    private void TakeWord(int word)
    {
        _sentence.Take(word);
        Mark(0);
        if (_sentence.Whole is { } saying)
        {
            _session!.Say(saying);
            KeepSaid(saying);
        }
    }

    private void UndoWord()
    {
        if (_phase == PlayAlongPhase.SayIt && _sentence.Line > 0 && _sentence.Whole is null)
        {
            _sentence.Undo();
            Mark(0);
        }
        else
        {
            Stand.Say("Nothing to undo.");
        }
    }

    private void Follow(PlayAlongPhase phase)
    {
        if (phase == _phase)
        {
            return;
        }

        if (phase == PlayAlongPhase.Dark)
        {
            _coming = new(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        if (_phase == PlayAlongPhase.Dark && phase == PlayAlongPhase.SayIt)
        {
            CountSinging();
            Keep(KeepAsync(_session!.Measuring!));
            _ = PassOnAsync(_keeping!, _coming);
        }
        else if (_phase == PlayAlongPhase.Dark)
        {
            _coming.TrySetResult(null);
        }

        if (phase == PlayAlongPhase.Reveal && _session?.Judged is { } shown)
        {
            _revealed?.Invoke(shown);
        }

        _phase = phase;
        Mark(0);
    }
}
