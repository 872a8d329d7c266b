using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>What holds for a passage from any kind of file: it can be shown, and written as text that reads back to the same notes.</summary>
internal abstract class PassageReader(string name, int share) : FuzzReader(name, share)
{
    private const int MostNotesShown = 300;
    private static readonly PlayerProfile Player = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low);

    public override bool Read(byte[] input, string folder)
    {
        PassageLoad load = PassageFile.Parse(input, "x");
        if (load.Passage is not { } passage)
        {
            IsOneLine(load.Problem?.ToString());
            return false;
        }

        IsTame(passage.Title);
        foreach (string remark in passage.Remarks)
        {
            IsTame(remark);
        }

        if (passage.Played.Count + passage.Sung.Count > MostNotesShown || passage.Bars.Count > MostNotesShown)
        {
            return true;
        }

        string text = PassageText.Write(passage);
        PassageLoad again = PassageFile.Parse(Utf8(text), "again");
        Holds(again.Passage is not null, $"what it is written as is refused: {again.Problem}");
        Holds(again.Passage!.Played.SequenceEqual(passage.Played) && again.Passage.Sung.SequenceEqual(passage.Sung), "what it is written as has other notes");
        try
        {
            PassageReport report = PassageReport.Of(passage, Player);
            Holds(report.Moments.All(moment => moment.Cents is null or (> -1e6 and < 1e6) && double.IsFinite(moment.Seconds)), "figures of a moment are numbers");
        }
        catch (ArgumentException told)
        {
            IsOneLine(told.Message);
        }

        return true;
    }
}

/// <summary>Our own text.</summary>
internal sealed class TextPassageReader() : PassageReader("text", 30)
{
    private static readonly string[] Seeds =
    [
        .. Directory.GetFiles(PassageFile.ShippedFolder, "*.txt").Order(StringComparer.Ordinal).Select(File.ReadAllText),
        "title: T\ntime: 3/4\ntempo: 72.5\nroot: Eb3\nshort: 1/4\nP: Bb2/4 |\nS: r/4 |\nP: 3:2( Bb2/8 C3 D3 ) F3-14/2~ | F3-14/2. |\nS: t=90 Bb3/4. C4/8~ C4/4 | r=10080 Bb3=20160 |\n",
        "# c\nP: C3\nS: G3/4\n",
    ];

    private static readonly string[] Dictionary =
    [
        "P:", "S:", "title:", "time:", "tempo:", "root:", "short:", "|", "\n", "3:2(", "15:16(", "2:1(", ")", "~", "r", "Bb2", "F#3", "Cbb-1", "Gx9", "/4", "/64..", "/1", "=1", "=99999999", "=10080", "t=40", "t=400", "+50", "-14.5", "+9999999999", ":", "(", "4/4", "64/1", "1/64", "#",
    ];

    public override byte[] Make(Random random)
    {
        byte[] text = Utf8(Mutations.Words(random, random.Pick(Seeds), Dictionary));
        return random.Chance(8) ? Mutations.Bytes(random, text) : text;
    }
}

/// <summary>Standard MIDI Files: events at random with honest and dishonest lengths.</summary>
internal sealed class MidiReader() : PassageReader("midi", 30)
{
    public override byte[] Make(Random random)
    {
        var file = new MemoryStream();
        int spoilt = random.Chance(2) ? 1 : 50;
        int tracks = random.Chance(4) ? random.Next(1, 4) : 2;
        byte[] head = new byte[random.Chance(10 * spoilt) ? random.Next(12) : 6];
        if (head.Length >= 6)
        {
            head[1] = (byte)random.Pick([0, 1, 2, 7]);
            head[3] = (byte)(random.Chance(8 * spoilt) ? random.Next(256) : tracks);
            BinaryPrimitives.WriteInt16BigEndian(head.AsSpan(4), (short)(random.Chance(4 * spoilt) ? random.Pick([1, 0, -1, 32767, -6120]) : random.Pick([480, 960, 96, 24])));
        }

        Chunk(file, "MThd", head, random, spoilt);
        for (int i = 0; i < tracks; i++)
        {
            Chunk(file, random.Chance(20 * spoilt) ? "XFIH" : "MTrk", Track(random, spoilt), random, spoilt);
        }

        return random.Chance(3 * spoilt) ? Mutations.Bytes(random, file.ToArray()) : Mutations.Swollen(random, file.ToArray());
    }

