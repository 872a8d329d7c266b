using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using BrassVox.Practice.Passages;
using BrassVox.Theory;

namespace BrassVox.Publishing.Notation;

/// <summary>Writes a score as MusicXML 4.0, score-partwise.</summary>
/// <remarks>Source: MusicXML 4.0, W3C Music Notation Community Group. Cents of a note stand in alter as decimal semitones; tuning is not written.</remarks>
public static class MusicXml
{
    /// <summary>Name of the field that holds the root of a passage's tuning.</summary>
    public const string RootField = "tuning-root";

    /// <summary>The file's bytes, UTF-8.</summary>
    /// <param name="score">The score.</param>
    public static byte[] Write(Score score)
    {
        List<(string Name, IReadOnlyList<ScoreNote> Notes, bool IsSung, WrittenPart Part)> parts =
        [
            (score.Part.IsTransposed ? $"Played {score.Part.Key}" : "Played", score.Played, false, score.Part),
            (score.Part.IsTransposed ? $"Sung {score.Part.Key}" : "Sung", score.Sung, true, score.Part),
        ];
        if (score.Made.Count > 0)
        {
            parts.Add(("Resultant S-P", score.Made, false, WrittenPart.Concert));
        }

        var root = new XElement("score-partwise", new XAttribute("version", "4.0"));
        if (score.Title.Length > 0)
        {
            root.Add(new XElement("movement-title", Clean(score.Title)));
        }

        root.Add(new XElement("identification",
            new XElement("encoding", new XElement("software", "BrassVox")),
            score.Root is { } tuningRoot
                ? new XElement("miscellaneous", new XElement("miscellaneous-field", new XAttribute("name", RootField), tuningRoot.ToString()))
                : null));
        root.Add(new XElement("part-list", parts.Select((part, i) =>
            new XElement("score-part", new XAttribute("id", Id(i)), new XElement("part-name", part.Name)))));
        for (int i = 0; i < parts.Count; i++)
        {
            (_, IReadOnlyList<ScoreNote> notes, bool isSung, WrittenPart written) = parts[i];
            root.Add(new XElement("part", new XAttribute("id", Id(i)), score.Bars.Select((bar, at) =>
                Measure(score, at, notes, isSung, written, isFirst: i == 0))));
        }

        using var stream = new MemoryStream();
        using (var writer = XmlWriter.Create(stream, new XmlWriterSettings { Indent = true, NewLineChars = "\n", Encoding = new UTF8Encoding(false) }))
        {
            new XDocument(root).Save(writer);
        }

        return stream.ToArray();
    }

    private static string Id(int index) => string.Create(CultureInfo.InvariantCulture, $"P{index + 1}");

    private static string Clean(string text) => string.Concat(text.Where(XmlConvert.IsXmlChar));

    private static XElement Measure(Score score, int index, IReadOnlyList<ScoreNote> notes, bool isSung, WrittenPart part, bool isFirst)
    {
        PassageBar bar = score.Bars[index];
        PassageBar? before = index > 0 ? score.Bars[index - 1] : null;
        var measure = new XElement("measure", new XAttribute("number", bar.Number));
        if (bar.LengthTicks < bar.FullTicks)
        {
            measure.Add(new XAttribute("implicit", "yes"));
        }

        bool newTime = before is null || (before.Beats, before.BeatUnit) != (bar.Beats, bar.BeatUnit);
        if (newTime)
        {
            measure.Add(new XElement("attributes",
                before is null ? new XElement("divisions", Passage.TicksPerQuarter) : null,
                before is null ? new XElement("key", new XElement("fifths", 0)) : null,
                new XElement("time", new XElement("beats", bar.Beats), new XElement("beat-type", bar.BeatUnit)),
                before is null ? Clef(part) : null,
                before is null && part.IsTransposed ? Transpose(part) : null));
        }

        if (isFirst && index == 0)
        {
            measure.Add(Direction(new XElement("words", Score.Legend), "above"));
        }

        IEnumerable<PassageTempo> tempos = isFirst ? score.Tempos.Where(tempo => tempo.Tick >= bar.StartTick && tempo.Tick < bar.StartTick + bar.LengthTicks) : [];
        foreach (PassageTempo tempo in tempos.Where(tempo => tempo.Tick == bar.StartTick))
        {
            measure.Add(TempoDirection(tempo));
        }

        Written[] all = [.. Written.Bar(bar, notes)];
        for (int i = 0; i < all.Length; i++)
        {
            if (all[i].Note?.Text is { } text && !all[i].TiedFrom)
            {
                measure.Add(Direction(new XElement("words", Clean(text)), "below"));
            }

            measure.Add(Note(all, i, isSung, part, notes));
        }

        foreach (PassageTempo tempo in tempos.Where(tempo => tempo.Tick > bar.StartTick))
        {
            long rest = bar.StartTick + bar.LengthTicks - tempo.Tick;
            measure.Add(new XElement("backup", new XElement("duration", rest)), TempoDirection(tempo), new XElement("forward", new XElement("duration", rest)));
        }

        return measure;
    }

