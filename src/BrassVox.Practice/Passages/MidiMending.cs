using System.Buffers.Binary;

namespace BrassVox.Practice.Passages;

/// <summary>Makes MIDI files whole that players accept although the standard does not, and says what it did, with the byte where.</summary>
/// <remarks>
/// A track longer than the file, a missing end-of-track event, an event cut off, a status byte left out after a meta or system-exclusive
/// event, bytes that are no event of a file. Source: Standard MIDI File 1.0 [memory].
/// </remarks>
internal static class MidiMending
{
    private const int ChunkHead = 8;
    private static readonly byte[] EndOfTrack = [0xFF, 0x2F, 0x00];
    private static readonly byte[] EndAtOnce = [0x00, .. EndOfTrack];

    /// <summary>The same file, or a whole one in its place. What is no MIDI file at all is returned as it is.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="remarks">What was mended is added here.</param>
    public static byte[] Whole(byte[] bytes, List<string> remarks)
    {
        if (bytes.Length < ChunkHead || !bytes.AsSpan().StartsWith("MThd"u8))
        {
            return bytes;
        }

        using var whole = new MemoryStream(bytes.Length + ChunkHead);
        Span<byte> length = stackalloc byte[4];
        int at = 0;
        while (at + ChunkHead <= bytes.Length)
        {
            uint stated = BinaryPrimitives.ReadUInt32BigEndian(bytes.AsSpan(at + 4));
            int present = (int)Math.Min(stated, bytes.Length - at - ChunkHead);
            if (present < stated)
            {
                remarks.Add(FormattableString.Invariant($"The block at byte {at} states {stated} bytes and has {present}: what is there is read."));
            }

            ReadOnlySpan<byte> body = bytes.AsSpan(at + ChunkHead, present);
            bool isTrack = bytes.AsSpan(at).StartsWith("MTrk"u8);
            (int kept, byte[] end) = isTrack ? Walk(body, at + ChunkHead, remarks) : (present, []);
            whole.Write(bytes.AsSpan(at, 4));
            BinaryPrimitives.WriteInt32BigEndian(length, kept + end.Length);
            whole.Write(length);
            whole.Write(body[..kept]);
            whole.Write(end);
            at += ChunkHead + present;
        }

        return whole.ToArray();
    }

    // How much of a track are whole events, and what has to follow to end it.
    private static (int Kept, byte[] End) Walk(ReadOnlySpan<byte> track, int offset, List<string> remarks)
    {
        int at = 0;
        int status = 0;
        bool isInterrupted = false;
        while (at < track.Length)
        {
            int whole = at;
            int next = at;
            if (!Skip(track, ref next) || next >= track.Length)
            {
                remarks.Add(FormattableString.Invariant($"The track ends at byte {offset + track.Length} without its end mark: read to there."));
                return (whole, EndAtOnce);
            }

            int first = track[next];
            if (first >= 0x80)
            {
                next++;
            }
            else if (isInterrupted)
            {
                remarks.Add(FormattableString.Invariant($"At byte {offset + next} a status byte is left out after another kind of event: read as players read it."));
            }

            int kind = first >= 0x80 ? first : status;
            if (kind is 0 or (> 0xF0 and < 0xFF and not 0xF7))
            {
                remarks.Add(FormattableString.Invariant($"What stands at byte {offset + whole} has no place in a file: read to there."));
                return (whole, EndAtOnce);
            }

            isInterrupted = kind >= 0xF0;
            status = kind < 0xF0 ? kind : status;
            int data = next;
            bool fits = kind switch
            {
                0xFF => next++ < track.Length && IsUsualLength(track, next) && SkipBlock(track, ref next),
                0xF0 => SkipBlock(track, ref next) && EndsWithItsMark(track[data..next]),
                0xF7 => SkipBlock(track, ref next),
                >= 0xC0 and < 0xE0 => (next += 1) <= track.Length,
                _ => (next += 2) <= track.Length,
            };
            if (!fits)
            {
                remarks.Add(FormattableString.Invariant($"The event at byte {offset + whole} is cut off or of a wrong length: read to there."));
                return (whole, EndAtOnce);
            }

            if (kind == 0xFF && track[(next - EndOfTrack.Length)..next].SequenceEqual(EndOfTrack))
            {
                return (next, []);
            }

            at = next;
        }

        remarks.Add(FormattableString.Invariant($"The track ends at byte {offset + track.Length} without its end mark: read to there."));
        return (at, EndAtOnce);
    }

    // Events of a fixed length are read by it, whatever length they state: what is left of them would be taken for events.
    private static bool IsUsualLength(ReadOnlySpan<byte> track, int at) => at < track.Length && track[at - 1] switch
    {
        0x2F => track[at] == 0,
        0x51 => track[at] == 3,
        0x54 => track[at] == 5,
        0x58 => track[at] == 4,
        0x59 => track[at] == 2,
        0x00 => track[at] is 0 or 2,
        _ => true,
    };

    // A system-exclusive event is read up to the first F7, whatever length it states: what is left of it would be taken for events.
    private static bool EndsWithItsMark(ReadOnlySpan<byte> exclusive) => exclusive.IndexOf((byte)0xF7) == exclusive.Length - 1;

    private static bool SkipBlock(ReadOnlySpan<byte> track, ref int at)
    {
        int from = at;
        if (!Skip(track, ref at))
        {
            return false;
        }

        int length = 0;
        foreach (byte part in track[from..at])
        {
            length = (length << 7) | (part & 0x7F);
        }

        at += length;
        return at <= track.Length;
    }

    // A number of one to four bytes, of which all but the last have their highest bit set.
    private static bool Skip(ReadOnlySpan<byte> track, ref int at)
    {
        for (int count = 0; count < 4; count++)
        {
            if (at >= track.Length)
            {
                return false;
            }

            if (track[at++] < 0x80)
            {
                return true;
            }
        }

        return false;
    }
}
