using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Sessions;

/// <summary>A listening exercise's difficulty as a level in dB, where one of its kinds has a threshold.</summary>
/// <param name="LowestDb">Hardest value, in dB.</param>
/// <param name="HighestDb">Easiest value, in dB.</param>
/// <param name="IsDepth">True for a depth of coupling, taken in dB of 1.</param>
public sealed record ThresholdScale(double LowestDb, double HighestDb, bool IsDepth)
{
    // So much harder than the hardest written value a search may go.
    private const double BeyondDb = 12;

    /// <summary>The scale of an exercise; null when it has no threshold to find: nothing varies, or the answer is no choice.</summary>
    /// <param name="plan">The listening plan.</param>
    public static ThresholdScale? Of(ListeningPlan? plan)
    {
        if (plan is not { Answer: ChoiceAnswer, Difficulty: { EitherSign: false } difficulty })
        {
            return null;
        }

        double[] values = [.. difficulty.Values];
        return difficulty.Sets switch
        {
            DifficultySetting.ResultantGainDb => new ThresholdScale(values.Min() - BeyondDb, values.Max(), false),
            DifficultySetting.CouplingDepth when values.All(value => value > 0) => new ThresholdScale(InDb(values.Min()) - BeyondDb, InDb(values.Max()), true),
            _ => null,
        };
    }

    /// <summary>The exercise's own value at a level.</summary>
    /// <param name="levelDb">Level in dB.</param>
    public double ValueAt(double levelDb) => IsDepth ? Math.Pow(10, levelDb / 20) : levelDb;

    private static double InDb(double depth) => 20 * Math.Log10(depth);
}