    private static XElement Clef(WrittenPart part) => part.IsTreble
        ? new XElement("clef", new XElement("sign", "G"), new XElement("line", 2))
        : new XElement("clef", new XElement("sign", "F"), new XElement("line", 4));

    private static XElement Transpose(WrittenPart part) => new("transpose",
        new XElement("diatonic", part.Diatonic),
        new XElement("chromatic", part.Chromatic),
        part.OctaveChange != 0 ? new XElement("octave-change", part.OctaveChange) : null);

    private static XElement Direction(XElement what, string placement) =>
        new("direction", new XAttribute("placement", placement), new XElement("direction-type", what));

    private static XElement TempoDirection(PassageTempo tempo)
    {
        string value = tempo.QuartersPerMinute.ToString("R", CultureInfo.InvariantCulture);
        XElement direction = Direction(new XElement("metronome", new XElement("beat-unit", "quarter"), new XElement("per-minute", value)), "above");
        direction.Add(new XElement("sound", new XAttribute("tempo", value)));
        return direction;
    }

    private static XElement Note(Written[] all, int at, bool isSung, WrittenPart part, IReadOnlyList<ScoreNote> notes)
    {
        Written written = all[at];
        var element = new XElement("note");
        List<XElement> notations = [];
        if (written.Note is { } note)
        {
            Pitch pitch = part.Written(note.Note);
            double alter = pitch.Alteration + (note.Cents / 100);
            element.Add(new XElement("pitch",
                new XElement("step", pitch.Letter.ToString()),
                alter != 0 ? new XElement("alter", alter.ToString("0.########", CultureInfo.InvariantCulture)) : null,
                new XElement("octave", pitch.Octave)));
        }
        else
        {
            element.Add(new XElement("rest"));
        }

        element.Add(new XElement("duration", written.Ticks));
        if (written.TiedFrom)
        {
            element.Add(new XElement("tie", new XAttribute("type", "stop")));
            notations.Add(new XElement("tied", new XAttribute("type", "stop")));
        }

        if (written.TiedTo)
        {
            element.Add(new XElement("tie", new XAttribute("type", "start")));
            notations.Add(new XElement("tied", new XAttribute("type", "start")));
        }

        element.Add(new XElement("voice", 1));
        if (written.Length is { } length)
        {
            element.Add(new XElement("type", TypeName(length.Unit)));
            element.Add(Enumerable.Range(0, length.Dots).Select(_ => new XElement("dot")));
            if (length.IsTuplet)
            {
                element.Add(new XElement("time-modification", new XElement("actual-notes", length.Count), new XElement("normal-notes", length.InTimeOf)));
                bool Same(int other) => other >= 0 && other < all.Length && all[other].Length is { } l && (l.Count, l.InTimeOf) == (length.Count, length.InTimeOf);
                if (!Same(at - 1))
                {
                    notations.Add(new XElement("tuplet", new XAttribute("type", "start"), new XAttribute("number", 1)));
                }

                if (!Same(at + 1))
                {
                    notations.Add(new XElement("tuplet", new XAttribute("type", "stop"), new XAttribute("number", 1)));
                }
            }
        }

        if (isSung && written.Note is not null)
        {
            element.Add(new XElement("notehead", "diamond"));
        }

        if (written.Note is { } moving)
        {
            if (!written.TiedFrom && notes.Any(other => other.Glides && other.EndTick == moving.StartTick))
            {
                notations.Add(new XElement("glissando", new XAttribute("type", "stop"), new XAttribute("number", 1)));
            }

            if (!written.TiedTo && moving.Glides && notes.Any(other => other.StartTick == moving.EndTick))
            {
                notations.Add(new XElement("glissando", new XAttribute("type", "start"), new XAttribute("number", 1)));
            }
        }

        if (notations.Count > 0)
        {
            element.Add(new XElement("notations", notations));
        }

        return element;
    }

    private static string TypeName(int unit) => unit switch
    {
        1 => "whole",
        2 => "half",
        4 => "quarter",
        8 => "eighth",
        32 => "32nd",
        _ => string.Create(CultureInfo.InvariantCulture, $"{unit}th"),
    };
}
