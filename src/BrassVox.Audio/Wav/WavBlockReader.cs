using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Runtime.InteropServices;

namespace BrassVox.Audio.Wav;

/// <summary>
/// Reads a WAV file block by block, forwards only, so that its length does not matter and pipes work. Whatever the length
/// fields say, only bytes that are there are read. One thread at a time.
/// </summary>
public sealed class WavBlockReader : IDisposable
{
    private readonly Stream _stream;
    private readonly ByteFeed _feed;
    private readonly WavHeader _header;
    private readonly byte[] _bytes;
    private long _leftBytes;
    private long _readBytes;
    private bool _ended;
    private float _peak;

    private WavBlockReader(Stream stream, ByteFeed feed, WavHeader header)
    {
        _stream = stream;
        FirstByte = stream.CanSeek ? stream.Position - feed.AheadBytes : 0;
        _feed = feed;
        _header = header;
        _leftBytes = header.DataBytes ?? long.MaxValue;
        _bytes = new byte[Math.Max(1, 65536 / header.Layout.BlockBytes) * header.Layout.BlockBytes];
    }

    /// <summary>How the file holds its samples.</summary>
    public WavLayout Layout => _header.Layout;

    /// <summary>Samples per channel read so far.</summary>
    public long SamplesRead => _readBytes / Layout.BlockBytes;

    /// <summary>
    /// Samples per channel that are still to come, where this can be known beforehand: the smaller of what the header
    /// states and what the file holds. Null for a pipe whose header does not say.
    /// </summary>
    public long? SamplesLeft => PresentBytes is { } bytes ? bytes / Layout.BlockBytes : null;

    /// <summary>True for a file, whose length can be known; false for a pipe.</summary>
    internal bool IsSeekable => _stream.CanSeek;

    /// <summary>Samples that were no number or infinite so far; they were given as 0.</summary>
    public long NonFiniteSamples { get; private set; }

    /// <summary>What was odd about the file. Complete once <see cref="Read"/> has returned 0.</summary>
    public IReadOnlyList<string> Notes => _header.Notes;

    /// <summary>Where in a file the sound begins.</summary>
    internal long FirstByte { get; }

    private long? PresentBytes => _stream.CanSeek
        ? Math.Min(_leftBytes, Math.Max(0, _stream.Length - _stream.Position))
        : _header.DataBytes is null ? null : _leftBytes;

    /// <summary>Opens a file.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="wav">The opened file; the caller disposes it.</param>
    /// <param name="failure">Why it could not be opened.</param>
    /// <returns>True when opened. Never throws for what a file or a disk may do.</returns>
    public static bool TryOpen(
        string path, [NotNullWhen(true)] out WavBlockReader? wav, [NotNullWhen(false)] out WavFailure? failure)
    {
        wav = null;
        failure = null;
        if (Directory.Exists(path))
            failure = new WavFailure(WavFailureKind.NotReadable, $"{path} is a folder. Name a WAV file in it.");
        else if (!File.Exists(path))
            failure = new WavFailure(WavFailureKind.NotFound, $"{path} is not there. Check the name and the folder.");
        if (failure is not null)
            return false;
        try
        {
            var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 1 << 16);
            return TryOpen(file, path, out wav, out failure);
        }
        catch (UnauthorizedAccessException)
        {
            failure = new WavFailure(WavFailureKind.NotReadable, $"{path} may not be read by this account. Change its permissions, or copy it.");
        }
        catch (Exception fault) when (fault is IOException or NotSupportedException or ArgumentException)
        {
            failure = new WavFailure(WavFailureKind.NotReadable, $"{path} could not be opened: {fault.Message}");
        }

