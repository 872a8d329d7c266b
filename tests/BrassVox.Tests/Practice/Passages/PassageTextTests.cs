using System.Text;
using BrassVox.Practice.Passages;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Passages;

/// <summary>Our own text. The form is ours; there is no outside source.</summary>
public sealed class PassageTextTests
{
    internal static PassageLoad Read(string text) => PassageFile.Parse(Encoding.UTF8.GetBytes(text), "own.txt");

    public static TheoryData<string> Shipped() => [.. Directory.GetFiles(PassageFile.ShippedFolder, "*.txt").Select(path => Path.GetFileName(path))];

    [Fact]
    public void A_line_is_read_to_the_tick()
    {
        Passage passage = Read("title: Try\nroot: Bb2\ntime: 3/4\ntempo: 72\nP: Bb2/4. C3/8 r/4 | 3:2( D3/8 Eb3 F3 ) F3/2~ | F3/2. |\nS: F3-14/2.~ | F3-14/4 r/2 | r/2. |\n").Passage!;
        const int Q = Passage.TicksPerQuarter;
        Assert.Equal("Try", passage.Title);
        Assert.Equal(Pitch.Parse("Bb2"), passage.Root);
        Assert.Equal(
            [
                new PassageNote(0, (3 * Q) / 2, Pitch.Parse("Bb2")), new PassageNote((3 * Q) / 2, Q / 2, Pitch.Parse("C3")),
                new PassageNote(3 * Q, Q / 3, Pitch.Parse("D3")), new PassageNote((3 * Q) + (Q / 3), Q / 3, Pitch.Parse("Eb3")),
                new PassageNote((3 * Q) + (2 * Q / 3), Q / 3, Pitch.Parse("F3")), new PassageNote(4 * Q, 5 * Q, Pitch.Parse("F3")),
            ],
            passage.Played);
        Assert.Equal([new PassageNote(0, 4 * Q, Pitch.Parse("F3"), -14)], passage.Sung);
        Assert.Equal(9 * 60 / 72.0, passage.SecondsAt(passage.LengthTicks), 1e-9);
        Assert.Equal("2.1+1/3", passage.PlaceOf((3 * Q) + (Q / 3)));
    }

    [Fact]
    public void A_bar_of_any_length_is_written_and_read_back()
    {
        const string text = "short: =30001\nP: Bb2=30001 |\nS: r=30001 |\n";
        Passage passage = Read(text).Passage!;
        Assert.Equal(30001, passage.Bars.Single().LengthTicks);
        Same(passage, Read(PassageText.Write(passage)).Passage);
    }

    [Fact]
    public void A_note_in_an_octave_that_nobody_has_is_reported_without_a_better_one()
    {
        Passage passage = Read("P: Bb2/1 | Bb2/1 |\nS: C-1/1 | C9/1 |\n").Passage!;
        var player = BrassVox.Practice.Profiles.PlayerProfile.Usual(BrassVox.Practice.Profiles.Instrument.Trombone, BrassVox.Practice.Profiles.VoiceKind.Low);
        Assert.Null(PassageReport.Of(passage, player).Suggestion);
    }

    [Fact]
    public void A_title_carries_no_signs_that_move_a_cursor() =>
        Assert.Equal("A?[2J b", Read("title: A\u001b[2J\tb\nP: Bb2/1\nS: r/1\n").Passage!.Title);

