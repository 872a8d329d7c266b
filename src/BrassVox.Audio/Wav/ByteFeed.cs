namespace BrassVox.Audio.Wav;

/// <summary>Reads a stream forwards only, so that pipes work too, and never more than is there.</summary>
internal sealed class ByteFeed(Stream stream)
{
    private readonly byte[] _scratch = new byte[4096];
    private byte[] _ahead = [];

    /// <summary>Bytes that were shown and not yet read.</summary>
    internal int AheadBytes => _ahead.Length;

    /// <summary>Reads until the target is full or the stream ends.</summary>
    /// <param name="target">Where to put the bytes.</param>
    /// <returns>Bytes read.</returns>
    internal int Read(Span<byte> target)
    {
        int got = Math.Min(_ahead.Length, target.Length);
        _ahead.AsSpan(0, got).CopyTo(target);
        _ahead = _ahead[got..];
        return got + stream.ReadAtLeast(target[got..], target.Length - got, throwOnEndOfStream: false);
    }

    /// <summary>Shows bytes that the next read will give once more.</summary>
    /// <param name="target">Where to put the bytes.</param>
    /// <returns>Bytes shown.</returns>
    internal int Peek(Span<byte> target)
    {
        int got = Read(target);
        _ahead = [.. target[..got], .. _ahead];
        return got;
    }

    /// <summary>Skips bytes.</summary>
    /// <param name="count">How many, at least 0.</param>
    /// <returns>False when the stream ended first.</returns>
    internal bool Skip(long count)
    {
        int held = (int)Math.Min(_ahead.Length, count);
        _ahead = _ahead[held..];
        count -= held;
        if (stream.CanSeek && count > 0)
        {
            long there = Math.Max(0, stream.Length - stream.Position);
            stream.Position += Math.Min(count, there);
            return count <= there;
        }

        while (count > 0)
        {
            int got = stream.Read(_scratch, 0, (int)Math.Min(_scratch.Length, count));
            if (got == 0)
                return false;
            count -= got;
        }

        return true;
    }
}
