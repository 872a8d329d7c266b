using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Reads windows in which one tone is asked for and the other rests.</summary>
/// <remarks>
/// A pair explains every window a little better than one tone does: its second tone takes up what a vibrato or breath leaves beside the first.
/// So one series is looked for by itself, in all octaves, and two are told only where the declared pair accounts for the window better and
/// each of its tones has strong lines far from those of the other.
/// </remarks>
internal sealed class LoneReader(PairSearch search, Residual residual, FreeSearch free, SharpFit sharp, BriefWindow brief)
{
    private const int SearchEvery = 10;

    // A tone is looked for this far beside its declared place: a player may read an octave wrong, and miss by a tone and a half.
    private const double BesideCents = 1500.0;

    // Above it two partials are left under the top of the search.
    private const double LowestHz = 27.5;
    private const double HighestHz = 880.0;

    // A tone this near to a declared place is meant for it; as in a pair.
    private const double ReachCents = 100.0;

    // What is followed gives way to what a new search finds only where that accounts for the window better (log likelihood), and is searched for
    // anew where it explains much less than it did. Both ours, looked at on rendered voices.
    private const double KeptScore = 10.0;
    private const double LostShare = 0.8;

    // Two tones: by how much (log likelihood) they have to account for the window better than one, and the share of all power that each needs on
    // lines that lie further from any of the other than a vibrato of 50 cents and the main lobe of a line reach: 23 dB, as in FrameVerdict.
    // Looked at on rendered voices with vibrato and breath, and on a rendered trombone with a bass voice (at 17 dB half of its windows failed).
    private const double PairScore = 20.0;
    private const double FarShare = 0.005;
    private const double FarUnits = 2.0;
    private const double FarPart = 0.03;

    private double? _last;
    private double _lastShare;
    private (double Played, double Sung)? _pair;
    private int _sinceSearch;

    /// <summary>Forgets all.</summary>
    public void Clear() => (_last, _pair, _sinceSearch) = (null, null, 0);

    /// <summary>Searches anew in the next window.</summary>
    public void LookAgain() => _sinceSearch = SearchEvery;

    /// <summary>What may be said of one window.</summary>
    /// <param name="window">Its samples; the spectrum holds them already.</param>
    /// <param name="prior">What is known.</param>
    /// <param name="asked">The tone asked for.</param>
    /// <param name="band">Power of the window.</param>
    public FrameVerdict Read(ReadOnlySpan<float> window, DuetPrior prior, VoiceRole asked, double band)
    {
        PairFit? lone = Find(prior, asked, band);
        if (_pair is { } both && Together(window, both, band) is { } verdict)
        {
            return verdict;
        }

        _pair = null;
        if (lone is not { } fit || (FrameVerdict.OfOne(search, residual, Sharpened(window, fit), band) ?? brief.ReadOne(window, fit)) is not { } tone)
        {
            return new FrameVerdict(null, null, null, Separability.Silent);
        }

        bool isPlayed = IsAsked(tone.FrequencyHz, prior, asked) == (asked == VoiceRole.Played);
        return isPlayed ? new FrameVerdict(tone, null, null, Separability.OneTone) : new FrameVerdict(null, tone, null, Separability.OneTone);
    }

    private PairFit? Find(DuetPrior prior, VoiceRole asked, double band)
    {
        PairFit? kept = null;
        double share = 0.0;
        if (_last is { } last)
        {
            PairFit near = search.Refine(last, 0.0, 6.0, PairSearch.TopHz, 4);
            share = search.Explained(near.PlayedHz, 0.0, PairSearch.TopHz) / band;
            kept = near;
        }

        if (kept is null || ++_sinceSearch >= SearchEvery || share < LostShare * _lastShare)
        {
            _sinceSearch = 0;
            PairFit? found = free.BestOne(Range(prior, asked), band);
            if (found is null || kept is null || free.OwnScore(found.Value, band) > free.OwnScore(kept.Value, band) + KeptScore)
            {
                kept = found;
                share = kept is { } fit ? search.Explained(fit.PlayedHz, 0.0, PairSearch.TopHz) / band : 0.0;
            }

            _pair = kept is { } one ? Pair(prior, one, band) : null;
        }

        (_last, _lastShare) = (kept?.PlayedHz, share);
        return kept;
    }

