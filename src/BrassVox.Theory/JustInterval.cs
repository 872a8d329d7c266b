namespace BrassVox.Theory;

/// <summary>An interval of small whole numbers.</summary>
/// <param name="Upper">Numerator: harmonic number of the upper tone.</param>
/// <param name="Lower">Denominator: harmonic number of the lower tone.</param>
public readonly record struct JustInterval(int Upper, int Lower)
{
    private static readonly JustInterval[] Known =
    [
        new(1, 1), new(16, 15), new(9, 8), new(6, 5), new(5, 4), new(4, 3), new(7, 5), new(3, 2),
        new(8, 5), new(5, 3), new(7, 4), new(9, 5), new(15, 8),
    ];

    /// <summary>Size in cents.</summary>
    public double Cents => Theory.Cents.Between(Lower, Upper);

    // Twenty octaves: more than from the lowest note to the highest, each detuned by an octave. The ratio still fits its type.
    private const double WidestCents = 24000;

    /// <summary>The just interval nearest to a distance; compound intervals keep their octaves.</summary>
    /// <param name="cents">Distance in cents, finite; the sign is dropped.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="cents"/> is not finite, or is over 24000.</exception>
    /// <remarks>Source: ratios of small whole numbers as tabled in every acoustics handbook; the choice (16/15 9/8 6/5 5/4 4/3 7/5 3/2 8/5 5/3 7/4 9/5 15/8) is ours.</remarks>
    public static JustInterval NearestTo(double cents)
    {
        double distance = Math.Abs(cents);
        if (!(distance <= WidestCents))
        {
            throw new ArgumentOutOfRangeException(nameof(cents), cents, "An interval is at most 24000 cents wide.");
        }

        int octaves = (int)Math.Floor(distance / Theory.Cents.PerOctave);
        double rest = distance - (octaves * Theory.Cents.PerOctave);
        JustInterval best = Known.Append(new JustInterval(2, 1)).MinBy(interval => Math.Abs(interval.Cents - rest));
        return Reduced(best.Upper << octaves, best.Lower);
    }

    /// <summary>The ratio as written, as in <c>3:2</c>.</summary>
    public override string ToString() => $"{Upper}:{Lower}";

    private static JustInterval Reduced(int upper, int lower)
    {
        (int a, int b) = (upper, lower);
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return new JustInterval(upper / a, lower / a);
    }
}