    private static byte[] Track(Random random, int spoilt)
    {
        var track = new MemoryStream();
        int channel = random.Next(16);
        int status = 0;
        for (int events = random.Next(1, 30); events > 0; events--)
        {
            Length(track, random.Chance(25 * spoilt) ? random.Next(1 << 28) : random.Pick([0, 0, 120, 240, 480, 960]));
            switch (random.Next(spoilt > 1 ? 7 : 12))
            {
                case < 6:
                    int note = random.Chance(10 * spoilt) ? random.Next(256) : random.Next(40, 70);
                    int wanted = (random.Chance(12 * spoilt) ? 0x80 : 0x90) | channel;
                    if (wanted != status || random.Chance(2))
                    {
                        track.WriteByte((byte)(status = wanted));
                    }

                    track.Write([(byte)note, (byte)random.Pick([100, 1, 127])]);
                    Length(track, random.Pick([0, 120, 240, 480, 960]));
                    track.Write(random.Chance(15 * spoilt) ? [] : [(byte)note, 0]);
                    break;
                case 6:
                    Meta(track, 0x51, random.Chance(3 * spoilt) ? Some(random, random.Next(5)) : [0x0F, 0x42, 0x40], random);
                    break;
                case 7:
                    Meta(track, 0x58, random.Chance(3) ? Some(random, random.Next(6)) : [(byte)random.Pick([1, 3, 4, 64, 255]), (byte)random.Next(8), 24, 8], random);
                    break;
                case 8:
                    Meta(track, random.Pick([1, 3, 3, 4, 5, 0x20, 0x21, 0x54, 0x59, 0x7F, random.Next(128)]), Some(random, random.Next(20)), random);
                    break;
                case 9:
                    track.Write([0xF0]);
                    byte[] exclusive = Some(random, random.Next(8));
                    Length(track, exclusive.Length);
                    track.Write(exclusive);
                    break;
                case 10:
                    track.Write([(byte)(0xE0 | channel), (byte)random.Next(128), (byte)random.Next(128)]);
                    break;
                default:
                    track.Write([(byte)random.Next(0x80, 0x100), (byte)random.Next(128), (byte)random.Next(128)]);
                    break;
            }
        }

        if (!random.Chance(8 * spoilt))
        {
            track.Write([0, 0xFF, 0x2F, 0]);
        }

        return track.ToArray();
    }

    private static byte[] Some(Random random, int length)
    {
        byte[] bytes = new byte[length];
        random.NextBytes(bytes);
        return bytes;
    }

    private static void Meta(MemoryStream track, int kind, byte[] body, Random random)
    {
        track.Write([0xFF, (byte)kind]);
        Length(track, random.Chance(20) ? random.Next(1 << 28) : body.Length);
        track.Write(body);
    }

    private static void Length(MemoryStream track, int value)
    {
        for (int shift = 21; shift > 0; shift -= 7)
        {
            if (value >> shift != 0)
            {
                track.WriteByte((byte)(0x80 | ((value >> shift) & 0x7F)));
            }
        }

        track.WriteByte((byte)(value & 0x7F));
    }

    private static void Chunk(MemoryStream file, string id, byte[] body, Random random, int spoilt)
    {
        file.Write(Encoding.ASCII.GetBytes(id));
        byte[] length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, random.Chance(20 * spoilt) ? random.Pick([0, -1, int.MaxValue, body.Length + 1, body.Length / 2]) : body.Length);
        file.Write(length);
        file.Write(body);
    }
}

/// <summary>MusicXML, in several encodings.</summary>
internal sealed class MusicXmlReader() : PassageReader("musicxml", 16)
{
    private static readonly string[] Dictionary =
        ["yes", "start", "stop", "quarter", "diamond", "C", "G", "0", "4", "9", "1", "2", "8", "3+2", "-12", "12", "1e7", "16384", "tuning-root", "Bb2", "sung", "<grace/>", "&amp;", "&#27;", "&#x9b;", "<![CDATA[x]]>", "<!DOCTYPE a [<!ENTITY e \"x\">]>", "&e;", "<?pi?>"];

