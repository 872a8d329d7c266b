namespace BrassVox.Theory;

/// <summary>How rough a played and a sung tone are together, over the interval between them.</summary>
/// <remarks>Immutable. The played tone stands still, the sung tone moves. Values are relative: compare them within one curve.</remarks>
public sealed class RoughnessCurve
{
    private readonly double _playedHz;
    private readonly double[] _playedAmplitudes;
    private readonly double[] _sungAmplitudes;
    private readonly RoughnessModel _model;

    /// <summary>Computes the curve.</summary>
    /// <param name="playedHz">Played fundamental in Hz, &gt; 0; it sets the register.</param>
    /// <param name="playedAmplitudes">Amplitudes of the played harmonics, the fundamental first, linear, each at least 0; at least one.</param>
    /// <param name="sungAmplitudes">Amplitudes of the sung harmonics on the same scale; at least one.</param>
    /// <param name="fromCents">First interval in cents, sung above played; may be negative.</param>
    /// <param name="toCents">Last interval in cents, above <paramref name="fromCents"/>; it is the last point when the step meets it.</param>
    /// <param name="stepCents">Distance of the points in cents, &gt; 0, giving at most 100 000 points.</param>
    /// <param name="model">Formula for each pair of partials.</param>
    /// <exception cref="ArgumentException">No harmonic is given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public RoughnessCurve(
        double playedHz,
        IReadOnlyList<double> playedAmplitudes,
        IReadOnlyList<double> sungAmplitudes,
        double fromCents = 0.0,
        double toCents = 1300.0,
        double stepCents = 5.0,
        RoughnessModel model = RoughnessModel.Sethares)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(playedHz);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(toCents, fromCents);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(stepCents);
        double steps = Math.Floor(((toCents - fromCents) / stepCents) + 1e-9);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(steps, 99_999.0, nameof(stepCents));
        if (playedAmplitudes.Count == 0 || sungAmplitudes.Count == 0)
        {
            throw new ArgumentException("Each tone needs at least one harmonic.");
        }

        _playedHz = playedHz;
        _playedAmplitudes = [.. playedAmplitudes];
        _sungAmplitudes = [.. sungAmplitudes];
        _model = model;
        var points = new RoughnessPoint[(int)steps + 1];
        for (int i = 0; i < points.Length; i++)
        {
            double cents = fromCents + (i * stepCents);
            points[i] = new RoughnessPoint(cents, At(cents));
        }

        Points = Array.AsReadOnly(points);
    }

    /// <summary>The points, from the narrowest interval to the widest.</summary>
    public IReadOnlyList<RoughnessPoint> Points { get; }

    /// <summary>Points smoother than both neighbours: intervals that stand still or nearly so.</summary>
    public IReadOnlyList<RoughnessPoint> Minima => Turning(-1);

    /// <summary>Points rougher than both neighbours.</summary>
    public IReadOnlyList<RoughnessPoint> Maxima => Turning(1);

    /// <summary>Roughness at an interval, so that a moving pair can be placed on the curve.</summary>
    /// <param name="cents">Interval in cents, sung above played; any finite value.</param>
    public double At(double cents)
    {
        double sungHz = _playedHz * Math.Pow(2.0, cents / 1200.0);
        var partials = new Partial[_playedAmplitudes.Length + _sungAmplitudes.Length];
        for (int i = 0; i < _playedAmplitudes.Length; i++)
        {
            partials[i] = new Partial((i + 1) * _playedHz, _playedAmplitudes[i]);
        }

        for (int i = 0; i < _sungAmplitudes.Length; i++)
        {
            partials[_playedAmplitudes.Length + i] = new Partial((i + 1) * sungHz, _sungAmplitudes[i]);
        }

        return PairwiseRoughness.Of(partials, _model);
    }

    private List<RoughnessPoint> Turning(int sign)
    {
        List<RoughnessPoint> found = [];
        for (int i = 1; i < Points.Count - 1; i++)
        {
            double before = sign * (Points[i].Roughness - Points[i - 1].Roughness);
            double after = sign * (Points[i].Roughness - Points[i + 1].Roughness);
            if (before > 0.0 && after >= 0.0)
            {
                found.Add(Points[i]);
            }
        }

        return found;
    }
}
