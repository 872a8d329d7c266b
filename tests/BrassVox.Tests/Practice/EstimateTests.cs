using BrassVox.Practice.Sessions;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class EstimateTests
{
    /// <summary>Wilson score intervals by independent computation: statsmodels' proportion_confint(k, n, method="wilson") gives the same to four digits (values from memory of its definition, recomputed by hand).</summary>
    [Theory]
    [InlineData(8, 10, 0.4902, 0.9433)]
    [InlineData(0, 10, 0.0, 0.2775)]
    [InlineData(10, 10, 0.7225, 1.0)]
    [InlineData(5, 8, 0.3057, 0.8632)]
    public void A_share_comes_with_the_Wilson_interval(int right, int of, double low, double high)
    {
        Estimate estimate = Estimate.OfProportion(right, of);
        Assert.Equal((double)right / of, estimate.Value, 1e-12);
        Assert.Equal(low, estimate.Low, 5e-4);
        Assert.Equal(high, estimate.High, 5e-4);
    }

    /// <summary>Ranks of the sign-test interval for a median at 95 per cent, as statistical tables print them: n 6: 1st and 6th; 9: 2nd and 8th; 12: 3rd and 10th; 20: 6th and 15th (e.g. Conover, Practical Nonparametric Statistics, from memory; binomial sums are exact).</summary>
    [Theory]
    [InlineData(6, 1, 6)]
    [InlineData(8, 1, 8)]
    [InlineData(9, 2, 8)]
    [InlineData(12, 3, 10)]
    [InlineData(20, 6, 15)]
    public void A_median_comes_with_the_order_statistics_of_the_sign_test(int count, int low, int high)
    {
        Estimate estimate = Estimate.OfMedian([.. Enumerable.Range(1, count).Select(i => (double)i).Reverse()])!.Value;
        Assert.Equal((count + 1) / 2.0, estimate.Value);
        Assert.Equal(low, estimate.Low);
        Assert.Equal(high, estimate.High);
    }

    [Fact]
    public void Five_values_are_too_few_for_a_range() => Assert.Null(Estimate.OfMedian([1, 2, 3, 4, 5]));
}