        return false;
    }

    /// <summary>Reads from an open stream, from its present position. It need not be able to seek.</summary>
    /// <param name="stream">The stream; disposed with this object, or at once on failure.</param>
    /// <param name="name">What to call it in messages.</param>
    /// <param name="wav">The opened file; the caller disposes it.</param>
    /// <param name="failure">Why it could not be opened.</param>
    /// <returns>True when opened.</returns>
    public static bool TryOpen(
        Stream stream, string name, [NotNullWhen(true)] out WavBlockReader? wav, [NotNullWhen(false)] out WavFailure? failure)
    {
        wav = null;
        try
        {
            var feed = new ByteFeed(stream);
            if (new WavHeaderReader(feed, name).Read(out failure) is { } header)
            {
                failure = null;
                wav = new WavBlockReader(stream, feed, header);
                return true;
            }

            failure ??= new WavFailure(WavFailureKind.Damaged, $"{name} could not be read.");
        }
        catch (IOException fault)
        {
            failure = new WavFailure(WavFailureKind.NotReadable, $"{name} could not be read: {fault.Message}");
        }

        stream.Dispose();
        return false;
    }

    /// <summary>Reads the next samples.</summary>
    /// <param name="interleaved">Where to put them, all channels in turn; at least one sample of all channels long.</param>
    /// <returns>Samples per channel read; 0 once the sound has ended.</returns>
    public int Read(Span<float> interleaved)
    {
        int samples = 0;
        int room = interleaved.Length / Layout.Channels;
        ArgumentOutOfRangeException.ThrowIfLessThan(room, 1, nameof(interleaved));
        while (samples < room && !_ended)
        {
            int wanted = (int)Math.Min(Math.Min((long)(room - samples) * Layout.BlockBytes, _bytes.Length), _leftBytes);
            int got = Fetch(_bytes.AsSpan(0, wanted));
            int whole = got / Layout.BlockBytes;
            Span<float> target = interleaved.Slice(samples * Layout.Channels, whole * Layout.Channels);
            Decode(_bytes.AsSpan(0, whole * Layout.BlockBytes), target);
            Sanitise(target);
            _readBytes += got;
            _leftBytes -= got;
            samples += whole;
            if (got < wanted || _leftBytes < Layout.BlockBytes)
                Finish(got % Layout.BlockBytes);
        }

        return samples;
    }

    /// <inheritdoc/>
    public void Dispose() => _stream.Dispose();

    private int Fetch(Span<byte> target)
    {
        try
        {
            return _feed.Read(target);
        }
        catch (IOException fault)
        {
            _header.Notes.Add($"reading stopped: {fault.Message}");
            return 0;
        }
    }

    private void Finish(int brokenBytes)
    {
        _ended = true;
        if (_header.DataBytes is { } stated && _leftBytes >= Layout.BlockBytes && !WavHeaderReader.IsPipeLength(stated))
            Note($"the file is shorter than stated: {_readBytes} of {stated} bytes of sound are there");
        else if (_header.DataBytes is null || _leftBytes >= Layout.BlockBytes)
            Note($"the length field was not filled in; read to the end of the file");
        else if (_leftBytes > 0)
            brokenBytes = Fetch(_bytes.AsSpan(0, (int)_leftBytes));
        if (brokenBytes > 0)
            Note($"{brokenBytes} trailing {(brokenBytes == 1 ? "byte" : "bytes")} ignored");
        if (NonFiniteSamples > 0)
            Note($"{NonFiniteSamples} {(NonFiniteSamples == 1 ? "sample was" : "samples were")} no number or infinite and read as 0");
        if (_peak > 8)
            Note($"samples reach {_peak:0} times full scale; the file may have been written at another scale");
    }

    private void Note(FormattableString text) => _header.Notes.Add(text.ToString(CultureInfo.InvariantCulture));

    private void Sanitise(Span<float> samples)
    {
        if (!Layout.IsFloat)
            return;
        for (int i = 0; i < samples.Length; i++)
        {
            if (float.IsFinite(samples[i]))
            {
                _peak = Math.Max(_peak, Math.Abs(samples[i]));
                continue;
            }

            samples[i] = 0;
            NonFiniteSamples++;
        }
    }

    // Whole numbers are left-justified in their bytes, so the bytes alone give the scale. 8 bit is unsigned.
    private void Decode(ReadOnlySpan<byte> bytes, Span<float> samples)
    {
        switch (Layout.IsFloat, Layout.BytesPerSample)
        {
            case (true, 4):
                MemoryMarshal.Cast<byte, float>(bytes).CopyTo(samples);
                break;
            case (true, _):
                for (int i = 0; i < samples.Length; i++)
                    samples[i] = (float)BinaryPrimitives.ReadDoubleLittleEndian(bytes[(8 * i)..]);
                break;
            case (_, 1):
                for (int i = 0; i < samples.Length; i++)
                    samples[i] = (bytes[i] - 128) / 128f;
                break;
            case (_, 2):
                for (int i = 0; i < samples.Length; i++)
                    samples[i] = BinaryPrimitives.ReadInt16LittleEndian(bytes[(2 * i)..]) / 32768f;
                break;
            case (_, 3):
                for (int i = 0; i < samples.Length; i++)
                    samples[i] = ((bytes[3 * i] << 8) | (bytes[3 * i + 1] << 16) | (bytes[3 * i + 2] << 24)) / 2147483648f;
                break;
            case (_, 4):
                for (int i = 0; i < samples.Length; i++)
                    samples[i] = BinaryPrimitives.ReadInt32LittleEndian(bytes[(4 * i)..]) / 2147483648f;
                break;
            default:
                for (int i = 0; i < samples.Length; i++)
                    samples[i] = BinaryPrimitives.ReadInt64LittleEndian(bytes[(8 * i)..]) / 9223372036854775808f;
                break;
        }
    }
}
