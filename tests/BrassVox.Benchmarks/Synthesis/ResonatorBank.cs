using System.Runtime.Intrinsics;

namespace BrassVox.Benchmarks.Synthesis;

/// <summary>Parallel two-pole resonators struck by sparse pulses: between two pulses eight samples follow from two states at once.</summary>
/// <remarks>y[n] = g x[n] + b1 y[n-1] + b2 y[n-2]; with no input y[n+j] = p_j y[n-1] + q_j y[n-2], p and q being the impulse responses of the recursion.</remarks>
internal sealed class ResonatorBank
{
    private const int Step = 8;
    private readonly double[] _gain;
    private readonly double[] _feed1;
    private readonly double[] _feed2;
    private readonly Vector512<double>[] _fromLast;
    private readonly Vector512<double>[] _fromBeforeLast;
    private readonly double[] _last;
    private readonly double[] _beforeLast;

    internal ResonatorBank(ReadOnlySpan<double> centersHz, ReadOnlySpan<double> widthsHz, ReadOnlySpan<double> gains, double rateHz)
    {
        int count = centersHz.Length;
        (_gain, _feed1, _feed2) = (new double[count], new double[count], new double[count]);
        (_last, _beforeLast) = (new double[count], new double[count]);
        (_fromLast, _fromBeforeLast) = (new Vector512<double>[count], new Vector512<double>[count]);
        Span<double> last = stackalloc double[Step];
        Span<double> before = stackalloc double[Step];
        for (int k = 0; k < count; k++)
        {
            double radius = Math.Exp(-Math.PI * widthsHz[k] / rateHz);
            _feed1[k] = 2 * radius * Math.Cos(2 * Math.PI * centersHz[k] / rateHz);
            _feed2[k] = -radius * radius;
            _gain[k] = gains[k] * (1 - (radius * radius));
            (double l1, double l2, double b1, double b2) = (1, 0, 0, 1);
            for (int j = 0; j < Step; j++)
            {
                (l1, l2) = ((_feed1[k] * l1) + (_feed2[k] * l2), l1);
                (b1, b2) = ((_feed1[k] * b1) + (_feed2[k] * b2), b1);
                (last[j], before[j]) = (l1, b1);
            }

            _fromLast[k] = Vector512.Create<double>(last);
            _fromBeforeLast[k] = Vector512.Create<double>(before);
        }
    }

    /// <summary>Adds eight samples without a pulse among them.</summary>
    internal Vector512<double> Ring()
    {
        Vector512<double> sum = default;
        for (int k = 0; k < _last.Length; k++)
        {
            Vector512<double> now = Vector512.FusedMultiplyAdd(_fromLast[k], Vector512.Create(_last[k]), _fromBeforeLast[k] * Vector512.Create(_beforeLast[k]));
            sum += now;
            _last[k] = now[Step - 1];
            _beforeLast[k] = now[Step - 2];
        }

        return sum;
    }

    /// <summary>One sample with an input.</summary>
    internal double Next(double input)
    {
        double sum = 0;
        for (int k = 0; k < _last.Length; k++)
        {
            double now = (_gain[k] * input) + (_feed1[k] * _last[k]) + (_feed2[k] * _beforeLast[k]);
            _beforeLast[k] = _last[k];
            _last[k] = now;
            sum += now;
        }

        return sum;
    }
}
