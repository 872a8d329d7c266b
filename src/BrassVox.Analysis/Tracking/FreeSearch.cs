using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Finds two tones in given ranges when their notes are not declared.</summary>
/// <remarks>
/// First tones by how much each explains alone, then for each of them the second that adds most; the best pairs are refined
/// and compared by a criterion that makes each line earn its place. That is what keeps a common sub-octave, whose lines hold
/// those of both tones and many empty ones, from winning. Every tone may end at a top of its own: partials that have died out
/// are not held against it, missing ones between sounding ones are.
/// Source of the form: Bayesian information criterion, G. Schwarz 1978 (from memory). The price of a line is ours: twice that
/// of the criterion, because what a fit leaves of unsteady partials is no white noise.
/// </remarks>
internal sealed class FreeSearch(PairSearch search, Residual residual)
{
    private const double FirstStepCents = 12.5;
    private const double SecondStepCents = 25.0;
    private const double FirstTopHz = 900.0;
    private const double SecondTopHz = 700.0;
    private const int FirstTones = 8;
    private const int SecondTones = 3;
    private const int OneTones = 4;
    private const int MostPairs = 16;
    private const double NearestCents = 70.0;
    private const double SplitCents = 90.0;

    // Starts this near to one another climb to the same pair.
    private const double SamePairCents = 20.0;
    private const int SplitTones = 2;
    private const double LinePrice = 2.0;
    private const double LeastShare = 0.05;
    private const double LeastLeft = 0.02;

    // What the coupling of two tones makes has two factors of its own, of the price of a line each.
    private const double ProductLines = 2.0;

    // A second tone beside the stronger one: by how much its lines and those coupled to it stand out of what that leaves (a logarithm of
    // power, what one line may add, and what each has to reach to count for the tone and not against it). Set on the benchmark's mixes of seed 7.
    private const int BesideTones = 3;
    private const double BottomHz = 20.0;
    private const double BesideTopHz = 1400.0;
    private const double LeastOut = -1.0;
    private const double LargestOut = 4.0;
    private const double OutPrice = 1.5;

    // A root that holds all lines of two coupled tones is often found in their place.
    private static readonly (int Lower, int Upper)[] OnRoot = [(2, 3), (3, 4), (3, 5), (2, 5)];

    // Lines |mP + nS| that are taken for the tone that moves: n up to the first, m up to the second.
    private const int MostTimes = 3;
    private const int MostShifts = 4;

    // Two lines nearer than this, in widths of a line, count as one.
    private const double OneLine = 0.7;

    // The octave and twelfth errors that the lists may have missed.
    private static readonly (double First, double Second)[] Neighbours =
        [(2.0, 1.0), (0.5, 1.0), (1.0, 2.0), (1.0, 0.5), (3.0, 1.0), (1.0, 3.0), (1.0, 1.0 / 3.0), (1.0 / 3.0, 1.0)];

    private static readonly double[] TopsHz = [500.0, 900.0, 1400.0, PairSearch.TopHz];

    private readonly PairSearch _search = search;
    private readonly Residual _residual = residual;
    private readonly List<(double Score, double Hz)> _peaks = [];
    private readonly List<(double Score, double First, double Second)> _pairs = [];
    private readonly List<(double First, double Second)> _tried = [];

