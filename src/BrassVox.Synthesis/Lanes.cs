using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>Plain operations on stretches of samples, several lanes at a time. Values that move in a straight line are given at both ends.</summary>
internal static class Lanes
{
    /// <summary>Scales samples by a gain.</summary>
    internal static void Scale(Span<float> samples, float from, float to)
    {
        float step = (to - from) / samples.Length;
        int i = 0;
        for (; i <= samples.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            (new Vector<float>(samples[i..]) * Line(from, step, i)).CopyTo(samples[i..]);
        }

        for (; i < samples.Length; i++)
        {
            samples[i] *= from + (i * step);
        }
    }

    /// <summary>Writes scaled samples of a source.</summary>
    internal static void Scaled(ReadOnlySpan<float> source, float from, float to, Span<float> output)
    {
        float step = (to - from) / output.Length;
        int i = 0;
        for (; i <= output.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            (new Vector<float>(source[i..]) * Line(from, step, i)).CopyTo(output[i..]);
        }

        for (; i < output.Length; i++)
        {
            output[i] = source[i] * (from + (i * step));
        }
    }

    /// <summary>Adds scaled samples of a source.</summary>
    internal static void AddScaled(ReadOnlySpan<float> source, float from, float to, Span<float> output)
    {
        float step = (to - from) / output.Length;
        int i = 0;
        for (; i <= output.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            Vector.FusedMultiplyAdd(new Vector<float>(source[i..]), Line(from, step, i), new Vector<float>(output[i..])).CopyTo(output[i..]);
        }

        for (; i < output.Length; i++)
        {
            output[i] = MathF.FusedMultiplyAdd(source[i], from + (i * step), output[i]);
        }
    }

    /// <summary>Adds the scaled product of two sources.</summary>
    internal static void AddProduct(ReadOnlySpan<float> first, ReadOnlySpan<float> second, float from, float to, Span<float> output)
    {
        float step = (to - from) / output.Length;
        int i = 0;
        for (; i <= output.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            Vector<float> product = new Vector<float>(first[i..]) * new Vector<float>(second[i..]);
            Vector.FusedMultiplyAdd(product, Line(from, step, i), new Vector<float>(output[i..])).CopyTo(output[i..]);
        }

        for (; i < output.Length; i++)
        {
            output[i] = MathF.FusedMultiplyAdd(first[i] * second[i], from + (i * step), output[i]);
        }
    }

    /// <summary>Sum of three sources.</summary>
    internal static void Sum(ReadOnlySpan<float> first, ReadOnlySpan<float> second, ReadOnlySpan<float> third, Span<float> output)
    {
        int i = 0;
        for (; i <= output.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            (new Vector<float>(first[i..]) + new Vector<float>(second[i..]) + new Vector<float>(third[i..])).CopyTo(output[i..]);
        }

        for (; i < output.Length; i++)
        {
            output[i] = first[i] + second[i] + third[i];
        }
    }

    /// <summary>Largest magnitude; NaN counts as none.</summary>
    internal static float Peak(ReadOnlySpan<float> samples)
    {
        Vector<float> peak = default;
        int i = 0;
        for (; i <= samples.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            peak = Vector.Max(peak, Vector.Abs(new Vector<float>(samples[i..])));
        }

        float highest = 0;
        for (; i < samples.Length; i++)
        {
            highest = Math.Max(highest, Math.Abs(samples[i]));
        }

        for (int lane = 0; lane < Vector<float>.Count; lane++)
        {
            highest = Math.Max(highest, peak[lane]);
        }

        return highest;
    }

    private static Vector<float> Line(float from, float step, int at) =>
        Vector.FusedMultiplyAdd(Vector<float>.Indices + new Vector<float>(at), new Vector<float>(step), new Vector<float>(from));
}
