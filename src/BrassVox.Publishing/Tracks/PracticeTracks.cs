using BrassVox.Analysis.Loudness;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;

namespace BrassVox.Publishing.Tracks;

/// <summary>The sound of an exercise or a passage apart and together, to practise with.</summary>
/// <remarks>
/// The mix is played, sung, resultants, click and cue added up sample by sample, rounded once. One gain for
/// all sets the mix to a loudness (ITU-R BS.1770-4), and no track's true peak over <see cref="HighestPeakDbtp"/>.
/// </remarks>
public sealed class PracticeTracks
{
    /// <summary>Loudness of programmes, in LUFS: EBU R 128 (from memory).</summary>
    public const double UsualLufs = -23;

    /// <summary>Highest true peak of a track, in dBTP: EBU R 128 (from memory).</summary>
    public const double HighestPeakDbtp = -1;

    private const int BlockSamples = 1024;

    // The limiter of the engine stays idle here; the gain comes afterwards, the same for all tracks.
    private const float EngineLevelDb = -24;

    private PracticeTracks(IReadOnlyList<PracticeTrack> tracks, int sampleRateHz, double takeSeconds, double lufs, double peakDbtp)
    {
        Tracks = tracks;
        SampleRateHz = sampleRateHz;
        TakeSeconds = takeSeconds;
        LoudnessLufs = lufs;
        PeakDbtp = peakDbtp;
    }

    /// <summary>The tracks in order, the mix first.</summary>
    public IReadOnlyList<PracticeTrack> Tracks { get; }

    /// <summary>Samples per second.</summary>
    public int SampleRateHz { get; }

    /// <summary>When the take begins, after cue and count, in seconds.</summary>
    public double TakeSeconds { get; }

    /// <summary>Loudness of the mix in LUFS.</summary>
    public double LoudnessLufs { get; }

    /// <summary>Highest true peak of all tracks in dBTP.</summary>
    public double PeakDbtp { get; }

    /// <summary>Length of every track in seconds.</summary>
    public double Seconds => (double)Tracks[0].Length / SampleRateHz;

    /// <summary>Renders the tracks. Never on a sound thread.</summary>
    /// <param name="resolved">A resolved play-along exercise, at its tempo.</param>
    /// <param name="engine">An engine with stems, not yet prepared.</param>
    /// <param name="options">How it sounds.</param>
    /// <param name="cancel">Ends the rendering early.</param>
    /// <exception cref="ArgumentException">The engine has no stems, or the exercise is no play-along exercise.</exception>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> asked for it.</exception>
    public static PracticeTracks Render(ResolvedExercise resolved, IPairEngine engine, TrackOptions options, CancellationToken cancel = default)
    {
        if (engine is not IPairStems stems)
        {
            throw new ArgumentException("This engine has no stems.", nameof(engine));
        }

        ModelTake take = ModelTake.Of(resolved, engine.Parts, options.SampleRateHz, options.CouplingDepth, options.Click);
        engine.LevelDb.Target = EngineLevelDb;
        engine.Prepare(new RenderFormat(options.SampleRateHz, BlockSamples));
        int length = checked((int)take.Length);
        float[] played = new float[length];
        float[] sung = new float[length];
        float[] resultants = new float[length];
        float[] click = new float[length];
        int posted = 0;
        for (int at = 0; at < length; at += BlockSamples)
        {
            cancel.ThrowIfCancellationRequested();
            while (posted < take.Events.Count && engine.TryPost(take.Events[posted]))
            {
                posted++;
            }

            int count = Math.Min(BlockSamples, length - at);
            stems.RenderStems(played.AsSpan(at, count), sung.AsSpan(at, count), resultants.AsSpan(at, count));
            take.RenderClicks(at, click.AsSpan(at, count));
        }

        // What sounds before the take is the cue, whichever tone it is.
        float[] cue = new float[length];
        for (int i = 0; i < take.TakeSample; i++)
        {
            cue[i] = played[i] + sung[i] + resultants[i];
            played[i] = sung[i] = resultants[i] = 0;
        }

        PracticeTrack[] tracks = Numbered(played, sung, resultants, click, cue);
        double toneLufs = Lufs(new PracticeTrack(0, "", "", played, sung, resultants, cue), options.SampleRateHz);
        Scale(click, Gain(toneLufs, options.ClickPeakDb));
        float[][] parts = [played, sung, resultants, click, cue];
        double gain = Math.Pow(10, (options.LoudnessLufs - Lufs(tracks[0], options.SampleRateHz)) / 20);
        Scale(parts, double.IsFinite(gain) ? gain : 0);
        double peak = tracks.Max(track => Peak(track, options.SampleRateHz));
        double ceiling = Math.Pow(10, HighestPeakDbtp / 20);
        if (peak > ceiling)
        {
            // A hair below, for the rounding to 32 bits.
            Scale(parts, 0.9999 * ceiling / peak);
            peak = tracks.Max(track => Peak(track, options.SampleRateHz));
        }

        return new PracticeTracks(tracks, options.SampleRateHz, take.TakeSeconds, Lufs(tracks[0], options.SampleRateHz), 20 * Math.Log10(peak));
    }

    private static PracticeTrack[] Numbered(float[] played, float[] sung, float[] resultants, float[] click, float[] cue) =>
    [
        new(1, "mix", "everything, with count and cue", played, sung, resultants, click, cue),
        new(2, "both", "both tones with their resultants", played, sung, resultants),
        new(3, "played", "the played tone", played),
        new(4, "sung", "the sung tone", sung),
        new(5, "resultants", "what both make together", resultants),
        new(6, "click", "the click", click),
        new(7, "cue", "the first notes", cue),
        new(8, "for-the-player", "sung tone, count and cue: play the other", sung, click, cue),
        new(9, "for-the-singer", "played tone, count and cue: sing the other", played, click, cue),
    ];

    private static void Scale(float[][] parts, double gain)
    {
        foreach (float[] part in parts)
        {
            Scale(part, gain);
        }
    }

    private static void Scale(float[] part, double gain)
    {
        for (int i = 0; i < part.Length; i++)
        {
            part[i] = (float)(gain * part[i]);
        }
    }

    // A click is planned with a peak of a quarter; laid so far from the loudness of the tones.
    private static double Gain(double toneLufs, double clickPeakDb) =>
        double.IsFinite(toneLufs) ? 4 * Math.Pow(10, (toneLufs + clickPeakDb) / 20) : 1;

    private static double Lufs(PracticeTrack track, int rateHz)
    {
        var meter = new LoudnessMeter(rateHz, 1);
        meter.Push(track.ToSamples());
        return meter.IntegratedLufs;
    }

    private static double Peak(PracticeTrack track, int rateHz)
    {
        var meter = new TruePeakMeter(rateHz);
        meter.Push(track.ToSamples());
        return meter.Peak;
    }
}
