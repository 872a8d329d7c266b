using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using BrassVox.Publishing.Tracks;
using BrassVox.Synthesis;

namespace BrassVox.Publishing.Handouts;

/// <summary>What is to be heard of one exercise or passage: a handful of its practice tracks as Ogg Opus files.</summary>
/// <param name="Files">The files' bytes, in the order of <see cref="Heard"/>.</param>
public sealed record HandoutSound(IReadOnlyList<byte[]> Files)
{
    // The first three begin with the take; the others with its cue and count.
    internal static readonly (string Name, string Label, bool FromTake)[] Heard =
    [
        ("both", "Both tones", true), ("played", "Played tone alone", true), ("sung", "Sung tone alone", true),
        ("for-the-player", "Play along: the sung tone, with cue and count", false),
        ("for-the-singer", "Sing along: the played tone, with cue and count", false),
    ];

    private static readonly TrackOptions Options = new();

    /// <summary>Renders and packs it. Never on a sound thread.</summary>
    /// <param name="resolved">A resolved play-along exercise, at its tempo.</param>
    /// <param name="engine">An engine with stems, not yet prepared.</param>
    /// <param name="cancel">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> asked for it.</exception>
    public static HandoutSound Of(ResolvedExercise resolved, IPairEngine engine, CancellationToken cancel = default)
    {
        PracticeTracks set = PracticeTracks.Render(resolved, engine, Options, cancel);
        int takeSample = (int)Math.Round(set.TakeSeconds * set.SampleRateHz);
        List<byte[]> files = [];
        foreach ((string name, _, bool fromTake) in Heard)
        {
            cancel.ThrowIfCancellationRequested();
            PracticeTrack track = set.Tracks.Single(candidate => candidate.Name == name);
            files.Add(TrackFiles.Opus(set, track, $"{resolved.Exercise.Name}: {track.Title}", "Practice", fromTake ? takeSample : 0));
        }

        return new HandoutSound(files);
    }

    /// <summary>Equal for what sounds equal: everything that <see cref="Of"/> makes its sound of, but the engine's tones.</summary>
    /// <param name="resolved">A resolved play-along exercise, at its tempo.</param>
    /// <param name="engine">An engine, not yet prepared.</param>
    public static string KeyOf(ResolvedExercise resolved, IPairEngine engine)
    {
        ModelTake take = ModelTake.Of(resolved, engine.Parts, Options.SampleRateHz, Options.CouplingDepth, Options.Click);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{resolved.Exercise.Name}\n{take.TakeSample} {take.Length} {resolved.CountInBeats} {resolved.BeatSeconds:R}");
        foreach (PairEvent item in take.Events)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n{item.AtSample} {item.Kind} {item.Role} {item.PartIndex} {item.Value:R} {item.Seconds:R}");
            foreach ((double seconds, double octaves) in item.Path?.Points ?? [])
            {
                text.Append(CultureInfo.InvariantCulture, $" {seconds:R} {octaves:R}");
            }
        }

        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }
}
