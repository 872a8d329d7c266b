namespace BrassVox.Analysis.Transforms;

/// <summary>A long filter of finite response, block by block through the transform. One thread; allocates only when made.</summary>
internal sealed class FirFilter
{
    private readonly FourierPlan _plan;
    private readonly double[] _filterRe;
    private readonly double[] _filterIm;
    private readonly double[] _recent;
    private readonly double[] _re;
    private readonly double[] _im;

    /// <summary>Prepares a filter.</summary>
    /// <param name="coefficients">Response, at least one value.</param>
    /// <param name="blockSamples">Samples of each block, at least 1.</param>
    internal FirFilter(ReadOnlySpan<double> coefficients, int blockSamples)
    {
        _plan = new FourierPlan(FourierPlan.FastLength(coefficients.Length + blockSamples));
        BlockSamples = blockSamples;
        _filterRe = new double[_plan.Length];
        _filterIm = new double[_plan.Length];
        coefficients.CopyTo(_filterRe);
        _plan.Forward(_filterRe, _filterIm);
        _recent = new double[_plan.Length];
        _re = new double[_plan.Length];
        _im = new double[_plan.Length];
    }

    /// <summary>Samples of each block.</summary>
    internal int BlockSamples { get; }

    /// <summary>Filters the next block.</summary>
    /// <param name="input"><see cref="BlockSamples"/> samples.</param>
    /// <param name="output">Receives as many; may be the input.</param>
    internal void Run(ReadOnlySpan<double> input, Span<double> output)
    {
        _recent.AsSpan(BlockSamples).CopyTo(_recent);
        input[..BlockSamples].CopyTo(_recent.AsSpan(_recent.Length - BlockSamples));
        _recent.CopyTo(_re, 0);
        Array.Clear(_im);
        _plan.Forward(_re, _im);
        for (int k = 0; k < _re.Length; k++)
        {
            double re = (_re[k] * _filterRe[k]) - (_im[k] * _filterIm[k]);
            _im[k] = (_re[k] * _filterIm[k]) + (_im[k] * _filterRe[k]);
            _re[k] = re;
        }

        _plan.Inverse(_re, _im);
        _re.AsSpan(_re.Length - BlockSamples).CopyTo(output);
    }

    /// <summary>Forgets the past.</summary>
    internal void Reset() => Array.Clear(_recent);

    /// <summary>Filters a whole signal, from rest.</summary>
    /// <param name="coefficients">Response.</param>
    /// <param name="signal">The signal.</param>
    /// <returns>As many samples as the signal has.</returns>
    internal static double[] Whole(ReadOnlySpan<double> coefficients, ReadOnlySpan<double> signal)
    {
        var filter = new FirFilter(coefficients, 3 * coefficients.Length);
        double[] padded = new double[filter.BlockSamples];
        double[] output = new double[signal.Length];
        for (int start = 0; start < signal.Length; start += filter.BlockSamples)
        {
            int count = Math.Min(filter.BlockSamples, signal.Length - start);
            Array.Clear(padded);
            signal.Slice(start, count).CopyTo(padded);
            filter.Run(padded, padded);
            padded.AsSpan(0, count).CopyTo(output.AsSpan(start));
        }

        return output;
    }
}
