using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>
/// A harmonic series as the real part of a polynomial in the turning pointer, so that all partials cost one multiply-add each and stay locked.
/// Amplitudes are complex (they carry the phase) and move in straight lines.
/// </summary>
internal sealed class PartialBank(int capacity)
{
    private readonly float[] _real = new float[capacity];
    private readonly float[] _imaginary = new float[capacity];
    private readonly float[] _realStep = new float[capacity];
    private readonly float[] _imaginaryStep = new float[capacity];
    private readonly float[] _realTarget = new float[capacity];
    private readonly float[] _imaginaryTarget = new float[capacity];
    private int _count;
    private int _targetCount;
    private bool _moves;

    internal int Capacity => capacity;

    /// <summary>False when all its partials are silent and stay so.</summary>
    internal bool IsHeard => _count > 0;

    /// <summary>Where the amplitudes go next: index 0 is the first partial.</summary>
    internal Span<float> RealTarget => _realTarget;

    /// <summary>Imaginary parts of the amplitudes to come.</summary>
    internal Span<float> ImaginaryTarget => _imaginaryTarget;

    /// <summary>Amplitude of a partial now; index 0 is the first partial.</summary>
    internal Complex Amplitude(int index) => new(_real[index], _imaginary[index]);

    /// <summary>What the amplitude changes by per sample.</summary>
    internal Complex AmplitudeStep(int index) => new(_realStep[index], _imaginaryStep[index]);

    internal void Clear()
    {
        Array.Clear(_real);
        Array.Clear(_imaginary);
        Array.Clear(_realStep);
        Array.Clear(_imaginaryStep);
        Array.Clear(_realTarget);
        Array.Clear(_imaginaryTarget);
        _count = 0;
        _targetCount = 0;
        _moves = false;
    }

    /// <summary>Lets the first <paramref name="count"/> partials move to their targets in so many samples, the others to silence; 0 samples means at once.</summary>
    internal void Aim(int count, int samples)
    {
        _realTarget.AsSpan(count).Clear();
        _imaginaryTarget.AsSpan(count).Clear();
        if (samples == 0)
        {
            _realTarget.CopyTo(_real, 0);
            _imaginaryTarget.CopyTo(_imaginary, 0);
            Array.Clear(_realStep);
            Array.Clear(_imaginaryStep);
            _moves = false;
            _count = count;
            _targetCount = count;
            return;
        }

        _count = Math.Max(_targetCount, count);
        _targetCount = count;
        float step = 1f / samples;
        bool moves = false;
        for (int i = 0; i < _count; i++)
        {
            _realStep[i] = (_realTarget[i] - _real[i]) * step;
            _imaginaryStep[i] = (_imaginaryTarget[i] - _imaginary[i]) * step;
            moves |= _realStep[i] != 0 || _imaginaryStep[i] != 0;
        }

        _moves = moves;
    }

    /// <summary>The amplitudes have arrived: they rest on their targets exactly.</summary>
    internal void Arrive() => Aim(_targetCount, 0);

    /// <summary>Sums the series over a stretch. The buffers hold whole groups of four vectors.</summary>
    internal void Render(ReadOnlySpan<float> pointerReal, ReadOnlySpan<float> pointerImaginary, Span<float> output, int samples)
    {
        if (_count == 0)
        {
            output.Clear();
            return;
        }

        int group = 4 * Vector<float>.Count;
        for (int i = 0; i < samples; i += group)
        {
            if (_moves)
            {
                Moving(pointerReal[i..], pointerImaginary[i..], output[i..], i);
            }
            else
            {
                Standing(pointerReal[i..], pointerImaginary[i..], output[i..]);
            }
        }

        if (_moves)
        {
            for (int i = 0; i < _count; i++)
            {
                _real[i] += samples * _realStep[i];
                _imaginary[i] += samples * _imaginaryStep[i];
            }
        }
    }

