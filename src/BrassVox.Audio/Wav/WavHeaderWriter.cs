using System.Buffers.Binary;
using System.Text;

namespace BrassVox.Audio.Wav;

/// <summary>
/// Lays out the bytes before the samples, of the same length whatever the sizes, so that they can be written again and
/// again. A take keeps 36 bytes free before the format block; they become the ds64 block once the file passes 4 GB
/// (EBU Tech 3306).
/// </summary>
internal sealed class WavHeaderWriter
{
    /// <summary>Most bytes of sound that a plain header can state.</summary>
    internal const long LargestPlain = 0xFFFFFFFFL - 1024;

    private const int LargeBlockBytes = 28;

    private readonly WavWriteOptions _options;
    private readonly int _bytesPerSample;
    private readonly int _formatBytes;
    private readonly byte[] _list;

    /// <summary>Plans a header.</summary>
    /// <param name="options">How the file is written.</param>
    /// <param name="bytesPerSample">Bytes of one sample.</param>
    internal WavHeaderWriter(WavWriteOptions options, int bytesPerSample)
    {
        _options = options;
        _bytesPerSample = bytesPerSample;
        _formatBytes = options.Channels > 2 ? 40 : IsFloat ? 18 : 16;
        _list = List(options.Tags);
        Length = 12 + (options.IsTake ? 8 + LargeBlockBytes : 0) + 8 + _formatBytes + (IsFloat ? 12 : 0) + _list.Length + 8;
    }

    /// <summary>Bytes before the first sample.</summary>
    internal int Length { get; }

    private bool IsFloat => _options.Encoding == WavEncoding.Floating32;

    /// <summary>Lays out the header of a file with so much sound in it.</summary>
    /// <param name="dataBytes">Bytes of sound, without padding.</param>
    internal byte[] Lay(long dataBytes)
    {
        bool large = dataBytes > LargestPlain;
        long riffBytes = Length - 8 + dataBytes + dataBytes % 2;
        long samples = dataBytes / (_bytesPerSample * _options.Channels);
        byte[] header = new byte[Length];
        Span<byte> rest = header;
        Put(ref rest, large ? "RF64"u8 : "RIFF"u8);
        Put32(ref rest, large ? uint.MaxValue : (uint)riffBytes);
        Put(ref rest, "WAVE"u8);
        if (_options.IsTake)
        {
            Put(ref rest, large ? "ds64"u8 : "JUNK"u8);
            Put32(ref rest, LargeBlockBytes);
            Put64(ref rest, large ? riffBytes : 0);
            Put64(ref rest, large ? dataBytes : 0);
            Put64(ref rest, large ? samples : 0);
            Put32(ref rest, 0);
        }

        PutFormat(ref rest);
        if (IsFloat)
        {
            Put(ref rest, "fact"u8);
            Put32(ref rest, 4);
            Put32(ref rest, (uint)Math.Min(samples, uint.MaxValue));
        }

        Put(ref rest, _list);
        Put(ref rest, "data"u8);
        Put32(ref rest, large ? uint.MaxValue : (uint)dataBytes);
        return header;
    }

    private static byte[] List(IReadOnlyList<WavTag> tags)
    {
        if (tags.Count == 0)
            return [];
        byte[][] texts = [.. tags.Select(tag => Encoding.UTF8.GetBytes(tag.Text + '\0'))];
        int length = 12 + texts.Sum(text => 8 + text.Length + (text.Length % 2));
        byte[] list = new byte[length];
        Span<byte> rest = list;
        Put(ref rest, "LIST"u8);
        Put32(ref rest, (uint)(length - 8));
        Put(ref rest, "INFO"u8);
        for (int i = 0; i < texts.Length; i++)
        {
            Put(ref rest, Encoding.ASCII.GetBytes(tags[i].Id));
            Put32(ref rest, (uint)texts[i].Length);
            Put(ref rest, texts[i]);
            rest = rest[(texts[i].Length % 2)..];
        }

        return list;
    }

    private void PutFormat(ref Span<byte> rest)
    {
        ushort tag = (ushort)(IsFloat ? 3 : 1);
        int blockBytes = _bytesPerSample * _options.Channels;
        Put(ref rest, "fmt "u8);
        Put32(ref rest, (uint)_formatBytes);
        Put16(ref rest, _formatBytes == 40 ? 0xFFFE : tag);
        Put16(ref rest, _options.Channels);
        Put32(ref rest, (uint)_options.SampleRateHz);
        Put32(ref rest, (uint)(_options.SampleRateHz * blockBytes));
        Put16(ref rest, blockBytes);
        Put16(ref rest, _bytesPerSample * 8);
        if (_formatBytes == 16)
            return;
        Put16(ref rest, _formatBytes - 18);
        if (_formatBytes == 18)
            return;
        // Mask 0: no channel has a place of its own. These are stems and takes, not surround sound.
        Put16(ref rest, _bytesPerSample * 8);
        Put32(ref rest, 0);
        Put16(ref rest, tag);
        Put(ref rest, [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71]);
    }

    private static void Put(ref Span<byte> rest, ReadOnlySpan<byte> bytes)
    {
        bytes.CopyTo(rest);
        rest = rest[bytes.Length..];
    }

    private static void Put16(ref Span<byte> rest, int value)
    {
        BinaryPrimitives.WriteUInt16LittleEndian(rest, (ushort)value);
        rest = rest[2..];
    }

    private static void Put32(ref Span<byte> rest, uint value)
    {
        BinaryPrimitives.WriteUInt32LittleEndian(rest, value);
        rest = rest[4..];
    }

    private static void Put64(ref Span<byte> rest, long value)
    {
        BinaryPrimitives.WriteInt64LittleEndian(rest, value);
        rest = rest[8..];
    }
}
