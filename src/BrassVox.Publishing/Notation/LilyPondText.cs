using System.Globalization;
using System.Text;
using BrassVox.Practice.Passages;
using BrassVox.Theory;

namespace BrassVox.Publishing.Notation;

/// <summary>A score as input for LilyPond.</summary>
/// <remarks>Source: LilyPond Notation Reference 2.24, Dutch note names. Words of the user stand only inside quoted strings, in which nothing is carried out.</remarks>
public static class LilyPondText
{
    /// <summary>The input, to be engraved as it stands.</summary>
    /// <param name="score">The score.</param>
    /// <param name="withLegend">True says above the music what the two kinds of note head mean.</param>
    public static string Write(Score score, bool withLegend = true)
    {
        var text = new StringBuilder("\\version \"2.24.0\"\n\\header { tagline = ##f }\n\\paper { indent = 20\\mm line-width = 180\\mm }\n\\score { <<\n");
        string key = score.Part.IsTransposed ? " " + score.Part.Key : "";
        Staff(text, score, "Played" + key, "P", score.Played, score.Part, isFirst: true, isSung: false, withLegend);
        Staff(text, score, "Sung" + key, "S", score.Sung, score.Part, isFirst: false, isSung: true);
        if (score.Made.Count > 0)
        {
            Staff(text, score, "S-P", "S-P", score.Made, WrittenPart.Concert, isFirst: false, isSung: false);
        }

        return text.Append(">> }\n").ToString();
    }

    /// <summary>A quoted string: quotation marks and backslashes escaped, control characters left out.</summary>
    /// <param name="text">Any text.</param>
    public static string Quoted(string text) =>
        "\"" + string.Concat(text.Where(c => !char.IsControl(c)).Select(c => c is '"' or '\\' ? "\\" + c : c.ToString())) + "\"";

    private static void Staff(StringBuilder text, Score score, string name, string shortName, IReadOnlyList<ScoreNote> notes, WrittenPart part, bool isFirst, bool isSung, bool withLegend = false)
    {
        text.Append(CultureInfo.InvariantCulture, $"\\new Staff \\with {{ instrumentName = {Quoted(name)} shortInstrumentName = {Quoted(shortName)} }} {{ \\clef {(part.IsTreble ? "treble" : "bass")}\n");
        // Cents get room beside one another: stacked, nobody could tell whose they are.
        text.Append("\\textLengthOn \\override TextScript.font-size = #-2\n");
        if (isSung)
        {
            text.Append("\\override NoteHead.style = #'diamond\n");
        }

        PassageBar? before = null;
        bool legend = withLegend;
        foreach (PassageBar bar in score.Bars)
        {
            if (before is null || (before.Beats, before.BeatUnit) != (bar.Beats, bar.BeatUnit))
            {
                text.Append(CultureInfo.InvariantCulture, $"\\numericTimeSignature \\time {bar.Beats}/{bar.BeatUnit} ");
            }

            if (before is null ? bar.LengthTicks != bar.FullTicks : bar.LengthTicks != before.LengthTicks)
            {
                text.Append(CultureInfo.InvariantCulture, $"\\set Timing.measureLength = #(ly:make-moment {bar.LengthTicks}/{Passage.TicksPerWhole}) ");
            }

            if (isFirst)
            {
                foreach (PassageTempo tempo in score.Tempos.Where(tempo => tempo.Tick >= bar.StartTick && tempo.Tick < bar.StartTick + bar.LengthTicks).Take(1))
                {
                    text.Append(CultureInfo.InvariantCulture, $"\\tempo 4 = {Math.Round(tempo.QuartersPerMinute)} ");
                }
            }

            Content(text, [.. Written.Bar(bar, notes)], part, ref legend);
            text.Append("|\n");
            before = bar;
        }

        text.Append("\\bar \"|.\" }\n");
    }

    private static void Content(StringBuilder text, Written[] bar, WrittenPart part, ref bool legend)
    {
        (int Count, int InTimeOf) open = (1, 1);
        foreach (Written written in bar)
        {
            (int, int) ratio = written.Length is { } length ? (length.Count, length.InTimeOf) : (1, 1);
            if (ratio != open)
            {
                text.Append(open == (1, 1) ? "" : "} ");
                open = ratio;
                text.Append(open == (1, 1) ? "" : string.Create(CultureInfo.InvariantCulture, $"\\tuplet {open.Count}/{open.InTimeOf} {{ "));
            }

            text.Append(written.Note is { } note ? Name(part.Written(note.Note)) : "r");
            text.Append(written.Length is { } plain
                ? plain.Unit.ToString(CultureInfo.InvariantCulture) + new string('.', plain.Dots)
                : string.Create(CultureInfo.InvariantCulture, $"1*{written.Ticks}/{Passage.TicksPerWhole}"));
            if (legend)
            {
                // The one text that bars need not make room for.
                text.Append("-\\tweak extra-spacing-width #'(+inf.0 . -inf.0) ^").Append(Quoted(Score.Legend));
                legend = false;
            }

            if (written.Note is { } sounding && !written.TiedFrom && Words(sounding) is { } words)
            {
                text.Append('_').Append(Quoted(words));
            }

            text.Append(written.TiedTo ? "~ " : written.Note is { Glides: true } ? "\\glissando " : " ");
        }

        text.Append(open == (1, 1) ? "" : "} ");
    }

    private static string? Words(ScoreNote note) =>
        note.Text ?? (note.Cents != 0 ? string.Create(CultureInfo.InvariantCulture, $"{note.Cents:+0.#;-0.#} c") : null);

    private static string Name(Pitch pitch) =>
        pitch.Letter.ToString().ToLowerInvariant()
        + string.Concat(Enumerable.Repeat(pitch.Alteration > 0 ? "is" : "es", Math.Abs(pitch.Alteration)))
        + (pitch.Octave >= 3 ? new string('\'', pitch.Octave - 3) : new string(',', 3 - pitch.Octave));
}
