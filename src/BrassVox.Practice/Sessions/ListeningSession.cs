using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>
/// Runs the trials of a listening exercise on an engine's clock. One thread calls everything here; call <see cref="Poll"/>
/// at least 20 times a second. Whoever renders the engine does so elsewhere.
/// </summary>
public sealed class ListeningSession
{
    private const double LeadSeconds = 0.15;

    private readonly IPairEngine _engine;
    private readonly int _sampleRateHz;
    private readonly EventFeed _feed;
    private readonly ListeningPlan _plan;
    private readonly List<ListeningTrial> _trials;
    private readonly ThresholdScale? _scale;
    private readonly ThresholdSearch? _search;
    private readonly int _seed;
    private readonly List<TrialResult> _results = [];
    private readonly List<double> _taps = [];
    private long _startSample;
    private long _endSample;
    private int _timesHeard;
    private double _adjustedCents;
    private double _soundedDb;

    /// <summary>Prepares a session; nothing sounds.</summary>
    /// <param name="resolved">A resolved listening exercise.</param>
    /// <param name="engine">A prepared engine that someone renders.</param>
    /// <param name="sampleRateHz">Rate the engine was prepared for, in Hz.</param>
    /// <param name="seed">Same seed, same trials.</param>
    /// <param name="findsThreshold">True chooses each trial by the answers before it, and ends with a threshold.</param>
    /// <exception cref="ArgumentException">The exercise is no listening exercise, or has no threshold to find.</exception>
    public ListeningSession(ResolvedExercise resolved, IPairEngine engine, int sampleRateHz, int seed, bool findsThreshold = false)
    {
        Exercise = resolved;
        _engine = engine;
        _sampleRateHz = sampleRateHz;
        _feed = new EventFeed(engine, sampleRateHz);
        _trials = [.. ListeningTrials.Build(resolved, seed)];
        _plan = resolved.Exercise.Listening!;
        _seed = seed;
        TrialCount = _trials.Count;
        if (findsThreshold)
        {
            _scale = ThresholdScale.Of(_plan)
                ?? throw new ArgumentException($"{resolved.Exercise.Id} has no threshold to find.", nameof(findsThreshold));
            _search = new ThresholdSearch(1.0 / ((ChoiceAnswer)_plan.Answer).Options.Count, _scale.LowestDb, _scale.HighestDb);
            TrialCount = ThresholdSearch.TrialsNeeded;
            _trials.Clear();
            AddTrial();
        }
    }

    /// <summary>The exercise.</summary>
    public ResolvedExercise Exercise { get; }

    /// <summary>What is answered with.</summary>
    public AnswerPlan AnswerPlan => _plan.Answer;

    /// <summary>Where the session stands.</summary>
    public ListeningPhase Phase { get; private set; } = ListeningPhase.Ready;

    /// <summary>Trials in the set.</summary>
    public int TrialCount { get; }

    /// <summary>The trial now at hand, from 1; after the last one the count.</summary>
    public int TrialNumber => Math.Min(_results.Count + (Phase is ListeningPhase.Answered or ListeningPhase.Finished ? 0 : 1), TrialCount);

    /// <summary>The trial now at hand, its truth included: keep it to yourself until <see cref="ListeningPhase.Answered"/>.</summary>
    public ListeningTrial Trial => _trials[TrialNumber - 1];

    /// <summary>The last answered trial; null before the first.</summary>
    public TrialResult? LastResult => _results.Count == 0 ? null : _results[^1];

    /// <summary>Seconds since the trial's first sound began, on the engine's clock; negative before, and held at its end.</summary>
    public double TrialSeconds => Phase == ListeningPhase.Ready
        ? 0
        : (double)(Math.Min(_engine.SamplesRendered, _endSample) - _startSample) / _sampleRateHz;

    /// <summary>Length of the trial in seconds.</summary>
    public double TrialLengthSeconds => Trial.Sounds.Sum(sound => sound.DurationSeconds) + (Trial.GapSeconds * (Trial.Sounds.Count - 1));

    /// <summary>Index of the sound now heard; null in the gaps and outside <see cref="ListeningPhase.Sounding"/>.</summary>
    public int? SoundIndex
    {
        get
        {
            double seconds = Phase == ListeningPhase.Sounding ? TrialSeconds : -1;
            for (int i = 0; i < Trial.Sounds.Count && seconds >= 0; i++)
            {
                if (seconds < Trial.Sounds[i].DurationSeconds)
                {
                    return i;
                }

                seconds -= Trial.Sounds[i].DurationSeconds + Trial.GapSeconds;
            }

            return null;
        }
    }

    /// <summary>Taps of this trial, in seconds from its beginning.</summary>
    public IReadOnlyList<double> Taps => _taps;

    /// <summary>Beats per second the taps amount to; null for fewer than two taps.</summary>
    public double? TappedPerSecond => _taps.Count < 2 || _taps[^1] <= _taps[0] ? null : (_taps.Count - 1) / (_taps[^1] - _taps[0]);

    /// <summary>Cents the listener has moved the sung tone, in an adjusting exercise.</summary>
    public double AdjustedCents => _adjustedCents;

    /// <summary>What can be told so far.</summary>
    public ListeningResult Result => ListeningJudge.Judge(Exercise.Exercise, _results, _search, _scale);

    /// <summary>Starts the next trial (from Ready or Answered). In Finished nothing happens.</summary>
    public void Next()
    {
        if (Phase == ListeningPhase.Answered)
        {
            Phase = _results.Count == TrialCount ? ListeningPhase.Finished : ListeningPhase.Ready;
        }

        if (Phase == ListeningPhase.Ready)
        {
            // What is left of the trial before, answered while it sounded, would hold up the events of this one.
            _feed.Tacet();
            _timesHeard = 0;
            Sound();
        }
    }