    /// <summary>Best pair: the first tone in the first range, the second in the second.</summary>
    public PairFit? Find(FrequencyRange first, FrequencyRange second, double bandPower)
    {
        Peaks(first, FirstStepCents, hz => Score(_search.Explained(hz, 0.0, FirstTopHz, FirstTopHz), bandPower));
        if (_peaks.Count == 0 || !IsTone(_peaks[0].Hz, bandPower))
        {
            return null;
        }

        double[] firsts = [.. _peaks.Take(FirstTones).Select(x => x.Hz)];
        _pairs.Clear();
        foreach (double a in firsts)
        {
            Peaks(second, SecondStepCents, b => Math.Abs(Cents.Between(a, b)) < NearestCents
                ? double.NegativeInfinity
                : Score(_search.Explained(a, b, SecondTopHz, SecondTopHz), bandPower));
            foreach ((double score, double b) in _peaks.Take(SecondTones))
            {
                _pairs.Add((score, a, b));
            }
        }

        // Two tones a semitone apart may show as one peak between them.
        double apart = Cents.ToRatio(0.5 * SplitCents);
        foreach (double a in firsts.Take(SplitTones))
        {
            _pairs.Add((Score(_search.Explained(a / apart, a * apart, SecondTopHz, SecondTopHz), bandPower), a / apart, a * apart));
        }

        _pairs.Sort((a, b) => b.Score.CompareTo(a.Score));
        (PairFit? Fit, double Score) best = (null, double.NegativeInfinity);
        bool eitherWay = first == second;
        _tried.Clear();
        foreach ((double _, double a, double b) in _pairs.Take(MostPairs))
        {
            if (!_tried.Exists(pair => (Near(pair.First, a) && Near(pair.Second, b)) || (eitherWay && Near(pair.First, b) && Near(pair.Second, a))))
            {
                _tried.Add((a, b));
                Try(a, b);
            }
        }

        if (best.Fit is { } found)
        {
            foreach ((double a, double b) in Neighbours)
            {
                Try(a * found.PlayedHz, b * found.SungHz);
            }
        }

        return best.Fit;

        static bool Near(double a, double b) => Math.Abs(Cents.Between(a, b)) < SamePairCents;

        void Try(double a, double b)
        {
            PairFit fit = Refined(a, b);
            if (first.Holds(fit.PlayedHz) && second.Holds(fit.SungHz) && Score(fit, bandPower) is var score && score > best.Score)
            {
                best = (fit, score);
            }
        }
    }

    /// <summary>Best pair in one range for both tones, the lower one first.</summary>
    /// <remarks>Coupled tones are often found as the root of all their lines: then the pair that stands on it takes its place.</remarks>
    public PairFit? FindEither(FrequencyRange range, double bandPower)
    {
        if (Find(range, range, bandPower)?.LowerFirst() is not { } pair)
        {
            return null;
        }

        pair = WithCoupling(pair, range, bandPower);
        LineFit lines = _search.Lines;
        _search.Explained(pair.PlayedHz, pair.SungHz, PairSearch.TopHz, amplitudes: true);
        lines.Restore(_search.Spectrum);
        (double rootHz, (int Lower, int Upper)? stands) = CommonRoot.Of(lines, lines.PlayedNumber, _search.LineHz) is { } ofLower
            ? (pair.PlayedHz, ofLower)
            : (pair.SungHz, CommonRoot.Of(lines, lines.SungNumber, _search.LineHz));
        if (stands is not { } on)
        {
            return pair;
        }

        PairFit fit = Refined(on.Lower * rootHz, on.Upper * rootHz);
        return range.Holds(fit.PlayedHz) && range.Holds(fit.SungHz) && fit.PlayedHz < fit.SungHz ? fit : pair;
    }

    // The search weighs the tones' own lines alone. Coupled pairs whose weaker tone lies under the coupling's lines are tried here.
    private PairFit WithCoupling(PairFit pair, FrequencyRange range, double bandPower)
    {
        (PairFit Fit, double Score) best = (pair, Score(pair, bandPower));
        double strongerHz = _search.Explained(pair.PlayedHz, 0.0, PairSearch.TopHz) > _search.Explained(0.0, pair.SungHz, PairSearch.TopHz)
            ? pair.PlayedHz
            : pair.SungHz;
        _search.Explained(strongerHz, 0.0, PairSearch.TopHz, amplitudes: true);
        _residual.Take(_search.Lines);
        _residual.Level(BottomHz, BesideTopHz);
        Peaks(range, FirstStepCents, hz => Math.Abs(Cents.Between(strongerHz, hz)) < NearestCents ? double.NegativeInfinity : Beside(strongerHz, hz));
        foreach (double hz in _peaks.Take(BesideTones).Select(x => x.Hz))
        {
            Try(strongerHz, hz);
        }

        foreach ((int lower, int upper) in OnRoot)
        {
            Try(lower * pair.PlayedHz, upper * pair.PlayedHz);
        }

        return best.Fit;

        void Try(double firstHz, double secondHz)
        {
            PairFit fit = Refined(firstHz, secondHz).LowerFirst();
            if (range.Holds(fit.PlayedHz) && range.Holds(fit.SungHz) && Cents.Between(fit.PlayedHz, fit.SungHz) > NearestCents && Score(fit, bandPower) is var score && score > best.Score)
            {
                best = (fit, score);
            }
        }
    }

