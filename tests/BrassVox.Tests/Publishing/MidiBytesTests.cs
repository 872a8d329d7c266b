using System.Globalization;
using BrassVox.Practice.Passages;
using BrassVox.Publishing.Notation;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Publishing;

/// <summary>
/// The bytes of a written MIDI file, laid out by hand. Source: Standard MIDI Files 1.0 (chunks, numbers of variable length, meta events)
/// and MIDI 1.0 (channel messages, RPN 0, pitch bend), MIDI Association: the table of numbers and the layout are from memory, bends and
/// tempos are our own arithmetic.
/// </summary>
public sealed class MidiBytesTests
{
    private const long Bar = Passage.TicksPerWhole;

    [Fact]
    public void A_whole_file_is_as_the_standard_lays_it_out()
    {
        // A4 played for a quarter; over it, a quarter later, A4 sung 50 cents higher; 120 quarters a minute, then 72.
        Score score = Of(Bar, [Note(0, Passage.TicksPerQuarter, 0)], [Note(Passage.TicksPerQuarter, Passage.TicksPerQuarter, 50)]) with
        {
            Title = "Two",
            Tempos = [new PassageTempo(0, 120), new PassageTempo(Passage.TicksPerQuarter, 72)],
        };
        const string Controls = "00 B# 65 00  00 B# 64 00  00 B# 06 02  00 B# 26 00  00 B# 65 7F  00 B# 64 7F  00 C# ";
        string conductor = "00 FF 03 03 54 77 6F  00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  CE 60 FF 51 03 0C B7 35  81 EC 20 FF 2F 00";
        string played = "00 FF 03 06 50 6C 61 79 65 64  " + Controls.Replace('#', '0') + "3A  00 E0 00 40  00 90 45 50  CE 60 80 45 40  81 EC 20 FF 2F 00";
        string sung = "00 FF 03 04 53 75 6E 67  " + Controls.Replace('#', '1') + "34  CE 60 E1 00 50  00 91 45 50  CE 60 81 45 40  81 9D 40 FF 2F 00";
        byte[] expected = [.. Hex("4D 54 68 64 00 00 00 06 00 01 00 03 27 60"), .. Chunk(conductor), .. Chunk(played), .. Chunk(sung)];
        Assert.Equal(Convert.ToHexString(expected), Convert.ToHexString(MidiScore.Write(score)));
    }

    // The standard's own table.
    [Xunit.Theory]
    [InlineData(0x0, "00")]
    [InlineData(0x40, "40")]
    [InlineData(0x7F, "7F")]
    [InlineData(0x80, "81 00")]
    [InlineData(0x2000, "C0 00")]
    [InlineData(0x3FFF, "FF 7F")]
    [InlineData(0x4000, "81 80 00")]
    [InlineData(0x1FFFFF, "FF FF 7F")]
    [InlineData(0x200000, "81 80 80 00")]
    [InlineData(0x8000000, "C0 80 80 00")]
    [InlineData(0xFFFFFFF, "FF FF FF 7F")]
    [InlineData(480, "83 60")]
    [InlineData(960, "87 40")]
    public void Times_are_numbers_of_variable_length(long ticks, string bytes)
    {
        // The time stands between the choice of the sound and the first bend; the bar ends with it, for no time is longer than the last.
        byte[] file = MidiScore.Write(Of(ticks, [Note(ticks, 1, 0)], []));
        Assert.Contains("C03A" + Plain(bytes) + "E00040" + "00904550", Convert.ToHexString(file), StringComparison.Ordinal);
    }

    [Xunit.Theory]
    [InlineData(0, "00 40")]
    [InlineData(50, "00 50")]
    [InlineData(-13.686, "4F 3B")]
    [InlineData(-31.174, "03 36")]
    [InlineData(1.955, "50 40")]
    [InlineData(-48.682, "36 30")]
    public void A_bend_goes_before_its_note_lower_bits_first(double cents, string bytes)
    {
        byte[] file = MidiScore.Write(Of(Bar, [], [Note(0, Bar, cents)]));
        Assert.Contains("C134" + "00E1" + Plain(bytes) + "00914550", Convert.ToHexString(file), StringComparison.Ordinal);
    }

    [Fact]
    public void A_wide_glide_sets_a_wide_range_and_no_voice_is_on_the_drums_channel()
    {
        Score score = Of(Bar, [Note(0, Bar, 0) with { ToHz = 880 }], [Note(0, Bar, 0)]) with { Made = [Note(0, Bar, 0)] };
        string file = Convert.ToHexString(MidiScore.Write(score));
        Assert.Contains("00B00618", file, StringComparison.Ordinal); // 24 semitones: the octave is not less than 12
        Assert.Contains("00B10602", file, StringComparison.Ordinal);
        Assert.Contains("00924550", file, StringComparison.Ordinal); // the resultant on the third channel
        Assert.DoesNotContain("00994550", file, StringComparison.Ordinal);
    }

    private static Score Of(long length, IReadOnlyList<ScoreNote> played, IReadOnlyList<ScoreNote> sung) =>
        new("", null, 440, WrittenPart.Concert, [new PassageBar(1, 0, length, 4, 4)], [new PassageTempo(0, 120)], played, sung, [], []);

    private static ScoreNote Note(long from, long ticks, double cents)
    {
        double hz = 440 * Math.Pow(2, cents / 1200);
        return new ScoreNote(from, ticks, Pitch.Parse("A4"), 0, hz, hz);
    }

    private static byte[] Chunk(string body)
    {
        byte[] bytes = Hex(body);
        return [.. "MTrk"u8, .. Hex(bytes.Length.ToString("X8", CultureInfo.InvariantCulture)), .. bytes];
    }

    private static byte[] Hex(string text) => Convert.FromHexString(Plain(text));

    private static string Plain(string text) => text.Replace(" ", "", StringComparison.Ordinal);
}
