namespace BrassVox.Analysis.Transforms;

/// <summary>Solves R h = p where R is the correlation matrix of a signal (symmetric, each diagonal constant).</summary>
/// <remarks>Source: conjugate gradients, Hestenes and Stiefel 1952; the product with R is a circular convolution.</remarks>
internal sealed class ToeplitzSystem
{
    private const double Converged = 1e-10;

    private readonly FourierPlan _plan;
    private readonly int _count;
    private readonly double[] _eigenvalues;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double _ridge;

    /// <summary>Prepares the matrix.</summary>
    /// <param name="lags">Correlation at lags 0, 1, ...; lag 0 is the largest.</param>
    /// <param name="ridge">Added to the diagonal, as a share of lag 0.</param>
    internal ToeplitzSystem(ReadOnlySpan<double> lags, double ridge)
    {
        _count = lags.Length;
        _plan = new FourierPlan(FourierPlan.FastLength(2 * _count));
        _eigenvalues = new double[_plan.Length];
        _re = new double[_plan.Length];
        _im = new double[_plan.Length];
        _ridge = ridge * lags[0];
        for (int j = 0; j < _count; j++)
        {
            _eigenvalues[j] = lags[j];
            _eigenvalues[(_plan.Length - j) % _plan.Length] = lags[j];
        }

        _plan.Forward(_eigenvalues, _im);
    }

    /// <summary>Approximate solution, more exact with each step.</summary>
    /// <param name="right">p, as many values as there are lags.</param>
    /// <param name="steps">Most steps taken.</param>
    internal double[] Solve(ReadOnlySpan<double> right, int steps)
    {
        double[] solution = new double[_count];
        double[] residual = right.ToArray();
        double[] direction = right.ToArray();
        double[] product = new double[_count];
        double square = Dot(residual, residual);
        double enough = square * Converged * Converged;
        for (int step = 0; step < steps && square > enough; step++)
        {
            Multiply(direction, product);
            double length = square / Dot(direction, product);
            for (int i = 0; i < _count; i++)
            {
                solution[i] += length * direction[i];
                residual[i] -= length * product[i];
            }

            double next = Dot(residual, residual);
            double turn = next / square;
            square = next;
            for (int i = 0; i < _count; i++)
            {
                direction[i] = residual[i] + (turn * direction[i]);
            }
        }

        return solution;
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0.0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    private void Multiply(ReadOnlySpan<double> vector, Span<double> product)
    {
        Array.Clear(_re);
        Array.Clear(_im);
        vector.CopyTo(_re);
        _plan.Forward(_re, _im);
        for (int k = 0; k < _re.Length; k++)
        {
            _re[k] *= _eigenvalues[k];
            _im[k] *= _eigenvalues[k];
        }

        _plan.Inverse(_re, _im);
        for (int i = 0; i < _count; i++)
        {
            product[i] = _re[i] + (_ridge * vector[i]);
        }
    }
}
