using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>
/// Every play-along exercise against every fault that one of its criteria is there for. No outside source: the truth is what the player was told to do.
/// </summary>
public sealed class FaultTableTests
{
    private const double StartSeconds = 1.0;

    private static SimulatedTone Perfect { get; } = new();

    /// <summary>Every play-along exercise. Each is laid against every player, step, criterion and fault in one test.</summary>
    public static TheoryData<string> PlayAlong() =>
        [.. ShippedExercises.Library.Exercises.Where(exercise => !exercise.IsListening).Select(exercise => exercise.Id)];

    [Theory]
    [MemberData(nameof(PlayAlong))]
    public void What_a_criterion_is_there_for_it_tells(string id)
    {
        List<string> wrong = [];
        Dictionary<string, int> told = [];
        foreach (PlayerProfile player in ShippedExercises.Players())
        {
            ResolvedExercise whole = ShippedExercises.Resolve(id, player.Instrument, player.Voice);
            foreach (ExerciseStep step in whole.Steps)
            {
                // One step at a time: what another step tells is no answer.
                ResolvedExercise resolved = whole with { Steps = [step] };
                TakeResult perfect = Judged(resolved, Perfect, VoiceRole.Sung);
                foreach (IGrouping<(string Name, VoiceRole On), Case> cases in FaultsOf(resolved).Distinct().GroupBy(item => (item.Name, item.On)))
                {
                    string at = $"{player.Instrument} {player.Voice} {whole.Pair.Played}+{whole.Pair.Sung} {step.Id} {cases.Key.Name} of {cases.Key.On}";
                    TakeResult[] results = [.. cases.Select(item => Judged(resolved, item.Tone, item.On))];
                    bool isOctave = cases.First().Expected == Fault.WrongOctave;
                    told.TryAdd($"{step.Id} {cases.Key.Name}", isOctave ? 1 : 0);
                    if (results.Zip(cases).Any(pair => pair.First.AsAsked != true && pair.First.Next.Length > 0 && pair.First.Findings.Any(finding => IsMeant(finding, pair.Second))))
                    {
                        told[$"{step.Id} {cases.Key.Name}"]++;
                    }
                    else if (!IsBeyondTelling(resolved, perfect, cases.First(), results[0]))
                    {
                        wrong.Add($"{at}: {string.Join("; ", results[0].Findings.Select(finding => $"{finding.Verdict} {finding.Fault} {finding.Text}"))}");
                    }
                }
            }
        }

        // What fog hides from one player is told to another: no row of the table is empty.
        wrong.AddRange(told.Where(row => row.Value == 0).Select(row => $"{row.Key} is told to nobody"));
        Assert.True(wrong.Count == 0, $"{wrong.Count} wrong:\n{string.Join("\n", wrong.Take(12))}");
    }

    // A tone that left its place for a line of the other cannot be followed there: it is told by the beats, as off.
    private static bool IsMeant(Finding finding, Case wanted) => finding.Fault == wanted.Expected
        || (wanted.Expected == Fault.Late && finding is { Fault: Fault.Offset, Unit: "/s" } && finding.Role == wanted.On);

    // Fog: a criterion that cannot be told of a perfect take either, or an octave where asked and made alike lie on a line of P.
    private static bool IsBeyondTelling(ResolvedExercise resolved, TakeResult perfect, Case wanted, TakeResult result)
    {
        if (wanted.Expected != Fault.WrongOctave)
        {
            return perfect.Findings.Any(finding => finding.Criterion == wanted.Criterion && finding.Role == wanted.On && finding.Verdict == Verdict.NotTold && finding.Text.Length > 0);
        }

        (SimulatedTone played, SimulatedTone sung) = wanted.On == VoiceRole.Played ? (wanted.Tone, Perfect) : (Perfect, wanted.Tone);
        return IsFog(resolved, Perfect, Perfect) && IsFog(resolved, played, sung)
            && result.Findings.Where(finding => finding is { Criterion: "offset", Verdict: Verdict.Met } && finding.Role == wanted.On)
                .All(_ => result.Findings.Any(finding => finding is { Criterion: "octave", Verdict: Verdict.NotTold } && finding.Role == wanted.On));
    }

