namespace BrassVox.Analysis.Tracking;

/// <summary>A shorter window about the same middle, for a pair whose pitch moves too far within the longer one.</summary>
/// <remarks>
/// A vibrato of 40 cents at 5 a second turns once in 200 ms: over 160 ms its partials are no lines. Half of that shows them, where the
/// two tones' lines lie far enough apart for it.
/// </remarks>
internal sealed class BriefWindow
{
    private const double BottomHz = 20.0;
    private const double StepCents = 10.0;
    private const int Rounds = 5;

    private readonly WindowSpectrum _spectrum;
    private readonly PairSearch _search;
    private readonly Residual _residual;
    private readonly SharpFit _sharp;

    public BriefWindow(int length, double rateHz)
    {
        _spectrum = new WindowSpectrum(length, rateHz, Decimator.BandTopHz);
        _search = new PairSearch(_spectrum);
        _residual = new Residual(_spectrum);
        _sharp = new SharpFit(length, rateHz);
    }

    /// <summary>The pair near another in the middle of a longer window, and what may be said of it.</summary>
    public (PairFit Fit, FrameVerdict Verdict) Read(ReadOnlySpan<float> window, PairFit near, bool searched, bool free, bool moves)
    {
        PairFit fit = Fit(window, near);
        return (fit, FrameVerdict.Of(_search, _residual, fit, _residual.BandPower(BottomHz, PairSearch.TopHz), searched, free, moves));
    }

    /// <summary>The same of one tone, at the place of P, S being left out; null when it is not there.</summary>
    public PitchEstimate? ReadOne(ReadOnlySpan<float> window, PairFit near)
    {
        PairFit fit = Fit(window, near);
        return FrameVerdict.OfOne(_search, _residual, fit, _residual.BandPower(BottomHz, PairSearch.TopHz));
    }

    private PairFit Fit(ReadOnlySpan<float> window, PairFit near)
    {
        ReadOnlySpan<float> block = window.Slice((window.Length - _spectrum.Length) / 2, _spectrum.Length);
        _spectrum.Take(block);
        PairFit fit = _search.Refine(near.PlayedHz, near.SungHz, StepCents, PairSearch.TopHz, Rounds);
        _search.Explained(fit.PlayedHz, fit.SungHz, PairSearch.TopHz, amplitudes: true);
        _search.Lines.Restore(_spectrum);
        return _sharp.Sharpen(block, fit, _search.Lines);
    }
}
