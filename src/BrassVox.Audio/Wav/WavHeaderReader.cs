using System.Buffers.Binary;
using System.Text;

namespace BrassVox.Audio.Wav;

/// <summary>
/// Reads everything up to the first sample. Sources: the RIFF and WAVE descriptions of 1991 and 1994 and the extensible
/// format of 2001 (field layout from memory); RF64: EBU Tech 3306.
/// </summary>
internal sealed class WavHeaderReader(ByteFeed feed, string name)
{
    private const uint NotFilledIn = 0xFFFFFFFF;
    private const uint PipeLengthFrom = 0x7FFF0000;
    private const int LongestFormatBlock = 65536;

    private static readonly string[] KnownBlocks =
        ["fmt ", "data", "fact", "LIST", "bext", "cue ", "smpl", "inst", "JUNK", "junk", "PEAK", "iXML", "id3 ", "ID3 ", "ds64", "PAD ", "FLLR", "afsp", "minf", "elm1", "regn", "umid", "DISP", "axml", "chna", "_PMX", "acid", "note", "labl", "plst"];

    private readonly List<string> _notes = [];
    private WavLayout? _layout;
    private WavFailure? _failure;
    private uint _riffBytes;
    private ulong? _largeDataBytes;
    private bool _isLarge;

    /// <summary>Reads the header.</summary>
    /// <param name="failure">Why it could not be read, or null.</param>
    /// <returns>The header, or null.</returns>
    internal WavHeader? Read(out WavFailure? failure)
    {
        WavHeader? header = ReadRiff() ? ReadBlocks() : null;
        failure = _failure;
        return header;
    }

    private bool ReadRiff()
    {
        Span<byte> riff = stackalloc byte[12];
        int got = feed.Read(riff);
        if (got == 0)
            return Fail(WavFailureKind.CutOff, "is empty. Copy or record it again.");
        string id = Text(riff[..4]);
        if (got >= 4 && id is not ("RIFF" or "RF64" or "BW64"))
            return Fail(WavFailureKind.NotWav, $"is no WAV file{Guess(id)}. Convert it to WAV.");
        if (got < riff.Length)
            return Fail(WavFailureKind.CutOff, "is cut off: no sound data. Copy or record it again.");
        if (Text(riff[8..]) != "WAVE")
            return Fail(WavFailureKind.NotWav, $"is no WAV file but holds \"{Printable(riff[8..])}\". Convert it to WAV.");
        _isLarge = id != "RIFF";
        _riffBytes = BinaryPrimitives.ReadUInt32LittleEndian(riff[4..]);
        return true;
    }

    private WavHeader? ReadBlocks()
    {
        Span<byte> head = stackalloc byte[8];
        while (true)
        {
            if (feed.Read(head) < head.Length)
            {
                Fail(WavFailureKind.CutOff, _layout is null
                    ? "is cut off: no format block and no sound data. Copy or record it again."
                    : "is cut off: no sound data. Copy or record it again.");
                return null;
            }

            string id = Text(head[..4]);
            uint bytes = BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
            switch (id)
            {
                case "data":
                    return ReadData(bytes);
                case "fmt " when !ReadFormat(bytes):
                case "ds64" when !ReadLargeSizes(bytes):
                    return null;
                case "fmt ":
                case "ds64":
                    break;
                default:
                    feed.Skip(bytes);
                    break;
            }

            if (bytes % 2 == 1)
                SkipPadding();
        }
    }

    private WavHeader? ReadData(uint bytes)
    {
        if (_layout is not { } layout)
        {
            Fail(WavFailureKind.Damaged, "is damaged: its sound data come before its format block. Open it in an editor and save it anew.");
            return null;
        }

        long? stated = bytes;
        if (_isLarge && _largeDataBytes is { } large && bytes == NotFilledIn)
            stated = large is 0 or > long.MaxValue ? null : (long)large;
        else if (bytes == NotFilledIn || (bytes == 0 && !IsReallyEmpty()))
            stated = null;
        if (stated == 0)
        {
            Fail(WavFailureKind.CutOff, "holds no sound data. Copy or record it again.");
            return null;
        }

        return new WavHeader(layout, stated, _notes);
    }

    // Zero may mean "not filled in" (a pipe, a crash) or "nothing recorded": what follows tells.
    private bool IsReallyEmpty()
    {
        Span<byte> next = stackalloc byte[4];
        int got = feed.Peek(next);
        return got < next.Length || (_riffBytes is not (0 or NotFilledIn) && IsKnownBlock(next));
    }

    private bool ReadLargeSizes(uint bytes)
    {
        if (bytes is < 24 or > LongestFormatBlock)
            return Fail(WavFailureKind.Damaged, $"is damaged: its ds64 block states {bytes} bytes. Save it anew.");
        byte[] sizes = new byte[bytes];
        if (feed.Read(sizes) < sizes.Length)
            return Fail(WavFailureKind.CutOff, "is cut off: no sound data. Copy or record it again.");
        _largeDataBytes = BinaryPrimitives.ReadUInt64LittleEndian(sizes.AsSpan(8));
        return true;
    }

    private bool ReadFormat(uint bytes)
    {
        if (bytes > LongestFormatBlock)
            return Fail(WavFailureKind.Damaged, $"is damaged: its format block states {bytes} bytes. Save it anew.");
        byte[] block = new byte[bytes];
        int got = feed.Read(block);
        if (got < block.Length || got < 16)
            return Fail(WavFailureKind.CutOff, $"is cut off: format block cut off ({got} bytes of {Math.Max(16, bytes)}). Copy or record it again.");
        WavFormatBlock format = WavFormatBlock.Parse(block);
        if (format.Refusal is { } refusal)
            return Fail(format.RefusalKind, refusal);
        if (format.Note is not null)
            _notes.Add(format.Note);
        _layout = format.Layout;
        return true;
    }

    // An odd block is followed by one byte of padding; some writers forget it.
    private void SkipPadding()
    {
        Span<byte> next = stackalloc byte[5];
        int got = feed.Peek(next);
        bool forgotten = got >= 4 && IsKnownBlock(next[..4]) && !(got == 5 && IsKnownBlock(next[1..]));
        if (!forgotten)
            feed.Skip(1);
    }

    private bool Fail(WavFailureKind kind, string what)
    {
        _failure = new WavFailure(kind, $"{name} {what}");
        return false;
    }

    private static bool IsKnownBlock(ReadOnlySpan<byte> id) => KnownBlocks.Contains(Text(id));

    private static string Text(ReadOnlySpan<byte> bytes) => Encoding.Latin1.GetString(bytes);

    private static string Printable(ReadOnlySpan<byte> bytes) =>
        string.Concat(Text(bytes).Select(c => c is >= ' ' and <= '~' ? c : '?'));

    private static string Guess(string id) => id switch
    {
        "RIFX" => " but its big-endian kind (RIFX)",
        "fLaC" => " but FLAC",
        "OggS" => " but Ogg (Vorbis, Opus or FLAC)",
        "FORM" => " but AIFF",
        "caff" => " but Core Audio Format",
        "riff" => " but Wave64",
        "MThd" => " but a MIDI file",
        _ when id.StartsWith("ID3", StringComparison.Ordinal) || id.StartsWith("ÿû", StringComparison.Ordinal) => " but MP3",
        _ => "",
    };

    /// <summary>True when a stated length is one that tools write to a pipe since they cannot go back to fill it in.</summary>
    /// <param name="statedBytes">Stated length in bytes.</param>
    internal static bool IsPipeLength(long statedBytes) => statedBytes is >= PipeLengthFrom and <= NotFilledIn;
}
