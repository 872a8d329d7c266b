using BrassVox.Analysis.Tracking;

namespace BrassVox.Analysis;

/// <summary>Measures the played and the sung tone of one mono stream in windows of 160 ms, one each 10 ms.</summary>
/// <remarks>
/// The stream is brought down to 5.5 to 11 kHz; each window is fitted by two harmonic series at once (joint least squares),
/// starting from the declared notes or from the previous window. A pitch stands only where the curvature of the fit decides it.
/// One thread at a time, never the sound thread.
/// </remarks>
public sealed class DuetTracker : IDuetTracker
{
    /// <summary>Longest window, in seconds.</summary>
    public const double WindowSeconds = 0.16;

    private const double HopSeconds = 0.01;

    private readonly Decimator _decimator;
    private readonly SampleHistory _samples;
    private readonly FrameReader _reader;
    private readonly int _windowLength;
    private readonly int _hopLength;
    private readonly List<(long FirstSample, WindowReading Reading)> _readings = [];
    private ContactChannel? _contact;
    private long _nextFrame;

    /// <summary>Prepares for a stream.</summary>
    /// <param name="sampleRateHz">Rate in Hz, 8,000 to 384,000.</param>
    /// <param name="prior">What is known before listening.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is outside its range.</exception>
    public DuetTracker(int sampleRateHz, DuetPrior prior)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHz, 384_000);
        SampleRateHz = sampleRateHz;
        _decimator = new Decimator(sampleRateHz);
        int most = (int)(((WindowSeconds * sampleRateHz) - _decimator.TapCount) / _decimator.Factor);
        _windowLength = most % 2 == 0 ? most - 1 : most;
        _hopLength = (int)(HopSeconds * sampleRateHz / _decimator.Factor);
        WindowSamples = ((_windowLength - 1) * _decimator.Factor) + _decimator.TapCount;
        HopSamples = _hopLength * _decimator.Factor;
        _samples = new SampleHistory(_windowLength + _hopLength + (int)_decimator.RateHz);
        _reader = new FrameReader(_windowLength, _decimator.RateHz, (double)HopSamples / sampleRateHz, prior);
    }

    /// <inheritdoc/>
    public int SampleRateHz { get; }

    /// <inheritdoc/>
    public int WindowSamples { get; }

    /// <inheritdoc/>
    public int HopSamples { get; }

    /// <inheritdoc/>
    public int LatencySamples => WindowSamples / 2;

    /// <inheritdoc/>
    public void Push(ReadOnlySpan<float> mono, ICollection<AnalysisFrame> frames)
    {
        ArgumentNullException.ThrowIfNull(frames);
        _readings.Clear();
        Read(mono, _readings);
        foreach ((long firstSample, WindowReading reading) in _readings)
        {
            frames.Add(reading.ToFrame(firstSample, WindowSamples, SampleRateHz, reading.FirstIsPlayed));
        }
    }

    /// <summary>The same with a second channel that carries mainly the voice: it settles the sung pitch, also at the unison.</summary>
    /// <param name="mono">Samples of the microphone before the instrument.</param>
    /// <param name="contact">Samples of a contact microphone at the throat, as many, on the same clock.</param>
    /// <param name="frames">Where finished frames are added.</param>
    /// <exception cref="ArgumentException">The two channels differ in length.</exception>
    /// <remarks>Give both channels from the first sample on; a stretch pushed without the second leaves it behind.</remarks>
    public void Push(ReadOnlySpan<float> mono, ReadOnlySpan<float> contact, ICollection<AnalysisFrame> frames)
    {
        ArgumentNullException.ThrowIfNull(frames);
        if (contact.Length != mono.Length)
        {
            throw new ArgumentException($"The channels hold {mono.Length} and {contact.Length} samples; they need the same number.", nameof(contact));
        }

        _contact ??= new ContactChannel(SampleRateHz, _decimator.RateHz, _windowLength, _samples.Kept);
        while (mono.Length > 0)
        {
            int take = Math.Min(mono.Length, HopSamples);
            _contact.Decimator.Push(contact[..take], _contact.Samples);
            contact = contact[take..];
            Push(mono[..take], frames);
            mono = mono[take..];
        }
    }

    /// <summary>Takes samples, adds what each finished window says, roles still open.</summary>
    internal void Read(ReadOnlySpan<float> mono, List<(long FirstSample, WindowReading Reading)> readings)
    {
        while (mono.Length > 0)
        {
            int take = Math.Min(mono.Length, HopSamples);
            _decimator.Push(mono[..take], _samples);
            mono = mono[take..];
            while (_samples.Added >= (_nextFrame * _hopLength) + _windowLength)
            {
                long first = _nextFrame * _hopLength;
                PitchEstimate? voice = _contact is { } channel && channel.Samples.Added >= first + _windowLength
                    ? channel.Reader.Read(channel.Samples.From(first, _windowLength), _reader.VoiceRange)
                    : null;
                readings.Add((_nextFrame * HopSamples, _reader.Read(_samples.From(first, _windowLength), voice)));
                _nextFrame++;
            }
        }
    }

    /// <inheritdoc/>
    public void SetPrior(DuetPrior prior) => _reader.SetPrior(prior);

    /// <inheritdoc/>
    public void Reset()
    {
        _decimator.Reset();
        _samples.Clear();
        _reader.Reset();
        _contact = null;
        _nextFrame = 0;
    }

    private sealed class ContactChannel(int sampleRateHz, double rateHz, int windowLength, int kept)
    {
        public Decimator Decimator { get; } = new(sampleRateHz);

        public SampleHistory Samples { get; } = new(kept);

        public ContactReader Reader { get; } = new(windowLength, rateHz);
    }
}
