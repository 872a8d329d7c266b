using BrassVox.Practice.Passages;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Passages;

/// <summary>Standard MIDI Files, bytes by hand. Variable-length quantities as the standard's own table has them: 480 is 83 60, 960 is 87 40.</summary>
public sealed class MidiPassageTests
{
    private static readonly byte[] Played =
    [
        0x00, 0xFF, 0x03, 0x08, (byte)'T', (byte)'r', (byte)'o', (byte)'m', (byte)'b', (byte)'o', (byte)'n', (byte)'e',
        0x00, 0xFF, 0x51, 0x03, 0x0F, 0x42, 0x40,
        0x00, 0xFF, 0x58, 0x04, 0x02, 0x02, 0x18, 0x08,
        0x00, 0x90, 46, 100, 0x87, 0x40, 46, 0, 0x00, 48, 100, 0x83, 0x60, 48, 0,
        0x00, 0xFF, 0x2F, 0x00,
    ];

    private static readonly byte[] Sung =
    [
        0x00, 0xFF, 0x03, 0x04, (byte)'S', (byte)'u', (byte)'n', (byte)'g',
        0x83, 0x60, 0x91, 53, 90, 0x87, 0x40, 0x81, 53, 0,
        0x00, 0xFF, 0x2F, 0x00,
    ];

    [Fact]
    public void Two_tracks_are_played_and_sung()
    {
        Passage passage = PassageFile.Parse(File([Played, Sung]), "line.mid").Passage!;
        const int Q = Passage.TicksPerQuarter;
        Assert.Equal([new PassageNote(0, 2 * Q, Pitch.Parse("Bb2")), new PassageNote(2 * Q, Q, Pitch.Parse("C3"))], passage.Played);
        Assert.Equal([new PassageNote(Q, 2 * Q, Pitch.Parse("F3"))], passage.Sung);
        Assert.Equal(60, passage.Tempos.Single().QuartersPerMinute, 1e-9);
        Assert.Equal((2, 4, 2), (passage.Bars[0].Beats, passage.Bars[0].BeatUnit, passage.Bars.Count));
    }

    [Fact]
    public void A_damaged_file_is_one_clear_line()
    {
        const int seed = 4;
        Random random = new(seed);
        byte[] good = File([Played, Sung]);
        Assert.NotNull(PassageFile.Parse(good[..30], "x.mid").Problem);
        for (int i = 0; i < 2000; i++)
        {
            byte[] bytes = [.. good];
            bytes[random.Next(4, bytes.Length)] = (byte)random.Next(256);
            bytes[random.Next(4, bytes.Length)] = (byte)random.Next(256);
            PassageLoad load = PassageFile.Parse(bytes, "x.mid");
            Assert.True(load.Passage is null != load.Problem is null, $"seed {seed}, round {i}");
        }
    }

    // Bb3 and F4 of 480 ticks each, running status carried over what stands in place of XX; worked out by hand.
    [Theory]
    [InlineData("FF 01 03 61 62 63", "00 FF 2F 00", "00 00 00 1A", 1)]
    [InlineData("F0 01 F7", "00 FF 2F 00", "00 00 00 17", 1)]
    [InlineData("FF 01 03 61 62 63", "00 FF 2F 00", "7F FF FF FF", 2)]
    [InlineData("FF 01 03 61 62 63", "00", "00 00 00 1A", 3)]
    [InlineData("FF 01 03 61 62 63", "", "00 00 00 1A", 3)]
    [InlineData("FF 01 03 61 62 63", "00 90 43", "00 00 00 1A", 3)]
    public void S12_what_players_accept_is_read_and_said(string between, string end, string length, int remarks)
    {
        byte[] bytes = Convert.FromHexString(
            $"4D546864 00000006 0000 0001 01E0 4D54726B {length} 00903A50 83603A00 00{between} 00415083604100 {end}".Replace(" ", "", StringComparison.Ordinal));
        PassageLoad load = PassageFile.Parse(bytes, "x.mid");
        Assert.NotNull(load.Passage);
        const int Q = Passage.TicksPerQuarter;
        Assert.Equal([new PassageNote(0, Q, Pitch.Parse("Bb3")), new PassageNote(Q, Q, Pitch.Parse("F4"))], [.. load.Passage.Played, .. load.Passage.Sung]);
        Assert.Equal(remarks, load.Passage.Remarks.Count(remark => remark.Contains(" byte ", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_note_after_a_rest_of_years_is_refused_at_once()
    {
        // Delta FF FF FF 7F is the longest there is: 268 million ticks, here some 140,000 bars.
        byte[] late = [0xFF, 0xFF, 0xFF, 0x7F, 0x90, 46, 100, 0x83, 0x60, 46, 0, 0x00, 0xFF, 0x2F, 0x00];
        long before = GC.GetAllocatedBytesForCurrentThread();
        PassageLoad load = PassageFile.Parse(File([late, Sung]), "x.mid");
        Assert.Contains($"more than {Passage.MostBars} bars", load.Problem!.Message, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1 << 20);
    }

    [Theory]
    [InlineData("00 FE 51 02 18 85 87 40 FF 03 E7 E0 D7 55")]
    [InlineData("00 F1 40 87 40 FF 03 E7 E0 D7 55")]
    [InlineData("00 FF 59 0D FA D9 59 25 48 5D DB 73 4C FF FF FF FF 81 70 00 00 00")]
    [InlineData("00 3A 50 83 60 3A 00")]
    [InlineData("00 F0 04 CF 6B 44 66 87 40 F7 5F FF 21 F8 D5 E4 3C")]
    public void What_is_no_event_of_a_file_ends_its_track_and_takes_no_memory(string bytes)
    {
        // Taken for an event with data, the first two hide a text of 200 MB from whoever counts along.
        byte[] strange = [.. Played[..^4], .. Convert.FromHexString(bytes.Replace(" ", "", StringComparison.Ordinal))];
        byte[] alone = bytes.StartsWith("00 3A", StringComparison.Ordinal) ? strange[^7..] : strange;
        long before = GC.GetAllocatedBytesForCurrentThread();
        PassageLoad load = PassageFile.Parse(File([alone, Sung]), "x.mid");
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1 << 20);
        Assert.True(load.Problem is not null || load.Passage!.Remarks.Any(remark => remark.Contains("read to there", StringComparison.Ordinal)));
    }

    [Fact]
    public void Names_of_tracks_carry_no_signs_that_move_a_cursor()
    {
        byte[] named = [0x00, 0xFF, 0x03, 0x05, 0x1B, (byte)'[', (byte)'2', (byte)'J', 0x9B, .. Sung[8..]];
        Passage passage = PassageFile.Parse(File([Played, named]), "x.mid").Passage!;
        Assert.DoesNotContain(passage.Remarks.SelectMany(remark => remark), char.IsControl);
        Assert.Contains(passage.Remarks, remark => remark.Contains("?[2J", StringComparison.Ordinal));
    }

    private static byte[] File(byte[][] tracks) =>
    [
        .. "MThd"u8, 0, 0, 0, 6, 0, 1, 0, (byte)tracks.Length, 0x01, 0xE0,
        .. tracks.SelectMany(track => (byte[])[.. "MTrk"u8, 0, 0, 0, (byte)track.Length, .. track]),
    ];
}
