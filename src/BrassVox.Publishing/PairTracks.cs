using BrassVox.Audio.Wav;
using BrassVox.Synthesis;

namespace BrassVox.Publishing;

/// <summary>Writes what a pair sounds to WAV files: the mix, and if asked its three stems, which add up to the mix sample by sample.</summary>
public static class PairTracks
{
    private const int BlockSamples = 1024;

    /// <summary>Renders a pair from its first sample into files. Blocks on the disk; never on a sound thread.</summary>
    /// <param name="pair">The engine, its parameters set; it is prepared and rendered here.</param>
    /// <param name="score">What happens, by rising <see cref="PairEvent.AtSample"/>.</param>
    /// <param name="seconds">Length in seconds, &gt; 0 and at most 4 hours.</param>
    /// <param name="path">Where the mix goes. Stems lie beside it: NAME-played.wav, NAME-sung.wav, NAME-resultants.wav.</param>
    /// <param name="options">Rate and encoding; one channel.</param>
    /// <param name="withStems">True to write the stems too.</param>
    /// <param name="cancel">Ends the writing early: what was begun is deleted, what had the names before is kept.</param>
    /// <returns>The files as they were finished, the mix first; or the one failure that kept a file from being begun.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="seconds"/> is out of range.</exception>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> asked for it.</exception>
    /// <exception cref="ArgumentException">Stems are asked of an engine that does not implement <see cref="IPairStems"/>.</exception>
    public static TracksWritten Write(
        IPairEngine pair, IReadOnlyList<PairEvent> score, double seconds, string path, WavWriteOptions options, bool withStems, CancellationToken cancel = default)
    {
        if (withStems && pair is not IPairStems)
        {
            throw new ArgumentException("This engine has no stems.", nameof(pair));
        }

        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seconds);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(seconds, 4 * 3600.0);

        List<WavWriter> writers = [];
        try
        {
            foreach (string file in withStems ? [path, .. StemPaths(path)] : new[] { path })
            {
                if (!WavWriter.TryCreate(file, options, out WavWriter? writer, out WavWriteFailure? failure))
                {
                    return new TracksWritten([], failure);
                }

                writers.Add(writer);
            }

            pair.Prepare(new RenderFormat(options.SampleRateHz, BlockSamples));
            Render(pair, score, (long)Math.Round(seconds * options.SampleRateHz), writers, cancel);
            WavWritten[] written = [.. writers.Select(writer => writer.Finish())];
            return new TracksWritten(written, written.FirstOrDefault(file => file.Failure is not null)?.Failure);
        }
        finally
        {
            writers.ForEach(writer => writer.Dispose());
        }
    }

    /// <summary>Where the stems of a mix lie: played, sung, resultants.</summary>
    /// <param name="path">Path of the mix.</param>
    public static IReadOnlyList<string> StemPaths(string path)
    {
        string start = Path.Combine(Path.GetDirectoryName(path) ?? string.Empty, Path.GetFileNameWithoutExtension(path));
        string end = Path.GetExtension(path);
        return [$"{start}-played{end}", $"{start}-sung{end}", $"{start}-resultants{end}"];
    }

    private static void Render(IPairEngine pair, IReadOnlyList<PairEvent> score, long length, List<WavWriter> writers, CancellationToken cancel)
    {
        float[][] stems = [new float[BlockSamples], new float[BlockSamples], new float[BlockSamples]];
        float[] mix = new float[BlockSamples];
        int posted = 0;
        for (long at = 0; at < length; at += BlockSamples)
        {
            cancel.ThrowIfCancellationRequested();
            while (posted < score.Count && pair.TryPost(score[posted]))
            {
                posted++;
            }

            int count = (int)Math.Min(BlockSamples, length - at);
            if (writers.Count == 1)
            {
                pair.Render(mix.AsSpan(0, count));
            }
            else
            {
                ((IPairStems)pair).RenderStems(stems[0].AsSpan(0, count), stems[1].AsSpan(0, count), stems[2].AsSpan(0, count));
                for (int i = 0; i < count; i++)
                {
                    mix[i] = stems[0][i] + stems[1][i] + stems[2][i];
                }
            }

            writers[0].Write(mix.AsSpan(0, count));
            for (int i = 1; i < writers.Count; i++)
            {
                writers[i].Write(stems[i - 1].AsSpan(0, count));
            }
        }
    }
}
