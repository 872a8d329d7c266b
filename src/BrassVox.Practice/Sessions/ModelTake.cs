using BrassVox.Practice.Exercises;
using BrassVox.Synthesis;

namespace BrassVox.Practice.Sessions;

/// <summary>A take as it is meant to sound, from its cue to its end: what a practice track holds. Pure.</summary>
/// <remarks>In order: the first notes one after another and together, silence, the count, the take.</remarks>
public sealed class ModelTake
{
    private const double LeadSeconds = 0.15;
    private const double CueToneSeconds = 1.0;
    private const double SilenceSeconds = 1.0;
    private const double TailSeconds = 0.5;

    private readonly int _rateHz;
    private readonly ClickTrack _clicks;

    private ModelTake(int rateHz, long takeSample, long length, IReadOnlyList<PairEvent> events, IReadOnlyList<ClickBeat> beats)
    {
        _rateHz = rateHz;
        TakeSample = takeSample;
        Length = length;
        Events = events;
        _clicks = new ClickTrack(rateHz);
        _clicks.Plan([.. beats.Select(beat => takeSample + Samples(beat.Seconds, rateHz))], [.. beats.Select(beat => beat.IsFirst)]);
    }

    /// <summary>Sample at which the take begins; what sounds before it is the cue.</summary>
    public long TakeSample { get; }

    /// <summary>When the take begins, in seconds.</summary>
    public double TakeSeconds => (double)TakeSample / _rateHz;

    /// <summary>Samples from the beginning of the cue to the end of the last sound.</summary>
    public long Length { get; }

    /// <summary>What the pair does, by rising time.</summary>
    public IReadOnlyList<PairEvent> Events { get; }

    /// <summary>Plans a take.</summary>
    /// <param name="resolved">A resolved play-along exercise, at its tempo.</param>
    /// <param name="parts">Parts of the engine, see <see cref="IPairEngine.Parts"/>.</param>
    /// <param name="sampleRateHz">Rate of the engine in Hz.</param>
    /// <param name="couplingDepth">Depth of the coupling in the take, 0 to 1.</param>
    /// <param name="click">Where it clicks.</param>
    /// <exception cref="ArgumentException">The exercise is no play-along exercise.</exception>
    public static ModelTake Of(ResolvedExercise resolved, IReadOnlyList<PairPart> parts, int sampleRateHz, double couplingDepth, ClickUse click)
    {
        if (resolved.Exercise.PlayAlong is null)
        {
            throw new ArgumentException($"{resolved.Exercise.Id} is no play-along exercise.", nameof(resolved));
        }

        List<PairEvent> events = [];
        double at = LeadSeconds;
        foreach (ExerciseStep tone in CueSteps.Tones(resolved, CueToneSeconds))
        {
            events.AddRange(PairScript.Of(tone, parts, sampleRateHz, Samples(at, sampleRateHz)));
            at += tone.DurationSeconds;
        }

        int count = click == ClickUse.Off ? 0 : resolved.CountInBeats;
        long take = Samples(at + SilenceSeconds + (count * resolved.BeatSeconds), sampleRateHz);
        events.AddRange(PairScript.Model(resolved, parts, sampleRateHz, take, couplingDepth));
        IEnumerable<ClickBeat> counted = Enumerable.Range(0, count).Select(i => new ClickBeat((i - count) * resolved.BeatSeconds, i == 0));
        return new ModelTake(
            sampleRateHz, take, take + Samples(resolved.TakeSeconds + TailSeconds, sampleRateHz), events,
            [.. click == ClickUse.Throughout ? counted.Concat(resolved.Beats) : counted]);
    }

    /// <summary>Overwrites a block with the clicks that fall into it.</summary>
    /// <param name="startSample">Sample of the block's beginning.</param>
    /// <param name="output">The block.</param>
    public void RenderClicks(long startSample, Span<float> output) => _clicks.Render(startSample, output);

    private static long Samples(double seconds, int rateHz) => (long)Math.Round(seconds * rateHz);
}
