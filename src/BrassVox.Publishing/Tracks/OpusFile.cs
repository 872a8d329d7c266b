using System.Buffers.Binary;
using System.Text;
using Concentus;
using Concentus.Enums;

namespace BrassVox.Publishing.Tracks;

/// <summary>Opus in Ogg: the codec is a library's, the container is laid out here.</summary>
/// <remarks>Sources: RFC 6716 (Opus), RFC 3533 (Ogg pages), RFC 7845 (Opus in Ogg), RFC 7845 section 5.2 (tags).</remarks>
internal static class OpusFile
{
    /// <summary>The one rate that is written, in Hz.</summary>
    public const int RateHz = 48000;

    private const int PacketSamples = 960; // 20 ms
    private const int PacketsPerPage = 50;
    private const int LargestPacketBytes = 1275;
    private const byte First = 2;
    private const byte Last = 4;

    private static readonly uint[] CrcTable = [.. Enumerable.Range(0, 256).Select(CrcOf)];

    /// <summary>A whole file.</summary>
    /// <param name="samples">One channel at <see cref="RateHz"/>, full scale 1.</param>
    /// <param name="bitsPerSecond">6000 to 510000.</param>
    /// <param name="tags">NAME and value, as in TITLE.</param>
    public static byte[] Of(ReadOnlySpan<float> samples, int bitsPerSecond, IReadOnlyList<(string Name, string Value)> tags)
    {
        IOpusEncoder encoder = OpusCodecFactory.CreateEncoder(RateHz, 1, OpusApplication.OPUS_APPLICATION_AUDIO);
        encoder.Bitrate = bitsPerSecond;

        // Of our tones at 96 kbit/s the least search keeps as much as the most (26.8 and 26.7 dB over what it loses) in half the time.
        encoder.Complexity = 0;
        int skip = encoder.Lookahead;
        var file = new MemoryStream();
        uint sequence = 0;
        Page(file, First, 0, sequence++, [Head(skip)]);
        Page(file, 0, 0, sequence++, [Tags(tags)]);

        float[] block = new float[PacketSamples];
        byte[] coded = new byte[LargestPacketBytes];
        int packets = ((samples.Length + skip - 1) / PacketSamples) + 1;
        List<byte[]> page = [];
        for (int i = 0; i < packets; i++)
        {
            int from = Math.Min(i * PacketSamples, samples.Length);
            ReadOnlySpan<float> part = samples[from..Math.Min(from + PacketSamples, samples.Length)];
            part.CopyTo(block);
            block.AsSpan(part.Length).Clear();
            page.Add(coded[..encoder.Encode(block, PacketSamples, coded, coded.Length)]);
            bool last = i == packets - 1;
            if (page.Count == PacketsPerPage || last)
            {
                // The last page's position cuts off what only filled its packet.
                long position = last ? skip + (long)samples.Length : (i + 1L) * PacketSamples;
                Page(file, last ? Last : (byte)0, position, sequence++, page);
                page.Clear();
            }
        }

        return file.ToArray();
    }

    private static byte[] Head(int skip)
    {
        byte[] head = new byte[19];
        "OpusHead"u8.CopyTo(head);
        head[8] = 1; // version
        head[9] = 1; // channels
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(10), (ushort)skip);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(12), RateHz);
        return head;
    }

    private static byte[] Tags(IReadOnlyList<(string Name, string Value)> tags)
    {
        var bytes = new MemoryStream();
        bytes.Write("OpusTags"u8);
        Text(bytes, "BrassVox");
        Span<byte> count = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(count, tags.Count);
        bytes.Write(count);
        foreach ((string name, string value) in tags)
        {
            Text(bytes, $"{name}={value}");
        }

        return bytes.ToArray();
    }

    private static void Text(MemoryStream to, string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Span<byte> length = stackalloc byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, bytes.Length);
        to.Write(length);
        to.Write(bytes);
    }

    // Every packet here ends within its page: 50 of at most 1275 bytes take at most 250 of the 255 lengths.
    private static void Page(MemoryStream file, byte kind, long position, uint sequence, IReadOnlyList<byte[]> packets)
    {
        byte[] lengths = [.. packets.SelectMany(packet => Enumerable.Repeat((byte)255, packet.Length / 255).Append((byte)(packet.Length % 255)))];
        byte[] page = new byte[27 + lengths.Length + packets.Sum(packet => packet.Length)];
        "OggS"u8.CopyTo(page);
        page[5] = kind;
        BinaryPrimitives.WriteInt64LittleEndian(page.AsSpan(6), position);
        BinaryPrimitives.WriteUInt32LittleEndian(page.AsSpan(14), 1); // the one stream
        BinaryPrimitives.WriteUInt32LittleEndian(page.AsSpan(18), sequence);
        page[26] = (byte)lengths.Length;
        lengths.CopyTo(page, 27);
        int at = 27 + lengths.Length;
        foreach (byte[] packet in packets)
        {
            packet.CopyTo(page, at);
            at += packet.Length;
        }

        uint crc = 0;
        foreach (byte value in page)
        {
            crc = (crc << 8) ^ CrcTable[(crc >> 24) ^ value];
        }

        BinaryPrimitives.WriteUInt32LittleEndian(page.AsSpan(22), crc);
        file.Write(page);
    }

    private static uint CrcOf(int value)
    {
        uint crc = (uint)value << 24;
        for (int bit = 0; bit < 8; bit++)
        {
            crc = (crc << 1) ^ ((crc & 0x80000000) != 0 ? 0x04C11DB7u : 0u);
        }

        return crc;
    }
}