    private double Beside(double firstHz, double secondHz)
    {
        double sum = 0.0;
        for (int j = 1; j * secondHz < BesideTopHz; j++)
        {
            Add(j * secondHz);
        }

        for (int k = 1; Math.Abs((k * firstHz) - secondHz) < BesideTopHz; k++)
        {
            Add(Math.Abs((k * firstHz) - secondHz));
            Add((k * firstHz) + secondHz);
        }

        return sum;

        void Add(double hz)
        {
            bool isOfFirst = Math.Abs(hz - (firstHz * Math.Round(hz / firstHz))) < _search.LineHz;
            sum += isOfFirst || hz < BottomHz || hz > BesideTopHz ? 0.0 : Math.Clamp(_residual.StandsOutAt(hz), LeastOut, LargestOut) - OutPrice;
        }
    }

    /// <summary>Best pair in which what was taken for the tone that moves is a line that coupling makes of it: |mP + nS| or that of the played tone.</summary>
    /// <param name="pair">The pair found.</param>
    /// <param name="sungMoves">True where the sung tone moves, false where the played one does.</param>
    /// <param name="range">Where the moving tone may be.</param>
    /// <param name="bandPower">Power of the window.</param>
    /// <returns>The other pair with its score; its score is minus infinity where there is none.</returns>
    public (PairFit Fit, double Score) BehindCoupling(PairFit pair, bool sungMoves, FrequencyRange range, double bandPower)
    {
        (double heldHz, double lineHz) = sungMoves ? (pair.PlayedHz, pair.SungHz) : (pair.SungHz, pair.PlayedHz);
        (PairFit Fit, double Score) best = (pair, double.NegativeInfinity);
        for (int times = 1; times <= MostTimes; times++)
        {
            for (int of = -MostShifts; of <= MostShifts; of++)
            {
                double hz = Math.Abs(lineHz + (of * heldHz)) / times;
                if (range.Holds(hz) && Math.Abs(Cents.Between(hz, lineHz)) > NearestCents && Math.Abs(Cents.Between(hz, heldHz)) > NearestCents)
                {
                    PairFit fit = sungMoves ? pair with { SungHz = hz } : pair with { PlayedHz = hz };
                    double score = Score(fit, bandPower);
                    best = score > best.Score ? (fit, score) : best;
                }
            }
        }

        if (best.Score == double.NegativeInfinity)
        {
            return best;
        }

        PairFit refined = _search.Refine(best.Fit.PlayedHz, best.Fit.SungHz, 4.0, PairSearch.TopHz, 3);
        return (refined, Score(refined, bandPower));
    }

    /// <summary>An octave or twelfth away from a followed pair, one that accounts for the window better by a margin; or null.</summary>
    public PairFit? OctaveAway(PairFit followed, FrequencyRange first, FrequencyRange second, double bandPower, double margin)
    {
        double best = Score(followed, bandPower) + margin;
        PairFit? better = null;
        foreach ((double a, double b) in Neighbours)
        {
            PairFit other = followed with { PlayedHz = a * followed.PlayedHz, SungHz = b * followed.SungHz };
            if (first.Holds(other.PlayedHz) && second.Holds(other.SungHz) && Score(other, bandPower) is var score && score > best)
            {
                (best, better) = (score, other);
            }
        }

        return better is { } found ? _search.Refine(found.PlayedHz, found.SungHz, 4.0, PairSearch.TopHz, 3) : null;
    }

    /// <summary>Best single tone in a range, or null when none stands out of noise.</summary>
    public double? FindOne(FrequencyRange range, double bandPower)
    {
        Peaks(range, FirstStepCents, hz => Score(_search.Explained(hz, 0.0, FirstTopHz, FirstTopHz), bandPower));
        return _peaks.Count > 0 && IsTone(_peaks[0].Hz, bandPower) ? _peaks[0].Hz : null;
    }

    /// <summary>The one tone that accounts for a window best by itself, S left out; null when none stands out of noise.</summary>
    public PairFit? BestOne(FrequencyRange range, double bandPower)
    {
        Peaks(range, FirstStepCents, hz => Score(_search.Explained(hz, 0.0, FirstTopHz, FirstTopHz), bandPower));
        if (_peaks.Count == 0 || !IsTone(_peaks[0].Hz, bandPower))
        {
            return null;
        }

        (PairFit? Fit, double Score) best = (null, double.NegativeInfinity);
        foreach (double hz in _peaks.Take(OneTones).Select(x => x.Hz))
        {
            Try(hz);
        }

        foreach ((double times, double _) in Neighbours.Where(neighbour => neighbour.Second == 1.0))
        {
            Try(times * (best.Fit?.PlayedHz ?? 0.0));
        }

        return best.Fit;

        void Try(double hz)
        {
            if (range.Holds(hz) && Refined(hz, 0.0) is var fit && range.Holds(fit.PlayedHz) && OwnScore(fit, bandPower) is var score && score > best.Score)
            {
                best = (fit, score);
            }
        }
    }