    /// <summary>Sounds the trial once more (from Sounding, Asking or Answered); taps begin anew.</summary>
    public void Again()
    {
        if (Phase is ListeningPhase.Sounding or ListeningPhase.Asking)
        {
            _feed.Tacet();
            Sound();
        }
        else if (Phase == ListeningPhase.Answered)
        {
            _feed.Tacet();
            Post(LastResult!.Trial);
        }
    }

    /// <summary>Moves on as the sound does. Call at least 20 times a second.</summary>
    public void Poll()
    {
        _feed.Pump();
        if (Phase == ListeningPhase.Sounding && _engine.SamplesRendered >= _endSample)
        {
            Phase = ListeningPhase.Asking;
        }
    }

    /// <summary>One tap on a swell, now. Only while a rate is asked for and the trial sounds.</summary>
    public void Tap()
    {
        if (Phase == ListeningPhase.Sounding && _plan.Answer is RateAnswer && TrialSeconds > 0)
        {
            _taps.Add(TrialSeconds);
        }
    }

    /// <summary>Moves the sung tone, in an adjusting exercise, while the trial sounds.</summary>
    /// <param name="cents">Cents to add, any sign.</param>
    public void Adjust(double cents)
    {
        if (Phase == ListeningPhase.Sounding && _plan.Answer is AdjustAnswer)
        {
            _adjustedCents += cents;
            _engine.SungDetuneCents.Target = (float)_adjustedCents;
        }
    }

    /// <summary>Answers a choice.</summary>
    /// <param name="option">Index of the option.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such option.</exception>
    public void Answer(int option)
    {
        if (!IsAsking || _plan.Answer is not ChoiceAnswer)
        {
            return;
        }

        ArgumentOutOfRangeException.ThrowIfNegative(option);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(option, Trial.Options.Count);
        int correct = Trial.CorrectOption!.Value;
        Take(new TrialResult(Trial, option == correct, Trial.Options[option], Trial.Options[correct], null, _timesHeard));
    }

    /// <summary>Answers a rate, tapped or counted.</summary>
    /// <param name="perSecond">Beats per second, at least 0.</param>
    public void AnswerRate(double perSecond)
    {
        if (IsAsking && _plan.Answer is RateAnswer rate && double.IsFinite(perSecond))
        {
            double truth = Trial.TrueBeatsPerSecond ?? 0;
            double? error = truth > 0 ? 100 * (perSecond - truth) / truth : null;
            bool isRight = error is { } percent ? Math.Abs(percent) <= rate.WithinPercent : perSecond == 0;
            Take(new TrialResult(Trial, isRight, PerSecond(perSecond), PerSecond(truth), error, _timesHeard));
        }
    }

    /// <summary>Says that the pair now stands still, in an adjusting exercise.</summary>
    public void AnswerStill()
    {
        if (IsAsking && _plan.Answer is AdjustAnswer adjust)
        {
            bool inTime = TrialSeconds <= adjust.WithinSeconds;
            double left = BeatsLeft();
            _feed.Tacet();
            Take(new TrialResult(Trial, inTime && left < adjust.StillBelowPerSecond, PerSecond(left), "still", null, _timesHeard));
        }
    }

    /// <summary>Silence at once; the trial can be heard again or answered.</summary>
    public void Tacet()
    {
        _feed.Tacet();
        if (Phase == ListeningPhase.Sounding)
        {
            Phase = ListeningPhase.Asking;
        }
    }

    private void AddTrial()
    {
        _soundedDb = _search!.NextDb;
        _trials.Add(ListeningTrials.At(Exercise, _trials.Count + 1, _seed, _scale!.ValueAt(_soundedDb)));
    }

    private bool IsAsking => Phase is ListeningPhase.Sounding or ListeningPhase.Asking;

    private static string PerSecond(double rate) => string.Create(CultureInfo.InvariantCulture, $"{rate:0.0#} /s");

    private void Sound()
    {
        _taps.Clear();
        _timesHeard++;
        if (_plan.Answer is AdjustAnswer)
        {
            _adjustedCents = 0;
            _engine.SungDetuneCents.Target = 0;
        }

        Post(Trial);
        Phase = ListeningPhase.Sounding;
    }

    private void Post(ListeningTrial trial)
    {
        _startSample = _engine.SamplesRendered + (long)(LeadSeconds * _sampleRateHz);
        long at = _startSample;
        foreach (ExerciseStep sound in trial.Sounds)
        {
            _feed.Add(PairScript.Of(sound, _engine.Parts, _sampleRateHz, at));
            _endSample = at + (long)(sound.DurationSeconds * _sampleRateHz);
            at = _endSample + (long)(trial.GapSeconds * _sampleRateHz);
        }
    }

    private double BeatsLeft()
    {
        ExerciseStep last = Trial.Sounds[^1];
        double Hz(VoiceRole role) => last.Sounding.First(part => part.Role == role).Path.FrequencyHz(last.DurationSeconds);
        double sungHz = Cents.Above(Hz(VoiceRole.Sung), _adjustedCents);
        IReadOnlyList<BeatingPair> pairs = BeatingPairs.Of(Hz(VoiceRole.Played), sungHz, 6, 60);
        return pairs.Count == 0 ? 60 : pairs[0].RateHz;
    }

    private void Take(TrialResult result)
    {
        _results.Add(result);
        if (_search is { } search)
        {
            search.Add(_soundedDb, result.Right);
            if (_results.Count < TrialCount)
            {
                AddTrial();
            }
        }

        if (_plan.Answer is AdjustAnswer)
        {
            _engine.SungDetuneCents.Target = 0;
        }

        Phase = ListeningPhase.Answered;
    }
}
