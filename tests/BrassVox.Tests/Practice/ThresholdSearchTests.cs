using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Simulated listeners of known threshold. Truth is what they were given; the curve they answer by is the usual logistic one.</summary>
public sealed class ThresholdSearchTests
{
    private const int Runs = 200;

    // 10 per cent in amplitude.
    private const double MostBiasDb = 0.83;

    public static TheoryData<string, double, double> Listeners()
    {
        TheoryData<string, double, double> data = [];
        foreach (Exercise exercise in ShippedExercises.Library.Exercises.Where(exercise => ThresholdScale.Of(exercise.Listening) is not null))
        {
            foreach (double place in new[] { 0.3, 0.5, 0.7 })
            {
                data.Add(exercise.Id, place, 1.5);
                data.Add(exercise.Id, place, 2.5);
            }
        }

        return data;
    }

    [Fact]
    public void Some_exercises_have_a_threshold() =>
        Assert.Equal(["find-the-added-tone", "separate-or-coupled"], Listeners().Select(row => row.Data.Item1).Distinct().Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Listeners))]
    public void Over_two_hundred_listeners_the_bias_is_under_ten_per_cent(string id, double place, double slopeDb)
    {
        ListeningPlan plan = ShippedExercises.Find(id).Listening!;
        ThresholdScale scale = ThresholdScale.Of(plan)!;
        double guess = 1.0 / ((ChoiceAnswer)plan.Answer).Options.Count;
        double truth = scale.LowestDb + (place * (scale.HighestDb - scale.LowestDb));
        const int seed = 17;
        Random random = new(seed);
        double[] errors = new double[Runs];
        int covered = 0;
        for (int run = 0; run < Runs; run++)
        {
            ThresholdSearch search = new(guess, scale.LowestDb, scale.HighestDb);
            for (int trial = 0; trial < ThresholdSearch.TrialsNeeded; trial++)
            {
                double level = search.NextDb;
                search.Add(level, random.NextDouble() < RightShare(level, truth, guess, slopeDb));
            }

            Estimate found = search.Threshold!.Value;
            errors[run] = found.Value - truth;
            covered += found.Low <= truth && found.High >= truth ? 1 : 0;
        }

        double bias = errors.Average();
        Assert.True(Math.Abs(bias) < MostBiasDb, $"seed {seed}: bias {bias:F2} dB");
        double ninth = errors.Select(Math.Abs).Order().ElementAt((9 * Runs / 10) - 1);
        Assert.True(ninth < (slopeDb > 2 ? 5 : 3.5), $"seed {seed}: nine in ten lie within {ninth:F2} dB");
        Assert.True(covered > 0.8 * Runs, $"seed {seed}: {covered} of {Runs} ranges hold the truth");
    }

    [Fact]
    public void A_session_goes_on_from_answer_to_answer_and_ends_with_a_threshold()
    {
        var offline = new OfflineEngine();
        var session = new ListeningSession(ShippedExercises.Resolve("separate-or-coupled"), offline.Engine, OfflineEngine.SampleRateHz, 5, findsThreshold: true);
        Assert.Equal(ThresholdSearch.TrialsNeeded, session.TrialCount);
        List<double> depths = [];
        for (int trial = 1; trial <= session.TrialCount; trial++)
        {
            session.Next();
            depths.Add(session.Trial.Difficulty!.Value);

            // Tells a depth of 0.2 and more, and is wrong below.
            int correct = session.Trial.CorrectOption!.Value;
            session.Answer(session.Trial.Difficulty >= 0.2 ? correct : 1 - correct);
        }

        session.Next();
        Assert.Equal(ListeningPhase.Finished, session.Phase);
        Assert.Equal(20 * Math.Log10(0.2), session.Result.ThresholdDb!.Value.Value, 2.0);
        Assert.Contains("Your threshold for coupling is 0.", session.Result.Says, StringComparison.Ordinal);
        Assert.True(depths.Distinct().Count() > 5);
    }

    [Fact]
    public void An_exercise_without_a_threshold_refuses_to_look_for_one() => Assert.Throws<ArgumentException>(() =>
        new ListeningSession(ShippedExercises.Resolve("count-the-beats"), new OfflineEngine().Engine, OfflineEngine.SampleRateHz, 1, findsThreshold: true));

    // The listener: guesses far below the threshold, errs once in fifty far above it, tells half of the rest at it.
    private static double RightShare(double levelDb, double thresholdDb, double guessShare, double slopeDb)
    {
        double told = 1 / (1 + Math.Exp((thresholdDb - levelDb) / slopeDb));
        return (told * 0.98) + ((1 - told) * guessShare);
    }
}
