using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>
/// Runs takes of a play-along exercise: cue, dark, say it, reveal. One thread calls everything but <see cref="Hear"/> and <see cref="HearSent"/>; call
/// <see cref="Poll"/> at least 20 times a second. Whoever renders the engine does so elsewhere. A take is measured after it has ended,
/// from its whole sound, so that a microphone and a file give the same result and nothing on the dark screen can know the pitch.
/// </summary>
public sealed class PlayAlongSession
{
    private const double LeadSeconds = 0.15;
    private const double CueToneSeconds = 1.0;
    private const double CueSilenceSeconds = 1.0;
    private const double CountSeconds = 3.0;

    /// <summary>Recorded after the last step, so that the last window is whole.</summary>
    private const double TailSeconds = 0.3;

    private readonly IPairEngine _engine;
    private readonly TrackerFactory _factory;
    private readonly PlayAlongOptions _options;
    private readonly EventFeed _feed;
    private readonly ClickTrack _click;

    private float[] _buffer = [];
    private int _written;
    private float[] _sent = [];
    private int _sentCount;
    private bool _isRecording;
    private long _goSample = long.MaxValue;
    private long _inputAtGo = -1;
    private long _cueSample;
    private Task<JudgedTake>? _judging;

    /// <summary>Prepares a session; nothing sounds.</summary>
    /// <param name="resolved">A resolved play-along exercise.</param>
    /// <param name="engine">A prepared engine that someone renders.</param>
    /// <param name="factory">Makes the tracker.</param>
    /// <param name="options">Rates and delay.</param>
    /// <exception cref="ArgumentException">The exercise is no play-along exercise.</exception>
    public PlayAlongSession(ResolvedExercise resolved, IPairEngine engine, TrackerFactory factory, PlayAlongOptions options)
    {
        if (resolved.Exercise.PlayAlong is null)
        {
            throw new ArgumentException($"{resolved.Exercise.Id} is no play-along exercise.", nameof(resolved));
        }

        Exercise = resolved;
        _engine = engine;
        _factory = factory;
        _options = options;
        _feed = new EventFeed(engine, options.OutputRateHz);
        _click = new ClickTrack(options.OutputRateHz);
    }

    /// <summary>The exercise.</summary>
    public ResolvedExercise Exercise { get; }

    /// <summary>Where the session stands.</summary>
    public PlayAlongPhase Phase { get; private set; } = PlayAlongPhase.Ready;

    /// <summary>The take at hand, from 1; 0 before the first.</summary>
    public int TakeNumber { get; private set; }

    /// <summary>Length of the cue in seconds, its silence included.</summary>
    public double CueSeconds => CueToneLength + CountInSeconds;

    private double CountInSeconds => _options.Click == ClickUse.Off ? 0 : Exercise.CountInBeats * Exercise.BeatSeconds;

    private double CueToneLength => Exercise.Exercise.PlayAlong!.Cue switch
    {
        Cue.Tones => (CueTones().Count * CueToneSeconds) + CueSilenceSeconds,
        Cue.Model => Exercise.TakeSeconds + CueSilenceSeconds,
        Cue.SungTone => CueToneSeconds + CueSilenceSeconds,
        _ => _options.Click == ClickUse.Off ? CountSeconds : 0,
    };

    /// <summary>Seconds since the take began, on the engine's clock; negative during the cue.</summary>
    public double TakeSeconds => Phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark
        ? (double)(_engine.SamplesRendered - _goSample) / _options.OutputRateHz
        : 0;

    /// <summary>Index of the step now asked for; null in gaps and outside Dark.</summary>
    public int? StepIndex
    {
        get
        {
            if (Phase != PlayAlongPhase.Dark)
            {
                return null;
            }

            double now = TakeSeconds;
            for (int i = 0; i < Exercise.Steps.Count; i++)
            {
                double since = now - Exercise.StepStartSeconds(i);
                if (since >= 0 && since < Exercise.Steps[i].DurationSeconds)
                {
                    return i;
                }
            }

            return null;
        }
    }

    /// <summary>The finished take with its result, from Reveal on; until then null.</summary>
    public JudgedTake? Judged => Phase == PlayAlongPhase.Reveal ? _judging?.Result : null;

    /// <summary>The measuring of the take that has just ended, from SayIt on, for keeping it; nothing of it is shown before Reveal. Null before.</summary>
    public Task<JudgedTake>? Measuring => _judging;

    /// <summary>The sound of the take that has just ended, from SayIt on; null before.</summary>
    public RecordedTake? Recorded { get; private set; }