    private (double Played, double Sung)? Pair(DuetPrior prior, PairFit one, double band)
    {
        if (prior is not { PlayedHz: { } played, SungHz: { } sung })
        {
            return null;
        }

        PairFit pair = search.Acquire(played, sung, ReachCents);
        return free.Score(pair, band) > free.OwnScore(one, band) + PairScore ? (pair.PlayedHz, pair.SungHz) : null;
    }

    private FrameVerdict? Together(ReadOnlySpan<float> window, (double Played, double Sung) pair, double band)
    {
        PairFit fit = Sharpened(window, search.Refine(pair.Played, pair.Sung, 6.0, PairSearch.TopHz, 4));
        if (!AreFar(fit) || FrameVerdict.Of(search, residual, fit, band, searched: false, free: false, moves: false) is not { Separability: Separability.Separable } verdict)
        {
            return null;
        }

        _pair = (fit.PlayedHz, fit.SungHz);
        return verdict;
    }

    // Whether each tone holds its share of the power where no line of the other reaches.
    private bool AreFar(PairFit fit)
    {
        search.Explained(fit.PlayedHz, fit.SungHz, PairSearch.TopHz, amplitudes: true);
        LineFit lines = search.Lines;
        lines.Restore(search.Spectrum);
        (double all, double played, double sung) = (0.0, 0.0, 0.0);
        for (int i = 0; i < lines.Count; i++)
        {
            double power = (lines.Re[i] * lines.Re[i]) + (lines.Im[i] * lines.Im[i]);
            double hz = lines.FrequencyHz[i];
            bool isPlayed = lines.PlayedNumber[i] > 0;
            double other = isPlayed ? fit.SungHz : fit.PlayedHz;
            double apart = Math.Abs(hz - (other * Math.Max(1.0, Math.Round(hz / other))));
            bool isFar = apart > Math.Max(FarUnits * search.LineHz, FarPart * hz);
            all += power;
            played += isFar && isPlayed ? power : 0.0;
            sung += isFar && !isPlayed ? power : 0.0;
        }

        return Math.Min(played, sung) > FarShare * all;
    }

    private PairFit Sharpened(ReadOnlySpan<float> window, PairFit fit)
    {
        search.Explained(fit.PlayedHz, fit.SungHz, PairSearch.TopHz, amplitudes: true);
        search.Lines.Restore(search.Spectrum);
        return sharp.Sharpen(window, fit, search.Lines);
    }

    // Only its place tells which of the two a lone tone is: the resting one's where it lies there and not, in whatever octave, at the asked one's.
    private static bool IsAsked(double hz, DuetPrior prior, VoiceRole asked)
    {
        bool isSung = asked == VoiceRole.Sung;
        double? rests = isSung ? prior.PlayedHz : prior.SungHz;
        if (rests is not { } other || Math.Abs(Cents.Between(other, hz)) > ReachCents || (isSung ? prior.SungHz : prior.PlayedHz) is not { } declared)
        {
            return true;
        }

        if (isSung ? prior.SungMoves : prior.PlayedMoves)
        {
            return isSung ? hz >= prior.SungLowestHz && hz <= prior.SungHighestHz : hz >= prior.PlayedLowestHz && hz <= prior.PlayedHighestHz;
        }

        double cents = Cents.Between(declared, hz);
        return Math.Abs(cents - (1200.0 * Math.Round(cents / 1200.0))) <= ReachCents;
    }

    private static FrequencyRange Range(DuetPrior prior, VoiceRole asked)
    {
        bool isSung = asked == VoiceRole.Sung;
        (double lowest, double highest) = isSung ? (prior.SungLowestHz, prior.SungHighestHz) : (prior.PlayedLowestHz, prior.PlayedHighestHz);
        double? rests = isSung ? prior.PlayedHz : prior.SungHz;
        if ((isSung ? prior.SungHz : prior.PlayedHz) is { } declared)
        {
            (lowest, highest) = (Math.Min(lowest, Cents.Above(declared, -BesideCents)), Math.Max(highest, Cents.Above(declared, BesideCents)));
        }

        if (rests is { } other)
        {
            (lowest, highest) = (Math.Min(lowest, Cents.Above(other, -ReachCents)), Math.Max(highest, Cents.Above(other, ReachCents)));
        }

        return new FrequencyRange(Math.Max(LowestHz, lowest), Math.Min(HighestHz, highest));
    }
}
