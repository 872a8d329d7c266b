using BrassVox.Audio.Wav;
using BrassVox.Synthesis;

namespace BrassVox.Publishing;

/// <summary>Writes any source of sound to a WAV file.</summary>
public static class SoundTrack
{
    private const int BlockSamples = 1024;

    /// <summary>Renders a source from its first sample into a file. Blocks on the disk; never on a sound thread.</summary>
    /// <param name="source">The source; it is prepared and rendered here.</param>
    /// <param name="seconds">Length in seconds, &gt; 0 and at most 4 hours.</param>
    /// <param name="path">Where it goes.</param>
    /// <param name="options">Rate and encoding; one channel.</param>
    /// <returns>The file as it was finished, or the failure that kept it from being begun.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="seconds"/> is out of range.</exception>
    public static TracksWritten Write(ISoundSource source, double seconds, string path, WavWriteOptions options)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(seconds);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(seconds, 4 * 3600.0);
        if (!WavWriter.TryCreate(path, options, out WavWriter? writer, out WavWriteFailure? failure))
        {
            return new TracksWritten([], failure);
        }

        using (writer)
        {
            source.Prepare(new RenderFormat(options.SampleRateHz, BlockSamples));
            float[] block = new float[BlockSamples];
            long length = (long)Math.Round(seconds * options.SampleRateHz);
            for (long at = 0; at < length; at += BlockSamples)
            {
                Span<float> part = block.AsSpan(0, (int)Math.Min(BlockSamples, length - at));
                source.Render(part);
                writer.Write(part);
            }

            WavWritten written = writer.Finish();
            return new TracksWritten([written], written.Failure);
        }
    }
}