    // Four vectors side by side: the chain of multiply-adds of one waits for itself, four fill the gaps.
    private void Standing(ReadOnlySpan<float> pointerReal, ReadOnlySpan<float> pointerImaginary, Span<float> output)
    {
        int width = Vector<float>.Count;
        Vector<float> zr0 = new(pointerReal), zr1 = new(pointerReal[width..]), zr2 = new(pointerReal[(2 * width)..]), zr3 = new(pointerReal[(3 * width)..]);
        Vector<float> zi0 = new(pointerImaginary), zi1 = new(pointerImaginary[width..]), zi2 = new(pointerImaginary[(2 * width)..]), zi3 = new(pointerImaginary[(3 * width)..]);
        Vector<float> r0 = default, r1 = default, r2 = default, r3 = default;
        Vector<float> i0 = default, i1 = default, i2 = default, i3 = default;
        for (int k = _count - 1; k >= 0; k--)
        {
            Vector<float> real = new(_real[k]);
            Vector<float> imaginary = new(_imaginary[k]);
            (r0, i0) = Next(r0, i0, zr0, zi0, real, imaginary);
            (r1, i1) = Next(r1, i1, zr1, zi1, real, imaginary);
            (r2, i2) = Next(r2, i2, zr2, zi2, real, imaginary);
            (r3, i3) = Next(r3, i3, zr3, zi3, real, imaginary);
        }

        ((r0 * zr0) - (i0 * zi0)).CopyTo(output);
        ((r1 * zr1) - (i1 * zi1)).CopyTo(output[width..]);
        ((r2 * zr2) - (i2 * zi2)).CopyTo(output[(2 * width)..]);
        ((r3 * zr3) - (i3 * zi3)).CopyTo(output[(3 * width)..]);
    }

    private void Moving(ReadOnlySpan<float> pointerReal, ReadOnlySpan<float> pointerImaginary, Span<float> output, int firstSample)
    {
        int width = Vector<float>.Count;
        Vector<float> zr0 = new(pointerReal), zr1 = new(pointerReal[width..]), zr2 = new(pointerReal[(2 * width)..]), zr3 = new(pointerReal[(3 * width)..]);
        Vector<float> zi0 = new(pointerImaginary), zi1 = new(pointerImaginary[width..]), zi2 = new(pointerImaginary[(2 * width)..]), zi3 = new(pointerImaginary[(3 * width)..]);
        Vector<float> t0 = Vector<float>.Indices + new Vector<float>(firstSample);
        Vector<float> t1 = t0 + new Vector<float>(width), t2 = t0 + new Vector<float>(2 * width), t3 = t0 + new Vector<float>(3 * width);
        Vector<float> r0 = default, r1 = default, r2 = default, r3 = default;
        Vector<float> i0 = default, i1 = default, i2 = default, i3 = default;
        for (int k = _count - 1; k >= 0; k--)
        {
            Vector<float> real = new(_real[k]), realStep = new(_realStep[k]);
            Vector<float> imaginary = new(_imaginary[k]), imaginaryStep = new(_imaginaryStep[k]);
            (r0, i0) = Next(r0, i0, zr0, zi0, Vector.FusedMultiplyAdd(realStep, t0, real), Vector.FusedMultiplyAdd(imaginaryStep, t0, imaginary));
            (r1, i1) = Next(r1, i1, zr1, zi1, Vector.FusedMultiplyAdd(realStep, t1, real), Vector.FusedMultiplyAdd(imaginaryStep, t1, imaginary));
            (r2, i2) = Next(r2, i2, zr2, zi2, Vector.FusedMultiplyAdd(realStep, t2, real), Vector.FusedMultiplyAdd(imaginaryStep, t2, imaginary));
            (r3, i3) = Next(r3, i3, zr3, zi3, Vector.FusedMultiplyAdd(realStep, t3, real), Vector.FusedMultiplyAdd(imaginaryStep, t3, imaginary));
        }

        ((r0 * zr0) - (i0 * zi0)).CopyTo(output);
        ((r1 * zr1) - (i1 * zi1)).CopyTo(output[width..]);
        ((r2 * zr2) - (i2 * zi2)).CopyTo(output[(2 * width)..]);
        ((r3 * zr3) - (i3 * zi3)).CopyTo(output[(3 * width)..]);
    }

    private static (Vector<float> Real, Vector<float> Imaginary) Next(
        Vector<float> real, Vector<float> imaginary, Vector<float> pointerReal, Vector<float> pointerImaginary, Vector<float> addReal, Vector<float> addImaginary) =>
        (Vector.FusedMultiplyAdd(real, pointerReal, Vector.FusedMultiplyAdd(-imaginary, pointerImaginary, addReal)),
         Vector.FusedMultiplyAdd(real, pointerImaginary, Vector.FusedMultiplyAdd(imaginary, pointerReal, addImaginary)));
}
