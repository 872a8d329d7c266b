using BrassVox.Analysis;
using BrassVox.Audio;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Tui.Sound;

/// <summary>
/// The microphone: one input line, a ring, and a thread that measures. The screens' thread takes what is finished and
/// never waits.
/// </summary>
internal sealed class Listener
{
    private const int RecentSamples = 8192;
    private const int RingSeconds = 2;
    private const int BlockSamples = 1024;
    private const int RestMs = 5;

    private readonly IAudioSystem _audio;
    private readonly TrackerFactory? _createTracker;
    private readonly string? _deviceId;
    private readonly Lock _lock = new();
    private readonly List<AnalysisFrame> _frames = [];
    private readonly float[] _recent = new float[RecentSamples];
    private readonly Task _opener;
    private LineOpening? _opening;
    private SampleRing? _ring;
    private Thread? _thread;
    private readonly DuetPrior _firstPrior;
    private DuetPrior? _nextPrior;
    private PlayAlongSession? _session;
    private float[] _mono = [];
    private int _channels = 1;
    private double _peak;
    private volatile bool _leaving;
    private volatile string? _fault;

    /// <summary>Begins to open the line; nothing waits.</summary>
    /// <param name="audio">The machine's sound.</param>
    /// <param name="createTracker">Makes a tracker.</param>
    /// <param name="deviceId">Input device, or null for the system's own choice.</param>
    /// <param name="prior">What is known of the two tones.</param>
    public Listener(IAudioSystem audio, TrackerFactory createTracker, string? deviceId, DuetPrior prior)
    {
        _audio = audio;
        _createTracker = createTracker;
        _deviceId = deviceId;
        _firstPrior = prior;
        _opener = Task.Run(Open);
    }

    /// <summary>Begins to open a line that only a session hears: nothing is measured meanwhile; nothing waits.</summary>
    /// <param name="audio">The machine's sound.</param>
    /// <param name="deviceId">Input device, or null for the system's own choice.</param>
    public Listener(IAudioSystem audio, string? deviceId)
    {
        _audio = audio;
        _deviceId = deviceId;
        _firstPrior = DuetPrior.Free;
        _opener = Task.Run(Open);
    }

    /// <summary>True once a device delivers.</summary>
    public bool IsHearing => _opener.IsCompletedSuccessfully && _opening is { IsDevice: true } opening && !opening.Line.Completion.IsCompleted;

    /// <summary>Ends when the line has been opened, or could not be.</summary>
    public Task Opening => _opener;

    /// <summary>Why nothing is heard, in one line; null while opening and while all is well.</summary>
    public string? Trouble
    {
        get
        {
            if (!_opener.IsCompleted)
            {
                return null;
            }

            if (_opener.Exception is { } fault)
            {
                return $"The microphone cannot be opened: {fault.GetBaseException().Message}";
            }

            if (_fault is { } broken)
            {
                return $"The microphone is no longer measured: {broken}";
            }

            return _opening is { IsDevice: true } opening
                ? opening.Line.Completion.IsCompleted ? opening.Line.FaultMessage ?? "The microphone went away." : null
                : _opening?.Message ?? "No microphone.";
        }
    }

    /// <summary>What the line is, for people; empty until opened.</summary>
    public string Name => _opener.IsCompletedSuccessfully ? _opening?.Line.Name ?? "" : "";

    /// <summary>Rate in Hz; 0 until opened.</summary>
    public int SampleRateHz => _opener.IsCompletedSuccessfully ? _opening?.Line.Granted.SampleRateHz ?? 0 : 0;

    /// <summary>Length of one block in ms; 0 until opened.</summary>
    public double BlockMs => _opener.IsCompletedSuccessfully && _opening is { } opening
        ? 1000.0 * opening.Line.Granted.PeriodSamples / opening.Line.Granted.SampleRateHz
        : 0;

    /// <summary>Changes what is known of the two tones.</summary>
    /// <param name="prior">What is known.</param>
    public void SetPrior(DuetPrior prior) => Interlocked.Exchange(ref _nextPrior, prior);

    /// <summary>Lets a session hear every sample from now on, or no more with null.</summary>
    /// <param name="session">The session.</param>
    public void LetHear(PlayAlongSession? session) => Volatile.Write(ref _session, session);

    /// <summary>Moves the frames finished since the last call.</summary>
    /// <param name="into">Where they are added.</param>
    public void Collect(List<AnalysisFrame> into)
    {
        lock (_lock)
        {
            into.AddRange(_frames);
            _frames.Clear();
        }
    }

    /// <summary>Largest sample since the last call, in dB below full scale; -200 for digital silence.</summary>
    public double TakePeakDbfs()
    {
        lock (_lock)
        {
            double peak = _peak;
            _peak = 0;
            return peak > 0 ? 20 * Math.Log10(peak) : -200;
        }
    }

