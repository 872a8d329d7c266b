namespace BrassVox.Practice.Judging;

/// <summary>The median. Pure.</summary>
public static class Median
{
    /// <summary>Middle value; the mean of the middle two for an even count.</summary>
    /// <param name="values">At least one value, in any order and unit; none of them NaN.</param>
    /// <exception cref="ArgumentException">There are no values.</exception>
    public static double Of(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        if (sorted.Length == 0)
        {
            throw new ArgumentException("A median needs at least one value.", nameof(values));
        }

        return 0.5 * (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]);
    }
}
