using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>Where a pair would stand still, and how far it is from there.</summary>
/// <param name="Played">Number of P's partial, from 1.</param>
/// <param name="Sung">Number of S's partial, from 1.</param>
/// <param name="RateHz">Beats per second now.</param>
/// <param name="SungCents">Cents that S has to move to stand still: negative is down.</param>
internal readonly record struct NearestStill(int Played, int Sung, double RateHz, double SungCents)
{
    private const int HighestHarmonic = 8;

    /// <summary>The nearest of all: the pair of low harmonics that the smallest move of S brings together.</summary>
    /// <param name="playedHz">P in Hz, &gt; 0.</param>
    /// <param name="sungHz">S in Hz, &gt; 0.</param>
    public static NearestStill Of(double playedHz, double sungHz)
    {
        NearestStill best = default;
        double least = double.PositiveInfinity;
        for (int sum = 2; sum <= 2 * HighestHarmonic; sum++)
        {
            for (int played = 1; played < sum; played++)
            {
                int sung = sum - played;
                double cents = Cents.Between(sung * sungHz, played * playedHz);
                if (played <= HighestHarmonic && sung <= HighestHarmonic && Math.Abs(cents) < least - 1e-6)
                {
                    least = Math.Abs(cents);
                    best = new NearestStill(played, sung, Math.Abs((played * playedHz) - (sung * sungHz)), cents);
                }
            }
        }

        return best;
    }

    /// <summary>In words: 8 c down; or here, when it is under half a cent.</summary>
    public string Way() => Math.Abs(SungCents) < 0.5
        ? "here"
        : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Math.Abs(SungCents):0} c {(SungCents < 0 ? "down" : "up")}");
}
