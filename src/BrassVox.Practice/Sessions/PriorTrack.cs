using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>What a take of several notes lets the tracker know, and when.</summary>
internal static class PriorTrack
{
    // Three windows; ours.
    private const double LeastAloneSeconds = 0.5;

    /// <summary>Priors by rising second of the take, the first for all that comes before too; empty when one prior holds for the whole take.</summary>
    public static IReadOnlyList<(double Seconds, DuetPrior Prior)> Of(ResolvedExercise resolved, DuetPrior whole)
    {
        Stretch[] played = [.. Stretches(resolved, VoiceRole.Played)];
        Stretch[] sung = [.. Stretches(resolved, VoiceRole.Sung)];
        bool hasNotes = HasSeveralNotes(played) || HasSeveralNotes(sung);
        List<(double Seconds, VoiceRole? Alone)> alone = Alone(played, sung);
        if (!hasNotes && alone.TrueForAll(item => item.Alone == whole.Alone))
        {
            return [];
        }

        List<(double, DuetPrior)> priors = [];
        foreach (double at in played.Concat(sung).Where(_ => hasNotes).Select(stretch => stretch.FromSeconds).Concat(alone.Select(item => item.Seconds)).Distinct().Order())
        {
            DuetPrior prior = whole with { Alone = alone.Last(item => item.Seconds <= at).Alone };
            if (hasNotes && At(played, at) is { } p)
            {
                prior = prior with { PlayedHz = p.FromHz, PlayedMoves = p.Moves, PlayedLowestHz = p.LowestHz, PlayedHighestHz = p.HighestHz };
            }

            if (hasNotes && At(sung, at) is { } s)
            {
                bool free = whole.SungMoves && IsAnyOctave(resolved);
                prior = free ? prior : prior with { SungHz = s.FromHz, SungMoves = s.Moves, SungLowestHz = s.LowestHz, SungHighestHz = s.HighestHz };
            }

            if (priors.Count == 0 || priors[^1].Item2 != prior)
            {
                priors.Add((at, prior));
            }
        }

        return priors;
    }

    // From when on one tone alone is asked for, and which; the first of them holds before too. A silence is what was before it.
    private static List<(double Seconds, VoiceRole? Alone)> Alone(Stretch[] played, Stretch[] sung)
    {
        double[] changes = [.. played.Concat(sung).SelectMany(stretch => new[] { stretch.FromSeconds, stretch.ToSeconds }).Distinct().Order()];
        List<(double Seconds, VoiceRole? Alone)> alone = [];
        for (int i = 0; i + 1 < changes.Length; i++)
        {
            double middle = 0.5 * (changes[i] + changes[i + 1]);
            (bool isPlayed, bool isSung) = (played.Any(stretch => stretch.Holds(middle)), sung.Any(stretch => stretch.Holds(middle)));
            VoiceRole? now = isPlayed == isSung ? null : isPlayed ? VoiceRole.Played : VoiceRole.Sung;
            if ((isPlayed || isSung) && (alone.Count == 0 || alone[^1].Alone != now))
            {
                alone.Add((alone.Count == 0 ? double.NegativeInfinity : changes[i], now));
            }
        }

        // A moment in which one tone has already begun, or not yet left, is no stretch of its own.
        for (int i = alone.Count - 1; i > 0; i--)
        {
            double ends = i + 1 < alone.Count ? alone[i + 1].Seconds : double.PositiveInfinity;
            if (alone[i].Alone is not null && ends - alone[i].Seconds < LeastAloneSeconds)
            {
                alone[i] = alone[i] with { Alone = null };
            }
        }

        return alone.Count == 0 ? [(double.NegativeInfinity, null)] : alone;
    }

    private static bool IsAnyOctave(ResolvedExercise resolved) => resolved.Steps
        .SelectMany(step => ((PlayTask)step.Task).Criteria)
        .Any(criterion => criterion is Judging.OffsetCriterion { AnyOctave: true, Role: VoiceRole.Sung });

    // A crossing or a slide is one movement: what its tone may be is known for the whole of it, not note by note.
    private static bool HasSeveralNotes(Stretch[] stretches) =>
        stretches.All(stretch => !stretch.Moves) && stretches.Select(stretch => Math.Round(stretch.FromHz, 3)).Distinct().Skip(1).Any();

    private static IEnumerable<Stretch> Stretches(ResolvedExercise resolved, VoiceRole role)
    {
        for (int i = 0; i < resolved.Steps.Count; i++)
        {
            var task = (PlayTask)resolved.Steps[i].Task;
            double at = resolved.StepStartSeconds(i);
            foreach (AskedSegment segment in ((role == VoiceRole.Played ? task.Played : task.Sung)?.Segments ?? []).Where(segment => segment.Move != Move.Rest))
            {
                double low = Math.Min(segment.FromHz, segment.ToHz);
                double high = Math.Max(segment.FromHz, segment.ToHz);
                yield return new Stretch(
                    at + segment.FromSeconds, at + segment.ToSeconds, segment.FromHz, high > low * (1 + 1e-9),
                    Cents.Above(low, -TakeAnalysis.BeyondCents), Cents.Above(high, TakeAnalysis.BeyondCents));
            }
        }
    }

    // In a silence the tone is where it was last asked for; before all, where it will be.
    private static Stretch? At(Stretch[] stretches, double seconds) =>
        stretches.LastOrDefault(stretch => stretch.FromSeconds <= seconds + 1e-9) ?? (stretches.Length == 0 ? null : stretches[0]);

    private sealed record Stretch(double FromSeconds, double ToSeconds, double FromHz, bool Moves, double LowestHz, double HighestHz)
    {
        public bool Holds(double seconds) => seconds >= FromSeconds && seconds < ToSeconds;
    }
}
