namespace BrassVox.Analysis.Tracking;

/// <summary>The sung pitch from a second channel that carries mainly the voice, a contact microphone at the throat.</summary>
internal sealed class ContactReader
{
    private const double BottomHz = 20.0;
    private const int SearchEvery = 20;

    // Share of the channel's band that one harmonic tone has to explain before the channel is believed.
    private const double LeastShare = 0.5;

    private readonly WindowSpectrum _spectrum;
    private readonly PairSearch _search;
    private readonly FreeSearch _free;
    private readonly Residual _residual;
    private double? _last;
    private int _sinceSearch;

    public ContactReader(int windowLength, double rateHz)
    {
        _spectrum = new WindowSpectrum(windowLength, rateHz, Decimator.BandTopHz);
        _search = new PairSearch(_spectrum);
        _residual = new Residual(_spectrum);
        _free = new FreeSearch(_search, _residual);
    }

    public void Reset() => _last = null;

    /// <summary>The voice in this window, or null.</summary>
    public PitchEstimate? Read(ReadOnlySpan<float> window, FrequencyRange range)
    {
        _spectrum.Take(window);
        double band = _residual.BandPower(BottomHz, PairSearch.TopHz);
        double? start = _last is { } last && ++_sinceSearch < SearchEvery ? last : null;
        if (start is null)
        {
            _sinceSearch = 0;
            start = band > 0.0 ? _free.FindOne(range, band) : null;
        }

        _last = null;
        if (start is not { } hz)
        {
            return null;
        }

        double found = _search.Refine(hz, 0.0, 6.0, PairSearch.TopHz, 4).PlayedHz;
        double share = _search.Explained(found, 0.0, PairSearch.TopHz, amplitudes: true) / band;
        if (share < LeastShare || !range.Holds(found))
        {
            return null;
        }

        _search.Lines.Restore(_spectrum);
        double power = 0.0;
        for (int i = 0; i < _search.Lines.Count; i++)
        {
            power += 4.0 * ((_search.Lines.Re[i] * _search.Lines.Re[i]) + (_search.Lines.Im[i] * _search.Lines.Im[i]));
        }

        _last = found;
        return new PitchEstimate(found, 10.0 * Math.Log10(power + 1e-30), Math.Min(1.0, share));
    }
}
