using System.Numerics;
using BrassVox.Analysis.Transforms;
using MathNet.Numerics.IntegralTransforms;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Analysis;

public sealed class FourierPlanTests
{
    // Source: MathNet.Numerics, a general-purpose library, on the same points.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(60)]
    [InlineData(64)]
    [InlineData(1024)]
    [InlineData(2 * 3 * 5 * 7 * 11)]
    [InlineData(9600)]
    public void Agrees_with_a_general_library(int length)
    {
        var random = new Random(1);
        double[] re = [.. Enumerable.Range(0, length).Select(_ => random.NextDouble() - 0.5)];
        double[] im = [.. Enumerable.Range(0, length).Select(_ => random.NextDouble() - 0.5)];
        Complex[] expected = [.. re.Zip(im, (a, b) => new Complex(a, b))];
        double[] startRe = [.. re];
        double[] startIm = [.. im];
        Fourier.Forward(expected, FourierOptions.AsymmetricScaling);
        var plan = new FourierPlan(length);

        plan.Forward(re, im);

        for (int i = 0; i < length; i++)
        {
            Assert.Equal(expected[i].Real, re[i], 1e-9);
            Assert.Equal(expected[i].Imaginary, im[i], 1e-9);
        }

        plan.Inverse(re, im);
        for (int i = 0; i < length; i++)
        {
            Assert.Equal(startRe[i], re[i], 1e-12);
            Assert.Equal(startIm[i], im[i], 1e-12);
        }
    }

    [Fact]
    public void Transforms_without_allocating()
    {
        var plan = new FourierPlan(960);
        double[] re = new double[960];
        double[] im = new double[960];
        plan.Forward(re, im);
        Assert.Equal(0, Allocated.Least(() =>
        {
            plan.Forward(re, im);
            plan.Inverse(re, im);
        }));
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(7, 8)]
    [InlineData(8821, 9000)]
    [InlineData(9600, 9600)]
    public void Fast_lengths_have_small_factors(int atLeast, int expected) =>
        Assert.Equal(expected, FourierPlan.FastLength(atLeast));
}
