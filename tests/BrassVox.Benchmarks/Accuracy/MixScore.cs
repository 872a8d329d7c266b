using BrassVox.Analysis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>How the frames of one mix, or of many, compare with its truth.</summary>
internal sealed class MixScore
{
    public const string Heading =
        "frames   10 c   25 c | played: med     95 % | sung: med     95 % |  wrong declined  open | fog  told  right  slower  right";

    private const double BeatTolerance = 0.2;

    private readonly List<double> _playedErrors = [];
    private readonly List<double> _sungErrors = [];
    private int _frames;
    private int _both10;
    private int _both25;
    private int _played25;
    private int _sung25;
    private int _declined;
    private int _wrong;
    private int _open10;
    private int _fog;
    private int _beatsTold;
    private int _beatsRight;
    private int _slowerTold;
    private int _slowerRight;

    public static MixScore Of(IEnumerable<AnalysisFrame> frames, TruthTrack truth)
    {
        MixScore score = new();
        foreach (AnalysisFrame frame in frames)
        {
            double t = frame.CentreSeconds;
            if (t >= truth.FromSeconds && t <= truth.ToSeconds)
            {
                score.Add(frame, truth.At(t));
                score.AddBeats(frame, truth.BeatsAt(t));
            }
        }

        return score;
    }

    public void Add(MixScore other)
    {
        _frames += other._frames;
        _both10 += other._both10;
        _both25 += other._both25;
        _played25 += other._played25;
        _sung25 += other._sung25;
        _declined += other._declined;
        _wrong += other._wrong;
        _open10 += other._open10;
        _fog += other._fog;
        _beatsTold += other._beatsTold;
        _beatsRight += other._beatsRight;
        _slowerTold += other._slowerTold;
        _slowerRight += other._slowerRight;
        _playedErrors.AddRange(other._playedErrors);
        _sungErrors.AddRange(other._sungErrors);
    }

    /// <summary>Shares within 25 cents, in the columns of <see cref="SingleScore"/>.</summary>
    public string Within25() => FormattableString.Invariant($"{Share(_played25),8:0.000}{Share(_sung25),8:0.000}{Share(_both25),8:0.000}");

    public override string ToString() => FormattableString.Invariant(
        $"{_frames,6}  {Share(_both10):0.000}  {Share(_both25):0.000} | {Quantile(_playedErrors, 0.5),11}{Quantile(_playedErrors, 0.95),9} | {Quantile(_sungErrors, 0.5),9}{Quantile(_sungErrors, 0.95),9} |  {Share(_wrong):0.000}    {Share(_declined):0.000} {Share(_open10):0.000} | {_fog,4}{_beatsTold,5}{_beatsRight,7}{_slowerTold,8}{_slowerRight,7}");

    private void Add(AnalysisFrame frame, (double PlayedHz, double SungHz) truth)
    {
        (double tp, double ts) = truth;
        _frames++;
        double ep = frame.Played is { } p ? Math.Abs(Cents.Between(tp, p.FrequencyHz)) : double.NaN;
        double es = frame.Sung is { } s ? Math.Abs(Cents.Between(ts, s.FrequencyHz)) : double.NaN;
        _played25 += ep < 25.0 ? 1 : 0;
        _sung25 += es < 25.0 ? 1 : 0;

        // Wrong: over a semitone and a half off, or on the other tone where the two lie apart. One tone alone counts as well.
        bool apart = Math.Abs(Cents.Between(tp, ts)) > 60.0;
        bool swapped = apart
            && ((frame.Played is { } pp && Math.Abs(Cents.Between(ts, pp.FrequencyHz)) < 25.0)
                || (frame.Sung is { } ss && Math.Abs(Cents.Between(tp, ss.FrequencyHz)) < 25.0));
        _wrong += swapped || ep > 150.0 || es > 150.0 ? 1 : 0;
        if (double.IsNaN(ep + es))
        {
            _declined++;
            _open10 += frame.RolesOpen is { } open && IsEither(open.Lower.FrequencyHz, open.Upper.FrequencyHz, Math.Min(tp, ts), Math.Max(tp, ts)) ? 1 : 0;
            return;
        }

        _both10 += ep < 10.0 && es < 10.0 ? 1 : 0;
        _both25 += ep < 25.0 && es < 25.0 ? 1 : 0;
        _playedErrors.Add(ep);
        _sungErrors.Add(es);
    }

    private void AddBeats(AnalysisFrame frame, double? truthHz)
    {
        if (frame.Separability != Separability.NotSeparable || truthHz is not { } truth)
        {
            return;
        }

        _fog++;
        if (frame.BeatRateHz is { } rate)
        {
            _beatsTold++;
            _beatsRight += Math.Abs(rate - truth) <= BeatTolerance ? 1 : 0;
        }
        else if (frame.BeatsBelowHz is { } below)
        {
            _slowerTold++;
            _slowerRight += truth <= below ? 1 : 0;
        }
    }

    private static bool IsEither(double lowerHz, double upperHz, double lowerTruthHz, double upperTruthHz) =>
        Math.Abs(Cents.Between(lowerTruthHz, lowerHz)) < 10.0 && Math.Abs(Cents.Between(upperTruthHz, upperHz)) < 10.0;

    private double Share(int count) => (double)count / Math.Max(1, _frames);

    private static string Quantile(List<double> values, double share)
    {
        if (values.Count == 0)
        {
            return "-";
        }

        double[] sorted = [.. values.Order()];
        return FormattableString.Invariant($"{sorted[(int)Math.Round(share * (sorted.Length - 1))]:0.00}");
    }
}
