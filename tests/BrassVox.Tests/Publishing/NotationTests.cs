using System.Xml.Linq;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Notation;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Publishing;

/// <summary>Notation: what is written is read back, transposed as the standard says, bent to the exact pitch.</summary>
public sealed class NotationTests
{
    private static readonly PlayerProfile Tuba = PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low);

    // MIDI 1.0: 8192 is the centre; values of our own arithmetic, range +/-200 cents, ends clamped.
    [Xunit.Theory]
    [InlineData(0, 8192)]
    [InlineData(50, 10240)]
    [InlineData(-13.686, 7631)]
    [InlineData(-31.174, 6915)]
    [InlineData(1.955, 8272)]
    [InlineData(-48.682, 6198)]
    [InlineData(200, 16383)]
    public void Bend_is_the_standards(double cents, int bend) => Assert.Equal(bend, MidiScore.Bend(cents, 2));

    // MusicXML 4.0, element transpose, and its examples: what is added to the written note.
    [Xunit.Theory]
    [InlineData(Instrument.Trumpet, true, -1, -2, 0, "Bb3")]
    [InlineData(Instrument.Horn, true, -4, -7, 0, "F3")]
    [InlineData(Instrument.Euphonium, true, -1, -2, -1, "Bb2")]
    [InlineData(Instrument.Tuba, true, -1, -2, -2, "Bb1")]
    public void Written_C4_sounds_as_the_part_says(Instrument instrument, bool readsTransposed, int diatonic, int chromatic, int octaves, string sounding)
    {
        WrittenPart part = WrittenPart.Of(instrument, readsTransposed);
        Assert.Equal((diatonic, chromatic, octaves), (part.Diatonic, part.Chromatic, part.OctaveChange));
        Assert.Equal("C4", part.Written(Pitch.Parse(sounding)).ToString());
        var document = XDocument.Parse(System.Text.Encoding.UTF8.GetString(MusicXml.Write(Score.Of(Shipped(), Tuba, part))));
        XElement transpose = document.Descendants("transpose").First();
        Assert.Equal(octaves == 0 ? null : octaves.ToString(System.Globalization.CultureInfo.InvariantCulture), (string?)transpose.Element("octave-change"));
        Assert.Equal("C4", WrittenPart.Concert.Written(Pitch.Parse("C4")).ToString());
    }

    [Xunit.Theory]
    [InlineData(Instrument.Tuba, false, true)]
    [InlineData(Instrument.Tuba, true, false)]
    [InlineData(Instrument.Horn, true, true)]
    [InlineData(Instrument.Horn, false, false)]
    [InlineData(Instrument.Trumpet, true, true)]
    [InlineData(Instrument.Trumpet, false, false)]
    public void MusicXml_reads_back_without_loss(Instrument instrument, bool readsTransposed, bool withResultants)
    {
        Passage[] passages =
        [
            Shipped(),
            Read("title: Odd \"<&\nroot: F2\ntime: 3/4\ntempo: 72.5\nP: F2/4 Bb2-14/2 | C#3/2. |\nS: F#3/4. G3/8 r/4 | Ab3/2 r/4 |\n"u8.ToArray(), "odd.txt"),
        ];
        foreach (Passage passage in passages)
        {
            Score score = Score.Of(passage, Tuba, WrittenPart.Of(instrument, readsTransposed), withResultants);
            foreach (Passage back in new[] { Read(MusicXml.Write(score), "back.musicxml"), Read(CompressedScore.Write(score), "back.mxl") })
            {
                Assert.Equal((passage.Title, passage.Root), (back.Title, back.Root));
                Assert.Equal(passage.Bars, back.Bars);
                Assert.Equal(passage.Tempos, back.Tempos);
                Assert.Equal(passage.Played, back.Played);
                Assert.Equal(passage.Sung, back.Sung);
            }
        }
    }

    // MusicXML 4.0, "Compressed .MXL files": the media type comes first, neither compressed nor with an extra field.
    [Fact]
    public void A_compressed_score_begins_with_its_media_type()
    {
        Score score = Score.Of(Shipped(), Tuba, WrittenPart.Concert);
        byte[] bytes = CompressedScore.Write(score);
        Assert.Equal("504B0304", Convert.ToHexString(bytes.AsSpan(0, 4)));
        Assert.Equal((0, 8, 0), (BitConverter.ToUInt16(bytes, 8), BitConverter.ToUInt16(bytes, 26), BitConverter.ToUInt16(bytes, 28))); // method, lengths of name and extra field
        Assert.Equal("mimetypeapplication/vnd.recordare.musicxml", System.Text.Encoding.ASCII.GetString(bytes, 30, 42));
        Assert.True(bytes.Length < MusicXml.Write(score).Length / 5);
        Assert.Equal(bytes, CompressedScore.Write(score));
    }

    [Fact]
    public void Midi_reads_back_its_notes_in_time()
    {
        Passage passage = Shipped();
        Passage back = Read(MidiScore.Write(Score.Of(passage, Tuba, WrittenPart.Concert)), "back.mid");
        Assert.Equal(passage.Played.Select(note => (note.StartTick, note.LengthTicks, note.Note.MidiNumber)), back.Played.Select(note => (note.StartTick, note.LengthTicks, note.Note.MidiNumber)));
        Assert.Equal(passage.Sung.Select(note => (note.StartTick, note.LengthTicks, note.Note.MidiNumber)), back.Sung.Select(note => (note.StartTick, note.LengthTicks, note.Note.MidiNumber)));
    }

    [Xunit.Theory]
    [InlineData("just")]
    [InlineData("equal")]
    [InlineData("meantone")]
    public void A_passage_is_written_in_the_pitches_it_is_practised_in(string tuning)
    {
        PlayerProfile player = Tuba with { TuningName = tuning, A4Hz = 442 };
        Passage passage = Read("title: Off\nroot: Bb2\ntime: 4/4\nP: Bb2+20/1 | Eb3/1 |\nS: F3/2 G3-10/2 | C4/1 |\n"u8.ToArray(), "off.txt");
        Score score = Score.Of(passage, player, WrittenPart.Concert);
        PassageMoment[] asked = [.. PassageReport.Of(passage, player).Moments];
        Assert.Equal(3, asked.Length);
        Assert.Equal(asked.Select(moment => moment.SungHz!.Value), score.Sung.Select(note => note.FromHz), (one, other) => Math.Abs(one - other) < 1e-9);
        Assert.Equal([asked[0].PlayedHz!.Value, asked[2].PlayedHz!.Value], score.Played.Select(note => note.FromHz), (one, other) => Math.Abs(one - other) < 1e-9);
        double sixth = tuning switch { "just" => 1200 * Math.Log2(5.0 / 3), "equal" => 900, _ => (3 * 1200 * Math.Log2(Math.Pow(5, 0.25))) - 1200 };
        Assert.Equal(sixth, 1200 * Math.Log2(score.Sung[2].FromHz / score.Played[1].FromHz), 6);
    }

    [Fact]
    public void Pure_intervals_and_sung_heads_are_written()
    {
        Score score = Score.Of(Shipped(), Tuba, WrittenPart.Concert, withResultants: true);
        Assert.Equal(1.5, score.Sung[0].FromHz / score.Played[0].FromHz, 9); // F over Bb: the pure fifth, 3:2
        Assert.Equal("Bb1", score.Made[0].Note.ToString()); // and what it makes, an octave below P
        var document = XDocument.Parse(System.Text.Encoding.UTF8.GetString(MusicXml.Write(score)));
        XElement[] parts = [.. document.Descendants("part")];
        Assert.Empty(parts[0].Descendants("notehead"));
        Assert.All(parts[1].Descendants("note").Where(note => note.Element("pitch") is not null), note => Assert.Equal("diamond", (string?)note.Element("notehead")));
        Assert.Equal(3, parts.Length);
    }

    [Fact]
    public void Each_play_along_exercise_is_written_and_a_listening_one_is_refused()
    {
        int written = 0;
        foreach (Exercise exercise in ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, "").Exercises)
        {
            ResolvedExercise resolved = ExerciseResolver.Resolve(exercise, Tuba, null).Resolved!;
            if (resolved.Steps.Count == 0)
            {
                Assert.Throws<ArgumentException>(() => Score.Of(resolved, WrittenPart.Concert));
                continue;
            }

            Score score = Score.Of(resolved, WrittenPart.Concert, withResultants: true);
            Assert.NotEmpty(MidiScore.Write(score));
            Assert.NotEmpty(Read(MusicXml.Write(score), exercise.Id).Bars);
            written++;
        }

        Assert.True(written > 15);
    }

    [Fact]
    public void User_words_stay_inside_their_quotes() => Assert.Equal("\"a\\\" #(exit) \\\\b\"", LilyPondText.Quoted("a\" #(exit) \\b\n"));

    [Fact]
    public void A_hostile_title_is_nowhere_carried_out()
    {
        const string Hostile = "\" } #(system \"touch here\") \\include \"x\" <b>&";
        Score score = Score.Of(Shipped(), Tuba, WrittenPart.Concert);
        score = score with { Title = Hostile, Played = [score.Played[0] with { Text = Hostile }, .. score.Played.Skip(1)] };
        string outsideQuotes = System.Text.RegularExpressions.Regex.Replace(LilyPondText.Write(score), "\"(?:[^\"\\\\]|\\\\.)*\"", "");
        Assert.DoesNotContain("\"", outsideQuotes, StringComparison.Ordinal);
        Assert.DoesNotContain("system", outsideQuotes, StringComparison.Ordinal);
        Assert.DoesNotContain("include", outsideQuotes, StringComparison.Ordinal);
        Assert.Equal(LilyPondText.Write(score with { Title = "" }), LilyPondText.Write(score));
        Assert.Contains(Hostile, XDocument.Parse(System.Text.Encoding.UTF8.GetString(MusicXml.Write(score))).Descendants().Where(element => !element.HasElements).Select(element => element.Value));
    }

    [Fact]
    public void Without_an_engraver_the_reason_comes_back()
    {
        Engraving engraving = new Engraver("no-such-engraver").Engrave(Score.Of(Shipped(), Tuba, WrittenPart.Concert));
        Assert.Null(engraving.Svg);
        Assert.Contains("install LilyPond", engraving.WhyNot, StringComparison.Ordinal);
    }

    private static Passage Shipped() => ShippedPassages.Load(ShippedPassages.First, Tuba).Passage!;

    private static Passage Read(byte[] bytes, string name)
    {
        PassageLoad load = PassageFile.Parse(bytes, name);
        return load.Passage ?? throw new InvalidOperationException(load.Problem!.ToString());
    }
}