    /// <summary>The number the player is to predict before each take; null for none.</summary>
    public PredictedFigure? Predicts => Predictions.AskedBy(Exercise);

    /// <summary>What the player expects of the take at hand; null when nothing was said. Each take asks anew.</summary>
    public Prediction? Expected { get; private set; }

    /// <summary>What the player said of the take; null until it is said.</summary>
    public Saying? Said { get; private set; }

    /// <summary>True when a tone is asked for now.</summary>
    /// <param name="role">The tone.</param>
    public bool IsAskedNow(VoiceRole role) => StepIndex is { } index
        && Asked(index, role)?.IsAskedAt(TakeSeconds - Exercise.StepStartSeconds(index)) == true;

    /// <summary>True when the program sounds a tone now, in the take itself.</summary>
    /// <param name="role">The tone.</param>
    public bool IsDroneNow(VoiceRole role)
    {
        if (StepIndex is not { } index || !_options.DroneSounds)
        {
            return false;
        }

        double now = TakeSeconds - Exercise.StepStartSeconds(index);
        return Exercise.Steps[index].Sounding.Any(part =>
            part.Role == role && part.Windows.Any(window => now >= window.FromSeconds && now < window.ToSeconds));
    }

    /// <summary>Starts the cue of the next take. Not while one runs.</summary>
    /// <param name="expected">What the player expects of it; null for nothing.</param>
    public void Begin(Prediction? expected = null)
    {
        if (Phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark)
        {
            return;
        }

        TakeNumber++;
        Recorded = null;
        Said = null;
        Expected = expected;
        _judging = null;
        double seconds = LeadSeconds + CueSeconds + Exercise.TakeSeconds + TailSeconds + _options.RoundTripSeconds + 1;
        _buffer = new float[(int)(seconds * _options.InputRateHz)];
        _written = 0;
        _sent = new float[(int)(seconds * _options.OutputRateHz)];
        _sentCount = 0;
        _inputAtGo = -1;
        _cueSample = _engine.SamplesRendered + Samples(LeadSeconds);
        Volatile.Write(ref _goSample, _cueSample + Samples(CueSeconds));
        Volatile.Write(ref _isRecording, true);
        Phase = PlayAlongPhase.Cue;
        PostCue();
        PlanClick();
        if (_options.DroneSounds)
        {
            for (int i = 0; i < Exercise.Steps.Count; i++)
            {
                _feed.Add(PairScript.Of(Exercise.Steps[i], _engine.Parts, _options.OutputRateHz, _goSample + Samples(Exercise.StepStartSeconds(i))));
            }
        }
    }

    /// <summary>Takes recorded samples. On the input's sound thread: copies, never allocates, locks, waits or throws.</summary>
    /// <param name="mono">Samples, full scale 1; kept while a take runs, otherwise passed over.</param>
    public void Hear(ReadOnlySpan<float> mono)
    {
        if (!Volatile.Read(ref _isRecording))
        {
            return;
        }

        float[] buffer = _buffer;
        int written = _written;
        if (_inputAtGo < 0 && _engine.SamplesRendered >= Volatile.Read(ref _goSample))
        {
            // Two clocks meet here once a take; exact to one block of either line.
            Volatile.Write(ref _inputAtGo, written);
        }

        int count = Math.Min(mono.Length, buffer.Length - written);
        if (count > 0)
        {
            mono[..count].CopyTo(buffer.AsSpan(written));
            Volatile.Write(ref _written, written + count);
        }
    }

    /// <summary>Takes what the engine has just rendered, so that it can be told from the player. On the output's sound thread: copies, never allocates, locks, waits or throws.</summary>
    /// <param name="mono">Samples, full scale 1; kept while a take runs, otherwise passed over.</param>
    public void HearSent(ReadOnlySpan<float> mono)
    {
        if (!Volatile.Read(ref _isRecording))
        {
            return;
        }

        float[] sent = _sent;
        int count = Math.Min(mono.Length, sent.Length - _sentCount);
        if (count > 0)
        {
            mono[..count].CopyTo(sent.AsSpan(_sentCount));
            Volatile.Write(ref _sentCount, _sentCount + count);
        }
    }

    /// <summary>The clicks of the block that the engine has just rendered, for a channel of their own or to be mixed in. On the output's sound thread: never allocates, locks, waits or throws.</summary>
    /// <param name="output">A block as long as the engine's last one, overwritten.</param>
    public void RenderClick(Span<float> output) => _click.Render(_engine.SamplesRendered - output.Length, output);

