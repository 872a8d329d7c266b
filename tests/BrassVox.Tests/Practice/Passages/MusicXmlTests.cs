using System.IO.Compression;
using System.Text;
using BrassVox.Practice.Passages;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Passages;

/// <summary>MusicXML 4.0 (W3C Community Group); transposition values as tabled for brass parts: written C4 sounds lower by the part's interval.</summary>
public sealed class MusicXmlTests
{
    private const string Head = """
        <?xml version="1.0" encoding="UTF-8"?>
        <!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
        <score-partwise version="4.0"><movement-title>Line</movement-title>
        """;

    private const string TwoParts = Head + """
        <part-list><score-part id="P1"><part-name>Sung</part-name></score-part><score-part id="P2"><part-name>Euphonium</part-name></score-part></part-list>
        <part id="P1"><measure number="1">
        <attributes><divisions>6</divisions><time><beats>2</beats><beat-type>4</beat-type></time></attributes>
        <direction><sound tempo="72"/></direction>
        <note><pitch><step>F</step><octave>3</octave></pitch><duration>4</duration><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>
        <note><pitch><step>G</step><octave>3</octave></pitch><duration>4</duration></note>
        <note><pitch><step>A</step><alter>-1.14</alter><octave>3</octave></pitch><duration>4</duration><tie type="start"/></note></measure>
        <measure number="2"><note><pitch><step>A</step><alter>-1.14</alter><octave>3</octave></pitch><duration>6</duration><tie type="stop"/></note><note><rest/><duration>6</duration></note></measure></part>
        <part id="P2"><measure number="1">
        <attributes><divisions>2</divisions><time><beats>2</beats><beat-type>4</beat-type></time><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose></attributes>
        <note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></measure>
        <measure number="2"><note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>4</duration></note><barline location="right"><repeat direction="backward"/></barline></measure></part>
        </score-partwise>
        """;

    [Fact]
    public void Two_parts_are_read_with_transposition_tuplets_ties_cents_and_tempo()
    {
        Passage passage = Read(TwoParts).Passage!;
        const int Q = Passage.TicksPerQuarter;
        Assert.Equal([new PassageTempo(0, 72)], passage.Tempos);
        Assert.Equal([new PassageNote(0, 2 * Q, Pitch.Parse("Bb2")), new PassageNote(2 * Q, 2 * Q, Pitch.Parse("E3"))], passage.Played);
        Assert.Equal(
            [
                new PassageNote(0, 2 * Q / 3, Pitch.Parse("F3")), new PassageNote(2 * Q / 3, 2 * Q / 3, Pitch.Parse("G3")),
                new PassageNote(4 * Q / 3, (2 * Q / 3) + Q, Pitch.Parse("Ab3"), -14),
            ],
            passage.Sung);
        Assert.Contains(passage.Remarks, remark => remark.Contains("repeat", StringComparison.Ordinal));
        PassageTextTests.Same(passage with { Root = null }, PassageTextTests.Read(PassageText.Write(passage)).Passage);
    }

    /// <summary>Written C4 and what it sounds: Bb trumpet, horn in F, treble-clef euphonium, treble-clef Bb and Eb bass (MusicXML 4.0, transpose; usual part writing).</summary>
    [Theory]
    [InlineData("<diatonic>-1</diatonic><chromatic>-2</chromatic>", "Bb3")]
    [InlineData("<diatonic>-4</diatonic><chromatic>-7</chromatic>", "F3")]
    [InlineData("<chromatic>-7</chromatic>", "F3")]
    [InlineData("<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change>", "Bb2")]
    [InlineData("<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-2</octave-change>", "Bb1")]
    [InlineData("<diatonic>-5</diatonic><chromatic>-9</chromatic><octave-change>-1</octave-change>", "Eb2")]
    [InlineData("<chromatic>0</chromatic><double/>", "C3")]
    public void Transposing_parts_sound_right(string transpose, string sounds)
    {
        string part = $"<measure number='1'><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time><transpose>{transpose}</transpose></attributes><note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></measure>";
        Passage passage = Read(OnePart(part)).Passage!;
        Assert.Equal(Pitch.Parse(sounds), passage.Played.Single().Note);
    }

