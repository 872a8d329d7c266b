namespace BrassVox.Analysis.Sensation;

/// <summary>A table read by straight lines between its points, level beyond its ends. Immutable.</summary>
internal sealed class BrokenLine
{
    private readonly double[] _x;
    private readonly double[] _y;

    /// <summary>Makes the line.</summary>
    /// <param name="points">Pairs of place and value, places rising.</param>
    internal BrokenLine(params ReadOnlySpan<(double X, double Y)> points)
    {
        _x = new double[points.Length];
        _y = new double[points.Length];
        for (int i = 0; i < points.Length; i++)
        {
            (_x[i], _y[i]) = points[i];
        }
    }

    /// <summary>Value at a place.</summary>
    /// <param name="x">The place.</param>
    internal double At(double x)
    {
        if (x <= _x[0])
        {
            return _y[0];
        }

        for (int i = 1; i < _x.Length; i++)
        {
            if (x < _x[i])
            {
                return _y[i - 1] + ((_y[i] - _y[i - 1]) * (x - _x[i - 1]) / (_x[i] - _x[i - 1]));
            }
        }

        return _y[^1];
    }
}