    private static TakeResult Judged(ResolvedExercise resolved, SimulatedTone tone, VoiceRole on) => TakeJudge.Judge(
        resolved, SimulatedPlayer.Frames(resolved, on == VoiceRole.Played ? tone : Perfect, on == VoiceRole.Sung ? tone : Perfect, StartSeconds), StartSeconds);

    private static bool IsFog(ResolvedExercise resolved, SimulatedTone played, SimulatedTone sung)
    {
        IReadOnlyList<AnalysisFrame> frames = SimulatedPlayer.Frames(resolved, played, sung, StartSeconds);
        return frames.Count(frame => frame.Separability == Separability.NotSeparable) > frames.Count / 3;
    }

    /// <summary>The fault each criterion of a step is there for, and the wrong octave wherever a pitch is judged in its own octave.</summary>
    private static IEnumerable<Case> FaultsOf(ResolvedExercise resolved)
    {
        var task = (PlayTask)resolved.Steps[0].Task;
        foreach (Criterion criterion in task.Criteria)
        {
            // A shift may fall where nothing can be told: three places.
            foreach (double share in criterion is SteadyCriterion ? new[] { 0.6, 0.8, 0.4 } : [0.6])
            {
                (SimulatedTone fault, VoiceRole on, Fault expected) = FaultFor(criterion, resolved, 0, share);
                string name = criterion.GetType().Name.Replace("Criterion", "", StringComparison.Ordinal);
                yield return new Case(name, char.ToLowerInvariant(name[0]) + name[1..], fault, on, expected);
            }
        }

        foreach (VoiceRole role in new[] { VoiceRole.Played, VoiceRole.Sung })
        {
            bool isJudged = task.Criteria.Any(criterion => criterion switch
            {
                OffsetCriterion { AnyOctave: false } offset => offset.Role == role,
                ArrivalCriterion arrival => arrival.Role == role,
                NotesCriterion => (role == VoiceRole.Played ? task.Played : task.Sung) is not null,
                _ => false,
            });
            foreach (double octave in isJudged ? new[] { -1200.0, 1200.0 } : [])
            {
                yield return new Case(octave < 0 ? "octave below" : "octave above", "offset", new() { OffsetCents = octave }, role, Fault.WrongOctave);
            }
        }
    }

    private static (SimulatedTone Fault, VoiceRole On, Fault Expected) FaultFor(Criterion criterion, ResolvedExercise resolved, int step, double share)
    {
        double start = resolved.StepStartSeconds(step);
        double middle = start + (share * resolved.Steps[step].DurationSeconds);
        VoiceRole role = TakeJudge.RoleOf(criterion) ?? VoiceRole.Sung;
        return criterion switch
        {
            OffsetCriterion => (new() { OffsetCents = 60 }, role, Fault.Offset),
            SpreadCriterion => (new() { SpreadCents = 45 }, role, Fault.Spread),
            DriftCriterion => (new() { DriftCents = -90 * resolved.TakeSeconds / resolved.Steps[step].DurationSeconds }, role, Fault.Drift),
            SteadyCriterion => (new() { FlinchCents = 60, FlinchAtSeconds = middle }, role, Fault.Flinch),
            UnbrokenCriterion => (new() { GapAtSeconds = start + 2.5 }, role, Fault.Broken),
            LandingCriterion => (new() { OffsetCents = 45 }, VoiceRole.Sung, Fault.NotLanded),
            BeatRateCriterion => (new() { OffsetCents = 25 }, VoiceRole.Sung, Fault.BeatRate),
            ArrivalCriterion => (new() { OffsetCents = 80 }, role, Fault.Offset),
            TogetherCriterion => (new() { Sounds = false }, VoiceRole.Sung, Fault.NotTogether),
            ReturnCriterion => (new() { DriftCents = 90 }, role, Fault.NotReturned),
            IntervalCriterion => (new() { OffsetCents = 60 }, VoiceRole.Sung, Fault.Interval),
            BalanceCriterion => (new() { GrowsByDb = 0 }, VoiceRole.Played, Fault.Balance),
            NotesCriterion => (new() { OffsetCents = 60 }, VoiceRole.Sung, Fault.Offset),
            _ => throw new InvalidOperationException($"No fault is known for {criterion.GetType().Name}: add one."),
        };
    }

    private sealed record Case(string Name, string Criterion, SimulatedTone Tone, VoiceRole On, Fault Expected);
}
