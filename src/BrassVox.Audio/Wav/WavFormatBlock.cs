using System.Buffers.Binary;
using System.Globalization;

namespace BrassVox.Audio.Wav;

/// <summary>The format block of a WAV file, made sense of.</summary>
internal sealed class WavFormatBlock
{
    private const int TagPcm = 1;
    private const int TagFloat = 3;
    private const int TagExtensible = 0xFFFE;
    private const int ExtensibleBytes = 40;

    // The part of the extensible GUID that is the same for every old tag: xxxxxxxx-0000-0010-8000-00AA00389B71.
    private static readonly byte[] OldTagGuidEnd = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71];

    private WavFormatBlock()
    {
    }

    /// <summary>How the samples are held; meaningless when refused.</summary>
    internal WavLayout Layout { get; private init; }

    /// <summary>What was odd, or null.</summary>
    internal string? Note { get; private init; }

    /// <summary>Why the format cannot be read, to follow the file's name; or null.</summary>
    internal string? Refusal { get; private init; }

    /// <summary>Kind of refusal.</summary>
    internal WavFailureKind RefusalKind { get; private init; }

    /// <summary>Reads a block of at least 16 bytes.</summary>
    /// <param name="block">The block without its head.</param>
    internal static WavFormatBlock Parse(ReadOnlySpan<byte> block)
    {
        int tag = BinaryPrimitives.ReadUInt16LittleEndian(block);
        int channels = BinaryPrimitives.ReadUInt16LittleEndian(block[2..]);
        uint rateHz = BinaryPrimitives.ReadUInt32LittleEndian(block[4..]);
        uint byteRate = BinaryPrimitives.ReadUInt32LittleEndian(block[8..]);
        int blockBytes = BinaryPrimitives.ReadUInt16LittleEndian(block[12..]);
        int containerBits = BinaryPrimitives.ReadUInt16LittleEndian(block[14..]);
        int validBits = containerBits;
        if (tag == TagExtensible)
        {
            if (block.Length < ExtensibleBytes)
                return Refuse(WavFailureKind.CutOff, $"is cut off: extensible format block of {block.Length} bytes, needs {ExtensibleBytes}. Save it anew.");
            validBits = BinaryPrimitives.ReadUInt16LittleEndian(block[18..]);
            ReadOnlySpan<byte> guid = block.Slice(24, 16);
            if (!guid[2..].SequenceEqual(OldTagGuidEnd))
                return Refuse(WavFailureKind.Unsupported, $"holds sound of the unknown kind {new Guid(guid).ToString("D", CultureInfo.InvariantCulture).ToUpperInvariant()}. Convert it to PCM.");
            tag = BinaryPrimitives.ReadUInt16LittleEndian(guid);
        }

        if (tag is not (TagPcm or TagFloat))
            return Refuse(WavFailureKind.Unsupported, $"holds {TagName(tag)}. Convert it to PCM.");
        if (channels is < 1 or > 32)
            return Refuse(channels == 0 ? WavFailureKind.Damaged : WavFailureKind.Unsupported, $"states {channels} channels; 1 to 32 can be read. Save it anew with fewer.");
        if (rateHz is < 8000 or > 384000)
            return Refuse(WavFailureKind.Unsupported, $"states a rate of {rateHz} Hz; 8000 to 384000 Hz can be read. Convert it, or correct its header.");
        return Settle(tag == TagFloat, channels, (int)rateHz, byteRate, blockBytes, containerBits, validBits);
    }

    // Bits, block size and byte rate say the same thing three times. Where they disagree, two against one decide.
    private static WavFormatBlock Settle(
        bool isFloat, int channels, int rateHz, uint byteRate, int blockBytes, int containerBits, int validBits)
    {
        int bytes = (containerBits + 7) / 8;
        string? note = null;
        if (blockBytes != bytes * channels)
        {
            int byBlock = blockBytes / channels;
            bool blockIsBacked = blockBytes % channels == 0 && byteRate == (uint)blockBytes * (uint)rateHz;
            if (blockIsBacked && byBlock >= bytes && IsSize(isFloat, byBlock))
            {
                note = string.Create(CultureInfo.InvariantCulture, $"{containerBits} bits in {byBlock} bytes a sample: taken as left-justified");
                bytes = byBlock;
            }
            else
            {
                note = string.Create(CultureInfo.InvariantCulture, $"block size field says {blockBytes}, {bytes * channels} expected; ignored");
            }
        }

        if (!IsSize(isFloat, bytes))
            return Refuse(WavFailureKind.Unsupported, $"holds {containerBits}-bit {(isFloat ? "floating-point" : "whole-number")} samples. Convert it to 16 or 24 bit.");
        int bits = validBits is >= 1 && validBits <= bytes * 8 ? validBits : bytes * 8;
        return new WavFormatBlock { Layout = new WavLayout(rateHz, channels, bits, bytes, isFloat), Note = note };
    }

    private static bool IsSize(bool isFloat, int bytes) => isFloat ? bytes is 4 or 8 : bytes is 1 or 2 or 3 or 4 or 8;

    private static WavFormatBlock Refuse(WavFailureKind kind, string why) => new() { Refusal = why, RefusalKind = kind };

    private static string TagName(int tag) => tag switch
    {
        2 => "ADPCM (format tag 2)",
        6 => "A-law (format tag 6)",
        7 => "mu-law (format tag 7)",
        0x11 => "IMA ADPCM (format tag 17)",
        0x55 => "MP3 (format tag 85)",
        _ => $"sound of the unknown kind {tag}",
    };
}
