namespace BrassVox.Audio.Wav;

/// <summary>Reads WAV files whole. Memory use follows the bytes that are there, never a length field.</summary>
public static class WavReader
{
    private const int BlockSamples = 16384;

    /// <summary>Reads a file.</summary>
    /// <param name="path">Its path.</param>
    /// <returns>The sound, or the failure. Never throws for what a file or a disk may do. Any thread but a sound thread.</returns>
    public static WavReading Read(string path) =>
        WavBlockReader.TryOpen(path, out WavBlockReader? wav, out WavFailure? failure) ? ReadWhole(wav, path) : failure;

    /// <summary>Reads a stream to its end, or to the end of the sound in it.</summary>
    /// <param name="stream">The stream, which need not be able to seek; disposed here.</param>
    /// <param name="name">What to call it in messages.</param>
    /// <returns>The sound, or the failure.</returns>
    public static WavReading Read(Stream stream, string name) =>
        WavBlockReader.TryOpen(stream, name, out WavBlockReader? wav, out WavFailure? failure) ? ReadWhole(wav, name) : failure;

    private static WavReading ReadWhole(WavBlockReader wav, string name)
    {
        try
        {
            return ReadAll(wav, name);
        }
        catch (OutOfMemoryException)
        {
            return TooLong(name);
        }
    }

    private static WavReading ReadAll(WavBlockReader wav, string name)
    {
        using (wav)
        {
            // Only a file's true length is trusted; a pipe's stated one may be anything.
            long expected = wav.IsSeekable ? wav.SamplesLeft ?? BlockSamples : BlockSamples;
            if (expected > Array.MaxLength)
                return TooLong(name);
            int room = (int)expected;
            int count = wav.Layout.Channels;
            float[][] channels = [.. Enumerable.Range(0, count).Select(_ => new float[room])];
            float[] block = new float[BlockSamples * count];
            int filled = 0;
            for (int got = wav.Read(block); got > 0; got = wav.Read(block))
            {
                if (filled + (long)got > Array.MaxLength)
                    return TooLong(name);
                if (filled + got > room)
                {
                    room = (int)Math.Min(Array.MaxLength, Math.Max(2L * room, filled + got));
                    Resize(channels, room);
                }

                for (int channel = 0; channel < count; channel++)
                {
                    for (int i = 0; i < got; i++)
                        channels[channel][filled + i] = block[i * count + channel];
                }

                filled += got;
            }

            if (filled == 0)
                return new WavFailure(WavFailureKind.CutOff, $"{name} is cut off: no sound data. Copy or record it again.");
            if (room != filled)
                Resize(channels, filled);
            return new WavSound(wav.Layout, channels, wav.NonFiniteSamples, [.. wav.Notes]);
        }
    }

    private static void Resize(float[][] channels, int length)
    {
        for (int i = 0; i < channels.Length; i++)
            Array.Resize(ref channels[i], length);
    }

    private static WavFailure TooLong(string name) =>
        new(WavFailureKind.Unsupported, $"{name} is too long to be read whole. Cut it into parts.");
}
