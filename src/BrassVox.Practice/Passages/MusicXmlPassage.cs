using System.Xml.Linq;
using BrassVox.Synthesis.Files;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>Reads MusicXML 4.0, score-partwise: two voices, two parts, or chords with marked note heads.</summary>
/// <remarks>
/// Source: MusicXML 4.0, W3C Community Group (elements part, measure, attributes, note, backup, forward, sound, transpose, notehead).
/// Read are pitch, length, rests, ties, tuplets, time signatures, tempo and transposition. Repeats and endings are reported, not unfolded;
/// grace and cue notes are passed over.
/// </remarks>
internal static class MusicXmlPassage
{
    public static Passage Read(byte[] bytes, VoiceNames? names)
    {
        XDocument document = SafeXml.Load(bytes);
        XElement root = document.Root!;
        if (root.Name.LocalName != "score-partwise")
        {
            throw new PassageFault(0, 0, root.Name.LocalName == "score-timewise"
                ? "it is a time-wise score; save it part-wise, which every notation program does."
                : $"it begins with <{root.Name.LocalName}>, not with <score-partwise>; is it MusicXML?");
        }

        Dictionary<string, string> partNames = root.Elements("part-list").Elements("score-part")
            .Where(part => part.Attribute("id") is not null)
            .GroupBy(part => (string)part.Attribute("id")!)
            .ToDictionary(parts => parts.Key, parts => NameOf(parts.First()));
        List<string> remarks = [];
        List<ScoreVoice> voices = [];
        MusicXmlPart? first = null;
        foreach (XElement part in root.Elements("part"))
        {
            string id = (string?)part.Attribute("id") ?? "";
            var reading = new MusicXmlPart(partNames.GetValueOrDefault(id, PlainLine.Of(id)), remarks);
            reading.Read(part);
            if (first is not null && !reading.Bars.Select(bar => bar.LengthTicks).SequenceEqual(first.Bars.Select(bar => bar.LengthTicks)))
            {
                throw new PassageFault(0, 0, $"the bars of {reading.Name} are not as long as those of {first.Name}.");
            }

            first ??= reading;
            voices.AddRange(reading.Voices);
        }

        if (first is null || first.Bars.Count == 0)
        {
            throw new PassageFault(0, 0, "there is no part with bars in it.");
        }

        (IReadOnlyList<PassageNote> played, IReadOnlyList<PassageNote> sung) = VoiceChoice.Of(voices, names, remarks);
        if (!first.Tempos.HasFirst)
        {
            remarks.Add(FormattableString.Invariant($"No tempo is given at the beginning; taken as {Passage.UsualTempo} quarter notes a minute."));
        }

        string title = PlainLine.Of(((string?)root.Element("movement-title") ?? (string?)root.Element("work")?.Element("work-title") ?? "").Trim());
        string? named = (string?)root.Element("identification")?.Element("miscellaneous")?.Elements("miscellaneous-field")
            .FirstOrDefault(field => (string?)field.Attribute("name") == "tuning-root");
        Pitch? tuningRoot = Pitch.TryParse(named, out Pitch found) ? found : null;
        return new Passage(title, tuningRoot, first.Bars, first.Tempos.From(Passage.UsualTempo), played, sung, remarks);
    }

    private static string NameOf(XElement part)
    {
        string name = PlainLine.Of(((string?)part.Element("part-name") ?? "").Trim());
        return name.Length > 0 ? name : PlainLine.Of((string)part.Attribute("id")!);
    }
}