    /// <summary>Moves on as the sound does. Call at least 20 times a second.</summary>
    public void Poll()
    {
        _feed.Pump();
        if (Phase == PlayAlongPhase.Cue && TakeSeconds >= 0)
        {
            Phase = PlayAlongPhase.Dark;
        }

        if (Phase == PlayAlongPhase.Dark && TakeSeconds >= Exercise.TakeSeconds + TailSeconds + _options.RoundTripSeconds)
        {
            End();
        }

        if (Phase == PlayAlongPhase.SayIt && Said is not null && _judging is { IsCompletedSuccessfully: true })
        {
            Phase = PlayAlongPhase.Reveal;
        }
    }

    /// <summary>Ends a running take early (in the cue: goes back to Ready). What was recorded is kept and judged.</summary>
    public void End()
    {
        bool isTake = Phase == PlayAlongPhase.Dark;
        if (!isTake && Phase != PlayAlongPhase.Cue)
        {
            return;
        }

        _feed.Tacet();
        _click.Plan([], []);
        Volatile.Write(ref _isRecording, false);
        if (!isTake)
        {
            TakeNumber--;
            Phase = PlayAlongPhase.Ready;
            return;
        }

        int written = Volatile.Read(ref _written);
        long atGo = Volatile.Read(ref _inputAtGo);

        // A microphone that went away in the cue has heard nothing of the take.
        long start = (atGo < 0 ? written : atGo) + (long)(_options.RoundTripSeconds * _options.InputRateHz);
        Recorded = new RecordedTake(_buffer[..written], _options.InputRateHz, (double)start / _options.InputRateHz);
        RecordedTake recorded = Recorded;
        int number = TakeNumber;
        Prediction? expected = Expected;
        int sentCount = Volatile.Read(ref _sentCount);
        float[]? sent = sentCount > 0 && _options.OutputRateHz == _options.InputRateHz ? _sent[..sentCount] : null;
        _judging = Task.Run(() => JudgedTake.Of(Exercise, number, recorded, _factory, sent, _options.RoundTripSeconds) with { Expected = expected });
        Phase = PlayAlongPhase.SayIt;
    }

    /// <summary>What the player says of the take, before looking. <see cref="Poll"/> then reveals as soon as it is measured.</summary>
    /// <param name="saying">The whole sentence.</param>
    public void Say(Saying saying)
    {
        if (Phase == PlayAlongPhase.SayIt)
        {
            Said = saying;
        }
    }

    /// <summary>Leaves without looking: the take stays closed.</summary>
    public void Leave()
    {
        if (Phase is PlayAlongPhase.SayIt or PlayAlongPhase.Reveal)
        {
            Phase = PlayAlongPhase.Ready;
        }
    }

    private AskedPart? Asked(int stepIndex, VoiceRole role)
    {
        var task = (PlayTask)Exercise.Steps[stepIndex].Task;
        return role == VoiceRole.Played ? task.Played : task.Sung;
    }

    private void PlanClick()
    {
        if (_options.Click == ClickUse.Off)
        {
            return;
        }

        int count = Exercise.CountInBeats;
        IEnumerable<ClickBeat> beats = Enumerable.Range(0, count).Select(i => new ClickBeat((i - count) * Exercise.BeatSeconds, i == 0));
        ClickBeat[] all = [.. _options.Click == ClickUse.Throughout ? beats.Concat(Exercise.Beats) : beats];
        long go = Volatile.Read(ref _goSample);
        _click.Plan([.. all.Select(beat => go + Samples(beat.Seconds))], [.. all.Select(beat => beat.IsFirst)]);
    }

    private long Samples(double seconds) => (long)Math.Round(seconds * _options.OutputRateHz);

    private void PostCue()
    {
        switch (Exercise.Exercise.PlayAlong!.Cue)
        {
            case Cue.Tones or Cue.SungTone:
                long at = _cueSample;
                foreach (ExerciseStep tone in CueTones())
                {
                    _feed.Add(PairScript.Of(tone, _engine.Parts, _options.OutputRateHz, at));
                    at += Samples(CueToneSeconds);
                }

                break;
            case Cue.Model:
                for (int i = 0; i < Exercise.Steps.Count; i++)
                {
                    ExerciseStep model = CueSteps.Model(Exercise.Steps[i]);
                    _feed.Add(PairScript.Of(model, _engine.Parts, _options.OutputRateHz, _cueSample + Samples(Exercise.StepStartSeconds(i))));
                }

                break;
            default:
                break;
        }
    }

    private IReadOnlyList<ExerciseStep> CueTones() => Exercise.Exercise.PlayAlong!.Cue == Cue.SungTone
        ? CueSteps.SungTone(Exercise, CueToneSeconds)
        : CueSteps.Tones(Exercise, CueToneSeconds);
}