    /// <summary>Levels of a tone's partials in the last sixth of a second or so.</summary>
    /// <param name="fundamentalHz">Fundamental in Hz, &gt; 0.</param>
    /// <param name="levelsDb">One level for each partial from the first, in dB.</param>
    public void MeasurePartials(double fundamentalHz, Span<double> levelsDb)
    {
        lock (_lock)
        {
            for (int i = 0; i < levelsDb.Length; i++)
            {
                levelsDb[i] = LevelAt((i + 1) * fundamentalHz);
            }
        }
    }

    /// <summary>Level of one line in the last sixth of a second or so, in dB.</summary>
    /// <param name="frequencyHz">Frequency in Hz.</param>
    public double MeasureLine(double frequencyHz)
    {
        lock (_lock)
        {
            return LevelAt(frequencyHz);
        }
    }

    /// <summary>Closes the line and ends the thread, elsewhere: nothing waits.</summary>
    public void Close()
    {
        LetHear(null);
        _ = Task.Run(CloseAsync);
    }

    /// <summary>Closes the line and ends the thread.</summary>
    public async Task CloseAsync()
    {
        // However opening went: what was opened is closed.
        await _opener.ContinueWith(_ => { }, TaskScheduler.Default).ConfigureAwait(false);
        _leaving = true;
        _thread?.Join();
        if (_opening is { } opening)
        {
            await opening.Line.DisposeAsync().ConfigureAwait(false);
        }
    }

    private void Open()
    {
        LineOpening opening = _audio.OpenInput(new LineRequest(_deviceId, Channels: 1), Take);
        _channels = opening.Line.Granted.Channels;
        _mono = new float[opening.Line.Granted.PeriodSamples];
        _opening = opening;
        if (!opening.IsDevice)
        {
            return;
        }

        if (_createTracker is { } createTracker)
        {
            IDuetTracker tracker = createTracker(opening.Line.Granted.SampleRateHz, _firstPrior);
            SampleRing ring = _ring = new SampleRing(RingSeconds * opening.Line.Granted.SampleRateHz);
            _thread = new Thread(() => MeasureGuarded(ring, tracker)) { IsBackground = true, Name = "BrassVox analysis" };
            _thread.Start();
        }

        opening.Line.Start();
    }

    private void Take(ReadOnlySpan<float> interleaved)
    {
        int channels = _channels;
        int count = Math.Min(interleaved.Length / channels, _mono.Length);
        Span<float> mono = _mono.AsSpan(0, count);
        for (int i = 0; i < count; i++)
        {
            float sum = 0;
            foreach (float sample in interleaved.Slice(i * channels, channels))
            {
                sum += sample;
            }

            mono[i] = sum / channels;
        }

        _ring?.Write(mono);
        Volatile.Read(ref _session)?.Hear(mono);
    }

    // The last guard of this thread: a fault here must not end the program, and a take that is running.
    private void MeasureGuarded(SampleRing ring, IDuetTracker tracker)
    {
        try
        {
            Measure(ring, tracker);
        }
        catch (Exception fault)
        {
            _fault = fault.Message;
        }
    }

    private void Measure(SampleRing ring, IDuetTracker tracker)
    {
        float[] block = new float[BlockSamples];
        List<AnalysisFrame> found = [];
        while (!_leaving)
        {
            int count = ring.Read(block);
            if (count == 0)
            {
                Thread.Sleep(RestMs);
                continue;
            }

            if (Interlocked.Exchange(ref _nextPrior, null) is { } prior)
            {
                tracker.SetPrior(prior);
            }

            tracker.Push(block.AsSpan(0, count), found);
            lock (_lock)
            {
                _frames.AddRange(found);
                _recent.AsSpan(count).CopyTo(_recent);
                block.AsSpan(0, count).CopyTo(_recent.AsSpan(RecentSamples - count));
                for (int i = 0; i < count; i++)
                {
                    _peak = Math.Max(_peak, Math.Abs(block[i]));
                }
            }

            found.Clear();
        }
    }

    /// <summary>One bin of a Hann-windowed Fourier transform at any frequency.</summary>
    private double LevelAt(double frequencyHz)
    {
        double step = Math.Tau * frequencyHz / Math.Max(1, SampleRateHz);
        double real = 0;
        double imaginary = 0;
        for (int i = 0; i < RecentSamples; i++)
        {
            double weighted = _recent[i] * (0.5 - (0.5 * Math.Cos(Math.Tau * i / RecentSamples)));
            (double sine, double cosine) = Math.SinCos(step * i);
            real += weighted * cosine;
            imaginary += weighted * sine;
        }

        double amplitude = 4 * Math.Sqrt((real * real) + (imaginary * imaginary)) / RecentSamples;
        return amplitude > 1e-10 ? 20 * Math.Log10(amplitude) : -200;
    }
}
