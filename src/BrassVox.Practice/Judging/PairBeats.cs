using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>
/// How fast a pair beat, seen two ways: what the two tones would beat if each stood still at its centre, which agrees with their offsets,
/// and where the beats lay as both moved. A tone that wanders about the right place has slow beats at its centre and fast ones on its way. Pure.
/// </summary>
public static class PairBeats
{
    private const double LowShare = 0.1;
    private const double HighShare = 0.9;
    private const int LeastRates = 10;
    private const int HighestHarmonic = 8;

    // Of the lowest pair of P's note, so that a fifth in equal temperament still counts as one: ours.
    private const double NeighboursWithin = 0.04;

    /// <summary>Beats per second of the two centres, where each tone is asked for on one note throughout; null where one moves, lay in fog or was not told.</summary>
    /// <param name="exercise">What was asked.</param>
    /// <param name="result">What the take came to.</param>
    /// <remarks>|k P - m S| of the lowest harmonics that nearly meet as asked (exact), with P and S as asked and moved by their offsets.</remarks>
    public static double? OfCentres(ResolvedExercise exercise, TakeResult result)
    {
        if (result is not { Played.OffsetCents: { } playedCents, Sung.OffsetCents: { } sungCents }
            || HeldHz(exercise, task => task.Played) is not { } playedHz || HeldHz(exercise, task => task.Sung) is not { } sungHz)
        {
            return null;
        }

        BeatingPair? asked = BeatingPairs.Of(playedHz, sungHz, HighestHarmonic, NeighboursWithin * playedHz).Cast<BeatingPair?>().MinBy(pair => pair!.Value.PlayedHarmonic + pair.Value.SungHarmonic);
        return asked is { } pair
            ? Math.Abs((pair.PlayedHarmonic * Cents.Above(playedHz, playedCents)) - (pair.SungHarmonic * Cents.Above(sungHz, sungCents)))
            : null;
    }

    /// <summary>Between which rates the beats lay for the middle eight tenths of the frames that tell them, in beats per second; null for fewer than ten of those.</summary>
    /// <param name="frames">The take's frames.</param>
    /// <param name="fromSeconds">Where the take begins on their clock.</param>
    /// <param name="toSeconds">Where it ends.</param>
    public static (double Low, double High)? Course(IEnumerable<AnalysisFrame> frames, double fromSeconds, double toSeconds)
    {
        double[] rates = [.. frames
            .Where(frame => frame.CentreSeconds >= fromSeconds && frame.CentreSeconds <= toSeconds)
            .Select(frame => frame.BeatRateHz).OfType<double>().Where(double.IsFinite).Order()];
        return rates.Length < LeastRates ? null : (rates[(int)(LowShare * (rates.Length - 1))], rates[(int)(HighShare * (rates.Length - 1))]);
    }

    private static double? HeldHz(ResolvedExercise exercise, Func<PlayTask, AskedPart?> part)
    {
        double[] hz = [.. exercise.Steps.Select(step => step.Task).OfType<PlayTask>().Select(part).OfType<AskedPart>()
            .SelectMany(asked => asked.Segments).Where(segment => segment.Move != Move.Rest)
            .SelectMany(segment => new[] { segment.FromHz, segment.ToHz }).Distinct().Take(2)];
        return hz.Length == 1 ? hz[0] : null;
    }
}
