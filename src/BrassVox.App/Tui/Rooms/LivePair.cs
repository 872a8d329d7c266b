using BrassVox.Analysis;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Audio;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Tui.Rooms;

/// <summary>A played and sung pair as the microphone hears it now, and the breath it belongs to.</summary>
/// <param name="audio">The machine's sound.</param>
/// <param name="createTracker">Makes a tracker.</param>
internal sealed class LivePair(IAudioSystem audio, TrackerFactory createTracker)
{
    private const int Remembered = 25;
    private const double NewBreathAfterSeconds = 0.4;
    private readonly List<AnalysisFrame> _frames = [];
    private readonly Queue<AnalysisFrame> _last = new();
    private double _silentSince = double.NegativeInfinity;
    private bool _troubleSaid;

    /// <summary>The microphone, or null while it is off.</summary>
    public Listener? Listener { get; private set; }

    /// <summary>True from switching on to switching off.</summary>
    public bool IsOn => Listener is not null;

    /// <summary>The breath now drawn.</summary>
    public BreathLine Breath { get; } = new();

    /// <summary>What is heard now; null in silence and while off.</summary>
    public PairReadout? Reading { get; private set; }

    /// <summary>True while two tones sound that cannot be told apart.</summary>
    public bool IsFog => Reading is { SungHz: null };

    /// <summary>Columns at hand for the breath.</summary>
    public int Columns { get; set; } = 60;

    /// <summary>Switches the microphone on; nothing waits.</summary>
    /// <param name="deviceId">Input device, or null for the system's own choice.</param>
    /// <param name="pair">The pair that is declared.</param>
    /// <param name="columns">Columns at hand for the breath.</param>
    public void Open(string? deviceId, PairSetting pair, int columns)
    {
        Columns = columns;
        Breath.Clear();
        Listener = new Listener(audio, createTracker, deviceId, DuetPrior.Held(pair.PlayedHz, pair.SungHz));
        _troubleSaid = false;
    }

    /// <summary>Switches it off; closing goes on elsewhere.</summary>
    public void Close()
    {
        if (Listener is { } listener)
        {
            listener.Close();
        }

        Listener = null;
        Reading = null;
        _last.Clear();
    }

    /// <summary>Another pair is declared.</summary>
    /// <param name="pair">The pair.</param>
    public void Expect(PairSetting pair)
    {
        Listener?.SetPrior(DuetPrior.Held(pair.PlayedHz, pair.SungHz));
        Breath.Clear();
        _last.Clear();
    }

    /// <summary>Takes what has been measured since the last call.</summary>
    /// <param name="pair">The pair that is declared.</param>
    /// <returns>Something to say once, or null.</returns>
    public string? Poll(PairSetting pair)
    {
        if (Listener is not { } listener)
        {
            return null;
        }

        listener.Collect(_frames);
        foreach (AnalysisFrame frame in _frames)
        {
            Take(frame, pair);
        }

        _frames.Clear();
        if (!_troubleSaid && listener.Trouble is { } trouble)
        {
            _troubleSaid = true;
            return trouble;
        }

        return null;
    }

    private void Take(in AnalysisFrame frame, PairSetting pair)
    {
        double now = frame.CentreSeconds;
        if (frame.Separability == Separability.Silent)
        {
            if (double.IsNegativeInfinity(_silentSince))
            {
                _silentSince = now;
            }

            Reading = null;
            _last.Clear();
            return;
        }

        bool newBreath = now - _silentSince > NewBreathAfterSeconds && !double.IsNegativeInfinity(_silentSince);
        _silentSince = double.NegativeInfinity;
        if (newBreath || Breath.Columns.Count >= Columns)
        {
            Breath.Clear();
        }

        Breath.Add(frame, pair.PlayedHz, pair.SungHz);
        _last.Enqueue(frame);
        while (_last.Count > Remembered)
        {
            _last.Dequeue();
        }

        Reading = Recent();
    }

    private PairReadout? Recent()
    {
        double? played = Middle(frame => frame.Played?.FrequencyHz);
        int fog = _last.Count(frame => frame.Separability == Separability.NotSeparable);
        double? sung = 2 * fog > _last.Count ? null : Middle(frame => frame.Sung?.FrequencyHz);
        double? beats = Middle(frame => frame.BeatRateHz);
        return played is { } hz ? new PairReadout(hz, sung, beats) : null;
    }

    private double? Middle(Func<AnalysisFrame, double?> pick)
    {
        double[] values = [.. _last.Select(pick).OfType<double>()];
        return values.Length == 0 ? null : Median.Of(values);
    }
}
