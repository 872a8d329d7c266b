namespace BrassVox.Analysis.Tracking;

/// <summary>Tells a tone from every second, third or fifth partial of it, and from a series of which only every second or third partial sounds.</summary>
/// <remarks>
/// Both account for a window nearly as well as the tone itself: the first with fewer lines, the second with lines to spare for
/// coupling lines mP+nS that happen to fall there. The limits are ours, set on one choice of recorded notes in pairs and
/// checked on others (benchmark accuracy --made --half).
/// </remarks>
internal static class TrueSeries
{
    private const int HighestPartial = 16;
    private const double FloorDb = -40.0;

    // Too low: what lies between has to stand this far under the straight line through the partials that sound, and the series
    // without it has to lose less than this share of what the tone adds. Either a deep step, or a shallow one and a small loss.
    private const double DeepStepDb = 9.0;
    private const double DeepLoss = 0.25;
    private const double ShallowStepDb = 6.0;
    private const double ShallowLoss = 0.12;
    private const int FewestBetween = 3;

    // Too high: the lower series has to gain this share of what the tone adds, beyond twice what as many lines take of noise. Of a tone
    // that adds much only half is tried: what is left of another is never that strong, but a vowel's even partials are.
    private static readonly (int Divisor, double Gain)[] OfUpper = [(2, 0.05), (3, 0.15), (4, 0.1), (5, 0.17), (7, 0.17)];
    private static readonly (int Divisor, double Gain)[] OfLower = [(2, 0.15), (3, 0.17), (5, 0.17)];
    private const double SmallestGain = 0.05;
    private const double NoiseMargin = 2.0;
    private const double LittleShare = 0.2;

    // From here on the lower series is followed; short of it the pair is only doubted.
    private const double SureGain = 1.2;

    private static readonly int[] Skips = [2, 3];

    /// <summary>The pair that should stand in place of a fitted one, or null when both its tones are tones.</summary>
    /// <param name="search">The search on the window's spectrum; its lines are those of the pair with amplitudes, the levelling taken out. They are lost.</param>
    /// <param name="lowerHz">Lower tone.</param>
    /// <param name="upperHz">Upper tone.</param>
    /// <param name="lowerAdds">Power that the lower tone adds.</param>
    /// <param name="upperAdds">Power that the upper tone adds.</param>
    /// <param name="both">Power that the pair explains.</param>
    /// <param name="bandPower">Power of the band.</param>
    /// <param name="bottomHz">Lowest tone looked for.</param>
    public static (double Lower, double Upper, bool Surely)? Instead(
        PairSearch search, double lowerHz, double upperHz, double lowerAdds, double upperAdds, double both, double bandPower, double bottomHz)
    {
        LineFit lines = search.Lines;
        Span<double> ofLower = stackalloc double[Skips.Length];
        Span<double> ofUpper = stackalloc double[Skips.Length];
        for (int i = 0; i < Skips.Length; i++)
        {
            ofLower[i] = StepDb(lines, lines.PlayedNumber, Skips[i], search.LineHz);
            ofUpper[i] = StepDb(lines, lines.SungNumber, Skips[i], search.LineHz);
        }

        double noisePerLine = search.LineShare * Math.Max(0.0, bandPower - both);
        for (int i = 0; i < Skips.Length; i++)
        {
            if (IsSparse(ofLower[i], Count(lowerHz) - Count(Skips[i] * lowerHz), Skips[i] * lowerHz, upperHz, lowerAdds))
            {
                return Sorted(Skips[i] * lowerHz, upperHz, true);
            }

            if (IsSparse(ofUpper[i], Count(upperHz) - Count(Skips[i] * upperHz), lowerHz, Skips[i] * upperHz, upperAdds))
            {
                return Sorted(lowerHz, Skips[i] * upperHz, true);
            }
        }

        double most = 1.0;
        (double, double, bool)? best = null;
        foreach ((int divisor, double least) in OfUpper)
        {
            if ((divisor == 2 || upperAdds < LittleShare * bandPower) && Gain(upperHz, lowerHz, divisor, true, upperAdds) is var gain && gain > most * least)
            {
                (most, best) = (gain / least, Sorted(lowerHz, upperHz / divisor, gain > SureGain));
            }
        }

        foreach ((int divisor, double least) in OfLower)
        {
            if (lowerAdds < LittleShare * bandPower && Gain(lowerHz, upperHz, divisor, false, lowerAdds) is var gain && gain > most * least)
            {
                (most, best) = (gain / least, Sorted(lowerHz / divisor, upperHz, gain > SureGain));
            }
        }

        return best;

        bool IsSparse(double stepDb, int fewer, double first, double second, double adds) => stepDb > ShallowStepDb
            && both - search.Explained(first, second, PairSearch.TopHz) - (fewer * noisePerLine) < adds * (stepDb > DeepStepDb ? DeepLoss : ShallowLoss);

        double Gain(double hz, double otherHz, int divisor, bool isUpper, double adds)
        {
            double under = hz / divisor;
            if (under < bottomHz)
            {
                return 0.0;
            }

            double gain = search.Explained(isUpper ? otherHz : under, isUpper ? under : otherHz, PairSearch.TopHz, amplitudes: true) - both;
            double share = (gain - (NoiseMargin * (Count(under) - Count(hz)) * noisePerLine)) / (adds + 1e-30);
            if (share < SmallestGain)
            {
                return share;
            }

            // Near a just interval the coupling's lines stand on such a series too, under the tones' own.
            lines.Restore(search.Spectrum);
            return CommonRoot.Of(lines, isUpper ? lines.SungNumber : lines.PlayedNumber, search.LineHz) is null ? share : 0.0;
        }

        static int Count(double hz) => (int)(PairSearch.TopHz / hz);

        static (double, double, bool) Sorted(double a, double b, bool surely) => a < b ? (a, b, surely) : (b, a, surely);
    }

    // How far a tone's partials that are no multiples stand under the straight line through those that are, on the average.
    private static double StepDb(LineFit lines, int[] numbers, int skip, double lineHz)
    {
        Span<double> levels = stackalloc double[HighestPartial + 1];
        levels.Fill(double.NaN);
        double most = double.NegativeInfinity;
        int count = 0;
        for (int i = 0; i < lines.Count; i++)
        {
            if (numbers[i] is > 0 and <= HighestPartial and var number)
            {
                count = Math.Max(count, number);

                // What shares its place with a line of the other tone says nothing.
                if (lines.NearestHz(i) > lineHz)
                {
                    levels[number] = 10.0 * Math.Log10((lines.Re[i] * lines.Re[i]) + (lines.Im[i] * lines.Im[i]) + 1e-30);
                    most = Math.Max(most, levels[number]);
                }
            }
        }

        double floor = most + FloorDb;
        double sum = 0.0;
        int between = 0;
        for (int k = 1; k <= count; k++)
        {
            int below = k - (k % skip);
            int above = below + skip;
            if (k % skip == 0 || above > count || double.IsNaN(levels[k]) || double.IsNaN(levels[above]))
            {
                continue;
            }

            // Under the first that sounds there is nothing to draw a line from.
            double from = below == 0 || double.IsNaN(levels[below]) ? levels[above] : levels[below];
            double share = (double)(k - below) / skip;
            sum += Math.Max(floor, from + (share * (levels[above] - from))) - Math.Max(floor, levels[k]);
            between++;
        }

        return between < FewestBetween ? 0.0 : sum / between;
    }
}
