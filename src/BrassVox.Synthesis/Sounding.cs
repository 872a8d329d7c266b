namespace BrassVox.Synthesis;

/// <summary>Start, stop and tacet of an engine: whether it sounds, and the ramp between sound and silence. Sound thread only.</summary>
internal struct Sounding
{
    private const double RampSeconds = 0.060;
    private const double TacetSeconds = 0.010;
    private int _sampleRateHz;
    private Ramp _ramp;
    private bool _isStopping;

    /// <summary>From Start until the ramp after Stop has ended.</summary>
    internal bool IsRunning { get; private set; }

    /// <summary>True from a Start out of silence until <see cref="Begin"/>.</summary>
    internal bool Begins { get; private set; }

    /// <summary>True once the note has begun: what is set in silence, or at the sample of the start, needs no fade.</summary>
    internal readonly bool IsHeard => IsRunning && !Begins;

    /// <summary>Amplitude of the ramp now, 0 to 1: half a cosine, so there is no corner where it begins or ends.</summary>
    internal readonly double Amplitude => 0.5 * (1 - Math.Cos(Math.PI * _ramp.Value));

    /// <summary>Back to silence.</summary>
    internal void Reset(int sampleRateHz)
    {
        this = default;
        _sampleRateHz = sampleRateHz;
    }

    /// <summary>Takes a start, a stop or a tacet; other events mean nothing here.</summary>
    internal void Handle(PairEventKind kind)
    {
        switch (kind)
        {
            case PairEventKind.Start:
                Begins |= !IsRunning;
                IsRunning = true;
                _isStopping = false;
                _ramp.MoveTo(1, RampSeconds * _sampleRateHz);
                break;
            case PairEventKind.Stop:
                _isStopping = true;
                _ramp.MoveTo(0, RampSeconds * _sampleRateHz);
                break;
            case PairEventKind.Tacet:
                _isStopping = true;
                _ramp.MoveTo(0, TacetSeconds * _sampleRateHz);
                break;
            default:
                break;
        }
    }

    /// <summary>The note begins here.</summary>
    internal void Begin() => Begins = false;

    /// <summary>Moves the ramp on.</summary>
    internal void Advance(int samples)
    {
        _ramp.Advance(samples);
        if (_isStopping && !_ramp.IsMoving)
        {
            _isStopping = false;
            IsRunning = false;
            Begins = false;
        }
    }
}
