using System.Globalization;
using System.Text;
using System.Text.Json;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis.Files;

namespace BrassVox.Practice.Log;

/// <summary>
/// The log as one table for spreadsheets: a row for each take, body note, stretch of practice and listening set. Nothing is lost: the last column
/// of a take holds its whole record as JSON, and that is what is read back; the columns before it are for people.
/// </summary>
/// <remarks>Source: RFC 4180, "Common Format and MIME Type for CSV Files": CRLF, fields with commas, quotes or line breaks in quotes, quotes doubled.</remarks>
internal static class LogCsv
{
    private const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fffzzz";

    private static readonly string[] Columns =
    [
        "kind", "at", "player", "is_simulated", "exercise_id", "take_id", "tag", "seconds", "sung_seconds", "trials", "right", "chance_share", "error_percent",
        "played", "sung", "as_asked", "played_offset_cents", "played_spread_cents", "played_drift_cents", "sung_offset_cents", "sung_spread_cents", "sung_drift_cents",
        "beats_per_second", "record",
    ];

    public static string Text(LogContents contents)
    {
        var text = new StringBuilder();
        Line(text, Columns);
        foreach (TakeRecord take in contents.Takes)
        {
            JudgedTone? p = take.Result.Played;
            JudgedTone? s = take.Result.Sung;
            Line(text,
            [
                "take", Time(take.MadeAt), take.PlayerName ?? "", Flag(take.IsSimulated), take.ExerciseId, take.Id, "", "", Number(s?.HeardSeconds ?? 0), "", "", "", "",
                take.Played.ToString(), take.Sung.ToString(), take.Result.AsAsked is { } asked ? Flag(asked) : "",
                Number(p?.OffsetCents), Number(p?.SpreadCents), Number(p?.DriftCents), Number(s?.OffsetCents), Number(s?.SpreadCents), Number(s?.DriftCents),
                Number(take.Result.Pair.MedianBeatsPerSecond), take.ToJson(indented: false),
            ]);
        }

        foreach (BodyNote note in contents.BodyNotes)
        {
            Line(text, Padded("body", Time(note.At), note.Player, Flag(note.IsSimulated), "", note.TakeId ?? "", note.Tag.ToString()));
        }

        foreach (PracticeSpell spell in contents.Spells)
        {
            Line(text, Padded("spell", Time(spell.At), spell.Player, Flag(spell.IsSimulated), spell.ExerciseId, "", "", Number(spell.Seconds), Number(spell.SungSeconds)));
        }

        foreach (ListeningEntry entry in contents.Listening)
        {
            Line(text, Padded(
                "listening", Time(entry.At), entry.Player, Flag(entry.IsSimulated), entry.ExerciseId, "", "", "", "",
                entry.Trials.ToString(CultureInfo.InvariantCulture), entry.Right.ToString(CultureInfo.InvariantCulture), Number(entry.ChanceShare), Number(entry.ErrorPercent)));
        }

        return text.ToString();
    }

    /// <summary>Reads what <see cref="Text"/> wrote, also when a spreadsheet has sorted its rows or changed its line ends.</summary>
    /// <exception cref="InvalidDataException">It is something else; the message says where.</exception>
    public static LogContents Read(string text, string path)
    {
        List<TakeRecord> takes = [];
        List<BodyNote> notes = [];
        List<PracticeSpell> spells = [];
        List<ListeningEntry> listening = [];
        int row = 0;
        foreach (string[] cells in Rows(text))
        {
            row++;
            if (row == 1)
            {
                if (!cells.SequenceEqual(Columns, StringComparer.Ordinal))
                {
                    throw new InvalidDataException($"{path}: the first row is not the one that takes export writes.");
                }

                continue;
            }

            try
            {
                switch (cells[0])
                {
                    case "take":
                        takes.Add(TakeJson.Read(cells[^1]));
                        break;
                    case "body":
                        notes.Add(new BodyNote(Time(cells[1]), cells[2], Enum.Parse<BodyTag>(cells[6]), cells[5].Length == 0 ? null : cells[5], Flag(cells[3])));
                        break;
                    case "spell":
                        spells.Add(new PracticeSpell(Time(cells[1]), cells[2], cells[4], Number(cells[7]), Number(cells[8]), Flag(cells[3])));
                        break;
                    case "listening":
                        listening.Add(new ListeningEntry(
                            Time(cells[1]), cells[2], cells[4], (int)Number(cells[9]), (int)Number(cells[10]), Number(cells[11]),
                            cells[12].Length == 0 ? null : Number(cells[12]), Flag(cells[3])));
                        break;
                    default:
                        throw new FormatException($"\"{cells[0]}\" is no kind of row");
                }
            }
            catch (Exception fault) when (fault is FormatException or JsonException or ArgumentException or IndexOutOfRangeException or OverflowException)
            {
                throw new InvalidDataException(PlainLine.Of(FormattableString.Invariant($"{path}, row {row}: {fault.Message.Split('\n')[0]}")), fault);
            }
        }

        return new LogContents(LogContents.Version, takes, notes, spells, listening);
    }

    private static IEnumerable<string[]> Rows(string text)
    {
        List<string> cells = [];
        var cell = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (quoted)
            {
                if (c == '"' && i + 1 < text.Length && text[i + 1] == '"')
                {
                    cell.Append(c);
                    i++;
                }
                else if (c == '"')
                {
                    quoted = false;
                }
                else
                {
                    cell.Append(c);
                }
            }
            else if (c == '"')
            {
                quoted = true;
            }
            else if (c is ',' or '\n')
            {
                cells.Add(cell.ToString());
                cell.Clear();
                if (c == '\n')
                {
                    yield return [.. cells];
                    cells.Clear();
                }
            }
            else if (c != '\r')
            {
                cell.Append(c);
            }
        }

        if (cells.Count > 0 || cell.Length > 0)
        {
            cells.Add(cell.ToString());
            yield return [.. cells];
        }
    }

    private static void Line(StringBuilder text, IEnumerable<string> cells) =>
        text.AppendJoin(',', cells.Select(cell => cell.AsSpan().ContainsAny(",\"\r\n") ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell)).Append("\r\n");

    private static IEnumerable<string> Padded(params string[] cells) => cells.Concat(Enumerable.Repeat("", Columns.Length - cells.Length));

    private static string Time(DateTimeOffset time) => time.ToString(TimeFormat, CultureInfo.InvariantCulture);

    private static DateTimeOffset Time(string text) => DateTimeOffset.ParseExact(text, TimeFormat, CultureInfo.InvariantCulture);

    private static string Flag(bool value) => value ? "yes" : "no";

    private static bool Flag(string text) => text == "yes";

    private static string Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";

    private static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture) is var value && double.IsFinite(value)
        ? value
        : throw new FormatException($"{text} is no number that can be kept");
}