    internal static readonly string[] Seeds =
    [
        """
        <score-partwise version="4.0"><movement-title>T</movement-title><identification><miscellaneous><miscellaneous-field name="tuning-root">Bb2</miscellaneous-field></miscellaneous></identification><part-list><score-part id="A"><part-name>Horn</part-name></score-part><score-part id="B"><part-name>Voice</part-name></score-part></part-list><part id="A"><measure number="1"><attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose></attributes><direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>72</per-minute></metronome></direction-type><sound tempo="72"/></direction><note><pitch><step>C</step><alter>-1</alter><octave>4</octave></pitch><duration>4</duration><tie type="start"/><voice>1</voice></note><note><pitch><step>C</step><alter>-1</alter><octave>4</octave></pitch><duration>4</duration><tie type="stop"/><voice>1</voice></note></measure><measure number="2"><note><rest/><duration>4</duration></note><note><pitch><step>G</step><octave>3</octave></pitch><duration>4</duration></note></measure></part><part id="B"><measure number="1"><attributes><divisions>3</divisions></attributes><note><pitch><step>F</step><alter>0.5</alter><octave>3</octave></pitch><duration>12</duration></note></measure><measure number="2"><note><pitch><step>F</step><octave>3</octave></pitch><duration>4</duration></note><backup><duration>4</duration></backup><forward><duration>12</duration></forward></measure></part></score-partwise>
        """,
        """
        <score-partwise version="4.0"><part-list><score-part id="A"><part-name>x</part-name></score-part></part-list><part id="A"><measure number="0" implicit="yes"><attributes><divisions>1</divisions><time><beats>3+2</beats><beat-type>8</beat-type></time></attributes><note><pitch><step>B</step><alter>-1</alter><octave>2</octave></pitch><duration>1</duration></note><note><chord/><pitch><step>F</step><octave>3</octave></pitch><duration>1</duration><notehead>diamond</notehead></note><note><grace/><pitch><step>F</step><octave>3</octave></pitch></note></measure><measure number="1"><note><cue/><pitch><step>B</step><octave>2</octave></pitch><duration>2</duration></note><barline><repeat direction="backward"/></barline></measure></part></score-partwise>
        """,
    ];

    public override byte[] Make(Random random) => Score(random);

    internal static byte[] Score(Random random)
    {
        string text = Mutations.Xml(random, random.Pick(Seeds), Dictionary);
        byte[] bytes = random.Next(20) switch
        {
            0 => [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(text)],
            1 => [.. Encoding.BigEndianUnicode.Preamble, .. Encoding.BigEndianUnicode.GetBytes(text)],
            2 => Utf8($"<?xml version=\"1.0\" encoding=\"{random.Pick(["UTF-16", "ISO-8859-1", "utf-7", "x", "", "US-ASCII", "utf-32"])}\"?>{text}"),
            3 => Utf8($"<!DOCTYPE score-partwise {random.Pick(["[<!ENTITY e \"x\">]", "SYSTEM \"file:///etc/hostname\"", "PUBLIC \"\" \"\"", "["])}>{text}"),
            _ => Utf8(text),
        };
        return random.Chance(10) ? Mutations.Bytes(random, bytes) : Mutations.Swollen(random, bytes);
    }
}

/// <summary>Compressed MusicXML: archives with other entries, other names, and spoiled bytes.</summary>
internal sealed class ArchiveReader() : PassageReader("mxl", 8)
{
    private const string Container = "META-INF/container.xml";

    public override byte[] Make(Random random)
    {
        var packed = new MemoryStream();
        using (var archive = new ZipArchive(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            string path = random.Pick(["score.xml", "in/score.musicxml", "../x.xml", "", "/", "a\\b.xml", "META-INF/container.xml"]);
            List<(string Name, byte[] Body)> entries =
            [
                (Container, Utf8(Mutations.Xml(random, $"<container><rootfiles><rootfile full-path=\"{path}\"/></rootfiles></container>", ["score.xml", Container, "x"]))),
                (random.Chance(10) ? "other.xml" : path, MusicXmlReader.Score(random)),
            ];
            if (random.Chance(5))
            {
                entries.RemoveAt(random.Next(2));
            }

            if (random.Chance(6))
            {
                entries.Add((random.Pick(["score.xml", Container, "b.xml", "x.png"]), new byte[random.Chance(50) ? 20_000_000 : 100]));
            }

            foreach ((string name, byte[] body) in entries.OrderBy(_ => random.Next()))
            {
                using Stream entry = archive.CreateEntry(name.Length == 0 ? "x" : name, random.Chance(2) ? CompressionLevel.NoCompression : CompressionLevel.Fastest).Open();
                entry.Write(body);
            }
        }

        return random.Chance(2) ? Mutations.Bytes(random, packed.ToArray()) : packed.ToArray();
    }
}
