namespace BrassVox.Audio.Wav;

/// <summary>Finishes the takes that a crash or a power cut left behind as NAME.wav.part.</summary>
public static class UnfinishedTakes
{
    /// <summary>
    /// Gives every unfinished take in a folder its true length and its name. A take that another instance of the program
    /// is writing is left alone, as is every file that <see cref="WavWriter"/> did not begin. Blocks on the disk.
    /// </summary>
    /// <param name="folder">The folder; one that is not there holds no takes.</param>
    /// <returns>The takes that were finished.</returns>
    public static IReadOnlyList<WavWritten> Finish(string folder)
    {
        var finished = new List<WavWritten>();
        try
        {
            if (!Directory.Exists(folder))
                return finished;
            foreach (string part in Directory.GetFiles(folder, "*.wav" + WavWriter.PartSuffix).Order(StringComparer.Ordinal))
            {
                if (TryFinish(part) is { } take)
                    finished.Add(take);
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // A folder that cannot be read now can be read at the next start.
        }

        return finished;
    }

    private static WavWritten? TryFinish(string part)
    {
        try
        {
            if (!WavBlockReader.TryOpen(part, out WavBlockReader? reader, out _))
                return null;
            reader.Dispose();
            WavLayout layout = reader.Layout;
            if (Header(reader) is not { } header)
                return null;
            // Refused while another instance writes it.
            using var file = new FileStream(part, FileMode.Open, FileAccess.ReadWrite, FileShare.None, 1);
            long samples = (file.Length - header.Length) / layout.BlockBytes;
            file.SetLength(header.Length + samples * layout.BlockBytes);
            if (samples * layout.BlockBytes % 2 == 1)
            {
                file.Position = file.Length;
                file.WriteByte(0);
            }

            file.Position = 0;
            file.Write(header.Lay(samples * layout.BlockBytes));
            file.Flush(flushToDisk: true);
            file.Dispose();
            string path = FreeName(part[..^WavWriter.PartSuffix.Length]);
            File.Move(part, path);
            return new WavWritten(path, samples, layout.SampleRateHz, 0, 0, null);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    // The header that the writer would have laid out; null when the file is not one of its takes.
    private static WavHeaderWriter? Header(WavBlockReader reader)
    {
        WavLayout layout = reader.Layout;
        WavEncoding? encoding = (layout.IsFloat, layout.BytesPerSample) switch
        {
            (true, 4) => WavEncoding.Floating32,
            (false, 3) => WavEncoding.Pcm24,
            (false, 2) => WavEncoding.Pcm16,
            _ => null,
        };
        if (encoding is not { } known)
            return null;
        var options = new WavWriteOptions(layout.SampleRateHz, layout.Channels, known, IsTake: true);
        var header = new WavHeaderWriter(options, layout.BytesPerSample);
        return header.Length == reader.FirstByte ? header : null;
    }

    private static string FreeName(string path)
    {
        string stem = path[..^".wav".Length];
        for (int number = 2; File.Exists(path); number++)
            path = $"{stem} ({number}).wav";
        return path;
    }
}