    private PairFit Refined(double firstHz, double secondHz)
    {
        PairFit rough = _search.Refine(firstHz, secondHz, 10.0, FirstTopHz, 3);
        return _search.Refine(rough.PlayedHz, rough.SungHz, 4.0, PairSearch.TopHz, 3);
    }

    // Spares the long search where even the best single tone explains no more than as many lines take of noise.
    private bool IsTone(double hz, double bandPower)
    {
        double share = _search.Explained(hz, 0.0, PairSearch.TopHz, PairSearch.TopHz) / bandPower;
        return share > LeastShare + (1.5 * _search.Lines.Count * _search.LineShare);
    }

    /// <summary>How well a pair accounts for the window, by itself or with what its coupling makes, as a log likelihood less the price of its lines.</summary>
    public double Score(PairFit fit, double bandPower)
    {
        double own = OwnScore(fit, bandPower, out double explained);
        _residual.Take(_search.Lines);
        _search.Lines.Restore(_search.Spectrum);
        double product = _residual.TakeProduct(_search.Lines, fit.PlayedHz, fit.SungHz);
        return Math.Max(own, Score(explained + product, bandPower) - (ProductLines * LinePrice * Math.Log(2.0 / _search.LineShare)));
    }

    /// <summary>The same by the pair's own lines alone.</summary>
    public double OwnScore(PairFit fit, double bandPower) => OwnScore(fit, bandPower, out _);

    // Leaves the lines of both tones up to the top, with their amplitudes.
    private double OwnScore(PairFit fit, double bandPower, out double explained)
    {
        // A tone that ends below the other's top is solved once for all of them: lines rise, so each lower top is a beginning of the same sum.
        double best = double.NegativeInfinity;
        foreach (double topHz in TopsHz)
        {
            if (topHz < PairSearch.TopHz)
            {
                _search.Explained(fit.PlayedHz, fit.SungHz, topHz, PairSearch.TopHz);
                best = Math.Max(best, BestBeginning(topHz, bandPower));
                _search.Explained(fit.PlayedHz, fit.SungHz, PairSearch.TopHz, topHz);
                best = Math.Max(best, BestBeginning(topHz, bandPower));
            }
        }

        explained = _search.Explained(fit.PlayedHz, fit.SungHz, PairSearch.TopHz, PairSearch.TopHz, amplitudes: true);
        return Math.Max(best, Score(explained, bandPower));
    }

    private double BestBeginning(double fromHz, double bandPower)
    {
        LineFit lines = _search.Lines;
        double best = double.NegativeInfinity;
        foreach (double topHz in TopsHz)
        {
            if (topHz >= fromHz)
            {
                int count = lines.CountBelow(topHz);
                best = Math.Max(best, Score(lines.ExplainedBy(count), lines.Distinct(OneLine * _search.LineHz, count), bandPower));
            }
        }

        return best;
    }

    private void Peaks(FrequencyRange range, double stepCents, Func<double, double> score)
    {
        _peaks.Clear();
        double step = Cents.ToRatio(stepCents);
        (double Score, double Hz) before = (double.NegativeInfinity, 0.0);
        (double Score, double Hz) here = before;
        for (double hz = range.LowestHz; hz <= range.HighestHz * step; hz *= step)
        {
            (double Score, double Hz) next = hz <= range.HighestHz ? (score(hz), hz) : (double.NegativeInfinity, hz);
            if (here.Score > before.Score && here.Score >= next.Score)
            {
                _peaks.Add(here);
            }

            before = here;
            here = next;
        }

        _peaks.Sort((a, b) => b.Score.CompareTo(a.Score));
    }

    private double Score(double explained, double bandPower) =>
        Score(explained, _search.Lines.Distinct(OneLine * _search.LineHz, _search.Lines.Count), bandPower);

    private double Score(double explained, int distinct, double bandPower)
    {
        double values = 2.0 / _search.LineShare;
        double left = Math.Max(LeastLeft * bandPower, bandPower - explained) + 1e-30;
        double price = LinePrice * Math.Log(values) * distinct;
        return (0.5 * values * Math.Log((bandPower + 1e-30) / left)) - price;
    }
}