    [Fact]
    public void A_chord_that_outlasts_its_bar_is_refused_with_its_line()
    {
        PassageLoad load = Read(OnePart("<measure number='1'><attributes><divisions>1</divisions></attributes><note><pitch><step>C</step><octave>3</octave></pitch><duration>4</duration></note><note><chord/><pitch><step>G</step><octave>3</octave></pitch><duration>9</duration></note></measure>"));
        Assert.Contains("lasts 9 quarter notes", load.Problem!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_transposition_out_of_all_octaves_is_refused()
    {
        PassageLoad load = Read(OnePart("<measure number='1'><attributes><divisions>1</divisions><transpose><chromatic>-24</chromatic></transpose></attributes><note><pitch><step>C</step><octave>0</octave></pitch><duration>4</duration></note></measure>"));
        Assert.Contains("sounds in octave -2", load.Problem!.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_XML_is_told_without_its_control_characters()
    {
        PassageLoad load = Read("<score-partwise><\u001b[31m/></score-partwise>");
        Assert.DoesNotContain(load.Problem!.ToString(), char.IsControl);
    }

    [Theory]
    [InlineData("3+2", null)]
    [InlineData("65", "no number of beats from 1 to 64")]
    [InlineData("2147483647+2147483647+2147483647", "no number of beats from 1 to 64")]
    public void Beats_are_added_up_to_64(string beats, string? refused)
    {
        PassageLoad load = Read(OnePart($"<measure number='1'><attributes><divisions>1</divisions><time><beats>{beats}</beats><beat-type>4</beat-type></time></attributes><note><pitch><step>C</step><octave>3</octave></pitch><duration>5</duration></note></measure>"));
        Assert.Contains(refused ?? "none", load.Problem?.Message ?? "none", StringComparison.Ordinal);
        Assert.Equal(refused is null ? 5 : 0, load.Passage?.Bars[0].Beats ?? 0);
    }

    [Fact]
    public void Two_voices_of_one_part_are_told_by_their_heads()
    {
        Passage passage = Read(OnePart("""
            <measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
            <note><pitch><step>F</step><octave>3</octave></pitch><duration>4</duration><voice>1</voice><notehead>diamond</notehead></note><backup><duration>4</duration></backup>
            <note><pitch><step>B</step><alter>-1</alter><octave>2</octave></pitch><duration>2</duration><voice>2</voice></note><forward><duration>1</duration></forward>
            <note><pitch><step>C</step><octave>3</octave></pitch><duration>1</duration><voice>2</voice></note></measure>
            """)).Passage!;
        Assert.Equal(["F3"], passage.Sung.Select(note => note.Note.ToString()));
        Assert.Equal(["Bb2", "C3"], passage.Played.Select(note => note.Note.ToString()));
        Assert.Equal(3 * Passage.TicksPerQuarter, passage.Played[1].StartTick);
    }

    [Fact]
    public void Chords_with_a_marked_head_are_played_and_sung()
    {
        Passage passage = Read(OnePart("""
            <measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
            <note><pitch><step>F</step><octave>3</octave></pitch><duration>2</duration></note><note><chord/><pitch><step>C</step><octave>3</octave></pitch><duration>2</duration><notehead>x</notehead></note>
            <note><pitch><step>B</step><alter>-1</alter><octave>2</octave></pitch><duration>2</duration></note></measure>
            """)).Passage!;
        Assert.Equal(["F3", "Bb2"], passage.Played.Select(note => note.Note.ToString()));
        Assert.Equal(["C3"], passage.Sung.Select(note => note.Note.ToString()));
    }

    [Fact]
    public void A_compressed_score_is_read()
    {
        using var bytes = new MemoryStream();
        using (var archive = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Put(archive, "META-INF/container.xml", "<container><rootfiles><rootfile full-path='a/score.musicxml'/></rootfiles></container>");
            Put(archive, "a/score.musicxml", TwoParts);
        }

        PassageTextTests.Same(Read(TwoParts).Passage!, PassageFile.Parse(bytes.ToArray(), "line.mxl").Passage);
    }

    [Fact]
    public void A_compressed_bomb_is_one_clear_line()
    {
        using var bytes = new MemoryStream();
        using (var archive = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Put(archive, "META-INF/container.xml", "<container><rootfiles><rootfile full-path='score.xml'/></rootfiles></container>");
            using Stream big = archive.CreateEntry("score.xml").Open();
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 20; i++)
            {
                big.Write(zeros);
            }
        }

        Assert.True(bytes.Length < 100_000);
        Assert.Contains("unpacks to more", PassageFile.Parse(bytes.ToArray(), "bomb.mxl").Problem!.Message, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Broken() => new()
    {
        { "<score-partwise>", "no whole MusicXML" },
        { "<html/>", "is it MusicXML" },
        { "<score-timewise/>", "part-wise" },
        { "<!DOCTYPE a [<!ENTITY e SYSTEM 'file:///etc/hostname'>]><score-partwise><movement-title>&e;</movement-title></score-partwise>", "no whole MusicXML" },
        { "<!DOCTYPE a [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>]><score-partwise>&b;</score-partwise>", "no whole MusicXML" },
        { string.Concat(Enumerable.Repeat("<a>", 5000)), "deeper" },
        { "<score-partwise/>", "no part" },
        { OnePart("<measure><note><pitch><step>H</step><octave>4</octave></pitch><duration>1</duration></note></measure>"), "step A to G" },
        { OnePart("<measure><note><pitch><step>C</step><octave>4</octave></pitch></note></measure>"), "no duration" },
        { OnePart("<measure><attributes><divisions>0</divisions></attributes></measure>"), "divisions" },
        { OnePart("<measure><backup><duration>9</duration></backup></measure>"), "out of its bar" },
        { OnePart("<measure><note><rest/><duration>9</duration></note></measure>"), "more than 4/4" },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void A_broken_score_is_one_clear_line(string text, string reason)
    {
        PassageLoad load = Read(text);
        Assert.Null(load.Passage);
        Assert.Contains(reason, load.Problem!.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain('\n', load.Problem.ToString());
    }

    [Fact]
    public void A_damaged_score_never_throws()
    {
        const int seed = 3;
        Random random = new(seed);
        byte[] good = Encoding.UTF8.GetBytes(TwoParts);
        for (int i = 0; i < 1000; i++)
        {
            byte[] bytes = [.. good];
            for (int k = 0; k < 4; k++)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(32, 127);
            }

            PassageLoad load = PassageFile.Parse(bytes, "x.musicxml");
            Assert.True(load.Passage is null != load.Problem is null, $"seed {seed}, round {i}");
        }
    }

    private static string OnePart(string bars) =>
        $"<score-partwise><part-list><score-part id='P1'><part-name>Trombone</part-name></score-part></part-list><part id='P1'>{bars}</part></score-partwise>";

    private static PassageLoad Read(string text) => PassageFile.Parse(Encoding.UTF8.GetBytes(text), "x.musicxml");

    private static void Put(ZipArchive archive, string name, string text)
    {
        using Stream entry = archive.CreateEntry(name).Open();
        entry.Write(Encoding.UTF8.GetBytes(text));
    }
}
