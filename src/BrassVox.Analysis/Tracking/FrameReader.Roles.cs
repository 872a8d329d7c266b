using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Which tones belong together over time: unbroken stretches, gaps, one tone of a pair alone.</summary>
internal sealed partial class FrameReader
{
    // Odds that the lower tone is played, and the bookkeeping of unbroken stretches.
    private double Roles(FrameVerdict verdict)
    {
        bool wasHeld = _loneIsHeld;
        _loneIsHeld = false;
        _sinceHeld++;
        switch (verdict.Separability)
        {
            case Separability.Separable:
                (double lower, double upper) = (verdict.Played!.Value.FrequencyHz, verdict.Sung!.Value.FrequencyHz);
                if (_before != Separability.Separable)
                {
                    _roles.Pause();
                }

                if ((_isParted || _before is not (Separability.Separable or Separability.NotSeparable)) && !Resumes(lower, upper))
                {
                    NewSegment();
                }

                _isParted = false;
                _held = (lower, upper);
                _sinceHeld = 0;
                _roles.Add(lower, upper, verdict.Variance);
                _odds = _confirmed < ConfirmedAfter ? 0.0 : _roles.LowerIsPlayed(lower, upper, _prior);
                return _odds;
            case Separability.OneTone:
                double hz = verdict.Played!.Value.FrequencyHz;
                if (Holds(hz) is { } isUpper)
                {
                    (_loneIsHeld, _loneIsUpper, _sinceHeld) = (true, isUpper, 0);
                    return _odds;
                }

                if (_before != Separability.OneTone || wasHeld)
                {
                    _lone.Reset();
                    _loneSegment = ++_segments;
                    _isParted = true;
                }

                _lone.Add(hz, hz, 0.0);
                return _lone.AloneIsPlayed(hz, _prior);
            case Separability.NotSeparable:
                return verdict.Played is null ? 0.0 : _odds;
            default:
                return 0.0;
        }
    }

    // Whether a tone heard alone is one of the pair just heard, and which.
    private bool? Holds(double hz) => _sinceHeld > ResumesWithin ? null
        : Math.Abs(Cents.Between(_held.Lower, hz)) < SamePairCents ? false
        : Math.Abs(Cents.Between(_held.Upper, hz)) < SamePairCents ? true
        : null;

    private bool Resumes(double lowerHz, double upperHz) => _sinceHeld <= ResumesWithin
        && Math.Abs(Cents.Between(_held.Lower, lowerHz)) < SamePairCents && Math.Abs(Cents.Between(_held.Upper, upperHz)) < SamePairCents;

    private void NewSegment()
    {
        _segment = ++_segments;
        _held = default;
        _sinceHeld = ResumesWithin + 1;
        _confirmed = 0;
        _odds = 0.0;
        _doubt = 0.0;
        _mayBeCoupling = false;
        _roles.Reset();
        _lone.Reset();
        _loneSegment = ++_segments;
        _loneIsHeld = false;
        _isParted = false;
    }
}