    // Each of these took minutes, by the square of their number: the limit is a guard against that, no measure of speed.
    [Theory(Timeout = 60_000)]
    [InlineData("P: ", "t=60 ", "Bb2/1 |\nS: r/1 |\n", true)]
    [InlineData("P: ", "t=60 Bb2=1 ", "\nS: r/1 |\n", false)]
    [InlineData("", "P: Bb2/1 |\nS: r/1 |\n", "", false)]
    public async Task A_hundred_thousand_of_anything_are_read_or_refused_at_once(string before, string part, string after, bool isRead)
    {
        var text = new StringBuilder(before);
        for (int i = 0; i < 100_000; i++)
        {
            text.Append(part);
        }

        PassageLoad load = await Task.Run(() => Read(text.Append(after).ToString()), TestContext.Current.CancellationToken);
        Assert.Equal(isRead, load.Passage is not null);
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("no\0such")]
    [InlineData("no-such.txt")]
    public void A_path_that_leads_nowhere_is_one_line(string path)
    {
        PassageLoad load = PassageFile.Read(path);
        Assert.Null(load.Passage);
        Assert.Contains("there is no such file", load.Problem!.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("P: Bb2/4 Qb/4\nS: r/2\n", 1, 10, "no note")]
    [InlineData("P: Bb2/5\nS: r/2\n", 1, 4, "written length")]
    [InlineData("P: Bb2/4 C3/4 D3/4 |\nS: F3/1 |\n", 1, 4, "lasts 3 quarter notes, not 4")]
    [InlineData("P: Bb2/1 |\nS: F3/2 F3/4. |\n", 2, 4, "bar 1 of S lasts 3.5")]
    [InlineData("P: Bb2/1 | C3/1 |\nS: F3/1 |\n", 3, 1, "P has 2 bars and S has 1")]
    [InlineData("P: Bb2/1~ | C3/1 |\nS: r/1 | r/1 |\n", 1, 4, "a tie leads to the same note")]
    [InlineData("P: Bb2/1~ |\nS: r/1 |\n", 1, 4, "tied to nothing")]
    [InlineData("P: 3:2( Bb2/4 C3 D3 Eb3/2 |\nS: r/1 |\n", 1, 4, "not closed")]
    [InlineData("P: Bb2/1 | | C3/1 |\n", 1, 12, "empty")]
    [InlineData("time: 4/5\nP: Bb2/1\n", 1, 7, "4/4")]
    [InlineData("tempo: fast\nP: Bb2/1\n", 1, 8, "no tempo")]
    [InlineData("root: H2\nP: Bb2/1\n", 1, 7, "not a note")]
    [InlineData("Bb2/4\n", 1, 1, "begins no line")]
    [InlineData("P: Bb-2/4\n", 1, 4, "octaves are")]
    [InlineData("P: Bb2-9223372036854775808/4\n", 1, 4, "100 cents")]
    [InlineData("short: =0\nP: Bb2/4\n", 1, 8, "no whole number of ticks")]
    [InlineData("P: Bb2/1 |\ntime: 3/4\nS: F3/1 |\n", 2, 1, "same number of bars")]
    [InlineData("P: r/1 |\nS: r/1 |\n", 0, 0, "no notes")]
    [InlineData("", 1, 1, "no notes yet")]
    public void A_fault_is_told_by_line_and_column(string text, int line, int column, string reason)
    {
        PassageLoad load = Read(text);
        Assert.Null(load.Passage);
        Assert.Equal((line, column), (load.Problem!.Line, load.Problem.Column));
        Assert.Contains(reason, load.Problem.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', load.Problem.ToString());
    }

    [Theory]
    [MemberData(nameof(Shipped))]
    public void A_shipped_passage_reads_and_reads_back(string file)
    {
        PassageLoad load = PassageFile.Read(Path.Combine(PassageFile.ShippedFolder, file));
        Assert.True(load.Passage is not null, load.Problem?.ToString());
        Assert.Equal(12, load.Passage.Bars.Count);
        Same(load.Passage, Read(PassageText.Write(load.Passage)).Passage);
    }

    /// <summary>Random lines of written lengths, tuplets, ticks, ties over bars, tempos within notes: what is written reads back as it was.</summary>
    [Fact]
    public void What_is_written_reads_back_without_loss()
    {
        const int seed = 5;
        Random random = new(seed);
        long[] lengths = [10080, 20160, 5040, 15120, 3360, 6720, 2016, 1440, 1120, 630, 7560, 17, 40321, 8820];
        for (int round = 0; round < 300; round++)
        {
            int beats = random.Next(2, 8);
            int unit = 1 << random.Next(1, 4);
            long full = beats * Passage.TicksPerWhole / unit;
            List<PassageBar> bars = [];
            long at = 0;
            for (int i = 0; i < 4; i++)
            {
                long length = i == 0 && round % 3 == 0 ? Passage.TicksPerWhole / 8 : full;
                bars.Add(new PassageBar(i + 1, at, length, beats, unit));
                at += length;
            }

            PassageNote[] Line()
            {
                List<PassageNote> notes = [];
                for (long tick = 0; tick < at;)
                {
                    long length = Math.Min(lengths[random.Next(lengths.Length)], at - tick);
                    if (random.Next(4) > 0)
                    {
                        notes.Add(new PassageNote(tick, length, Pitch.FromMidi(random.Next(28, 74)), random.Next(5) == 0 ? random.Next(-4900, 4900) / 100.0 : 0));
                    }

                    tick += length;
                }

                return [.. notes];
            }

            PassageTempo[] tempos = random.Next(2) == 0 ? [new(0, 60)] : [new(0, 72.5), new(random.NextInt64(1, at), 40)];
            Passage passage = new("Round trip", random.Next(2) == 0 ? null : Pitch.Parse("F#2"), bars, tempos, Line(), Line(), []);
            if (passage.Played.Count + passage.Sung.Count == 0)
            {
                continue;
            }

            string text = PassageText.Write(passage);
            PassageLoad back = Read(text);
            Assert.True(back.Passage is not null, $"seed {seed}, round {round}: {back.Problem}\n{text}");
            Same(passage, back.Passage);
        }
    }

    [Fact]
    public void Random_bytes_never_throw()
    {
        const int seed = 9;
        Random random = new(seed);
        byte[] good = File.ReadAllBytes(Path.Combine(PassageFile.ShippedFolder, "two-breaths-one-pipe-low.txt"));
        for (int i = 0; i < 2000; i++)
        {
            byte[] bytes = [.. good.Take(random.Next(good.Length + 1))];
            for (int k = 0; k < 3 && bytes.Length > 0; k++)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            }

            PassageLoad load = PassageFile.Parse(bytes, "own.txt");
            Assert.True(load.Passage is null != load.Problem is null, $"seed {seed}, round {i}");
        }
    }

    internal static void Same(Passage expected, Passage? actual)
    {
        Assert.NotNull(actual);
        Assert.Equal(expected.Title, actual.Title);
        Assert.Equal(expected.Root, actual.Root);
        Assert.Equal(expected.Bars, actual.Bars);
        Assert.Equal(expected.Tempos, actual.Tempos);
        Assert.Equal(expected.Played, actual.Played);
        Assert.Equal(expected.Sung, actual.Sung);
    }
}
