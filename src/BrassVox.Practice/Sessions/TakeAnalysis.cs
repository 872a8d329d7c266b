using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>From the sound of a take to its frames. The same for a microphone and a file.</summary>
public static class TakeAnalysis
{
    // A moving tone is looked for this far beyond the notes it is asked to visit: a player may miss by a tone and a half.
    internal const double BeyondCents = 300;

    // A high voice sings the difference tone of a low pair two octaves up.
    private const double AnyOctaveCents = 2400;
    private const double BlockSeconds = 0.01;
    private const double StartAbovePeakDb = -30;
    private const double QuietestStartDbfs = -55;

    /// <summary>What the exercise says of both tones before anyone listens.</summary>
    /// <param name="resolved">A resolved play-along exercise.</param>
    public static DuetPrior PriorOf(ResolvedExercise resolved)
    {
        (double playedHz, bool playedMoves, double playedLow, double playedHigh) = Range(resolved, VoiceRole.Played, resolved.Pair.PlayedHz);
        (double sungHz, bool sungMoves, double sungLow, double sungHigh) = Range(resolved, VoiceRole.Sung, resolved.Pair.SungHz);
        bool hasPlayed = resolved.Steps.Any(step => ((PlayTask)step.Task).Played is not null);
        bool hasSung = resolved.Steps.Any(step => ((PlayTask)step.Task).Sung is not null);
        VoiceRole? alone = hasPlayed == hasSung ? null : hasPlayed ? VoiceRole.Played : VoiceRole.Sung;
        return new DuetPrior(playedHz, sungHz, playedMoves, sungMoves, playedLow, playedHigh, sungLow, sungHigh, alone);
    }

    /// <summary>Measures a whole take.</summary>
    /// <param name="resolved">A resolved play-along exercise.</param>
    /// <param name="mono">Samples, full scale 1.</param>
    /// <param name="sampleRateHz">Their rate in Hz.</param>
    /// <param name="factory">Makes the tracker.</param>
    /// <param name="startSeconds">Where in the samples the take begins, in seconds.</param>
    /// <param name="search">Where the tones are looked for, in steps of both.</param>
    /// <returns>Frames in order of time on the samples' clock.</returns>
    /// <remarks>Where a take has several notes the tracker is told each of them when its time comes; a glide is told with its whole range.</remarks>
    public static IReadOnlyList<AnalysisFrame> Frames(
        ResolvedExercise resolved, ReadOnlySpan<float> mono, int sampleRateHz, TrackerFactory factory, double startSeconds, NoteSearch search = NoteSearch.AsAsked)
    {
        List<AnalysisFrame> frames = [];
        DuetPrior whole = PriorOf(resolved);
        IReadOnlyList<(double Seconds, DuetPrior Prior)> told = PriorTrack.Of(resolved, whole);
        if (search != NoteSearch.AsAsked)
        {
            whole = Wider(whole, search);
            told = [.. told.Select(item => (item.Seconds, Wider(item.Prior, search)))];
        }

        IDuetTracker tracker = factory(sampleRateHz, told.Count == 0 ? whole : told[0].Prior);
        int pushed = 0;
        for (int i = 1; i < told.Count; i++)
        {
            // The windows from this one on lie more than half behind the change.
            int end = (int)Math.Clamp(((startSeconds + told[i].Seconds) * sampleRateHz) + (0.5 * tracker.WindowSamples), pushed, mono.Length);
            tracker.Push(mono[pushed..end], frames);
            tracker.SetPrior(told[i].Prior);
            pushed = end;
        }

        tracker.Push(mono[pushed..], frames);
        return frames;
    }

    /// <summary>Where sound begins in a recording, in seconds: the first 10 ms that are within 30 dB of the loudest and over -55 dBFS; 0 when there are none.</summary>
    /// <param name="mono">Samples, full scale 1.</param>
    /// <param name="sampleRateHz">Their rate in Hz.</param>
    public static double FindStartSeconds(ReadOnlySpan<float> mono, int sampleRateHz)
    {
        int block = Math.Max(1, (int)(BlockSeconds * sampleRateHz));
        double[] levels = new double[mono.Length / block];
        for (int i = 0; i < levels.Length; i++)
        {
            double power = 0;
            foreach (float sample in mono.Slice(i * block, block))
            {
                power += float.IsFinite(sample) ? (double)sample * sample : 0;
            }

            levels[i] = 10 * Math.Log10((power / block) + 1e-20);
        }

        double threshold = levels.Length == 0 ? 0 : Math.Max(QuietestStartDbfs, levels.Max() + StartAbovePeakDb);
        int first = Array.FindIndex(levels, level => level >= threshold);
        return first < 0 ? 0 : first * BlockSeconds;
    }

    // In a step of one tone that is found in all octaves anyway.
    private static DuetPrior Wider(DuetPrior prior, NoteSearch search) => prior is not { PlayedHz: not null, SungHz: not null, Alone: null } ? prior : search switch
    {
        NoteSearch.AnyVoice => prior with { SungHz = null, SungMoves = false, SungLowestHz = DuetPrior.Free.SungLowestHz, SungHighestHz = DuetPrior.Free.SungHighestHz },
        NoteSearch.AnyLips => prior with { PlayedHz = null, PlayedMoves = false, PlayedLowestHz = DuetPrior.Free.PlayedLowestHz, PlayedHighestHz = DuetPrior.Free.PlayedHighestHz },
        NoteSearch.AnyPair => DuetPrior.Free,
        _ => prior with
        {
            SungMoves = true,
            SungLowestHz = Cents.Above(prior.SungLowestHz, -1200),
            SungHighestHz = Cents.Above(prior.SungHighestHz, 1200),
        },
    };

    private static (double Hz, bool Moves, double LowestHz, double HighestHz) Range(ResolvedExercise resolved, VoiceRole role, double pairHz)
    {
        AskedPart[] parts = [.. resolved.Steps
            .Select(step => (PlayTask)step.Task)
            .Select(task => role == VoiceRole.Played ? task.Played : task.Sung)
            .OfType<AskedPart>()];
        double[] visited = [.. parts
            .SelectMany(part => part.Segments)
            .Where(segment => segment.Move != Move.Rest)
            .SelectMany(segment => new[] { segment.FromHz, segment.ToHz })];
        if (visited.Length == 0)
        {
            return (pairHz, false, Cents.Above(pairHz, -BeyondCents), Cents.Above(pairHz, BeyondCents));
        }

        // Where any octave will do, two octaves to each side are looked through too.
        if (resolved.Steps.SelectMany(step => ((PlayTask)step.Task).Criteria).Any(criterion => criterion is Judging.OffsetCriterion { AnyOctave: true } any && any.Role == role))
        {
            return (visited[0], true, Cents.Above(visited.Min(), -AnyOctaveCents - BeyondCents), Cents.Above(visited.Max(), AnyOctaveCents + BeyondCents));
        }

        bool moves = visited.Max() > visited.Min() * (1 + 1e-9);
        return (visited[0], moves, Cents.Above(visited.Min(), -BeyondCents), Cents.Above(visited.Max(), BeyondCents));
    }
}
