using System.Globalization;
using System.Text.RegularExpressions;
using BrassVox.Synthesis.Files;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>Reads the text of <see cref="PassageText"/>, line by line; the first fault ends it.</summary>
internal sealed class PassageTextReader
{
    private const double MostCents = 100;

    private readonly List<PassageBar> _bars = [];
    private readonly TempoList _tempos = new();
    private readonly VoiceInput _played = new("P");
    private readonly VoiceInput _sung = new("S");
    private string _title = "";
    private Pitch? _root;
    private (int Beats, int Unit) _time = (4, 4);
    private long? _shortTicks;
    private int _line;

    public Passage Read(string text)
    {
        string[] lines = text.ReplaceLineEndings("\n").Split('\n');
        for (_line = 1; _line <= lines.Length; _line++)
        {
            ReadLine(lines[_line - 1]);
        }

        foreach (VoiceInput voice in new[] { _played, _sung })
        {
            if (voice.Tied is { } tie)
            {
                throw new PassageFault(tie.Line, tie.Column, "the last note is tied to nothing.");
            }
        }

        if (_played.Bars != _sung.Bars && _played.Bars > 0 && _sung.Bars > 0)
        {
            throw new PassageFault(lines.Length, 1, string.Create(CultureInfo.InvariantCulture,
                $"P has {_played.Bars} bars and S has {_sung.Bars}; both have the same number, with r for rests."));
        }

        if (_bars.Count == 0)
        {
            throw new PassageFault(lines.Length, 1, "no notes yet: write bars after P: and after S:, as in P: Bb2/4 C3/4 D3/2 |");
        }

        return new Passage(_title, _root, _bars, _tempos.From(Passage.UsualTempo), _played.Notes, _sung.Notes, []);
    }

    private void ReadLine(string line)
    {
        string trimmed = line.Trim();
        if (trimmed.Length == 0 || trimmed[0] == '#')
        {
            return;
        }

        int colon = line.IndexOf(':', StringComparison.Ordinal);
        int start = line.Length - line.TrimStart().Length;
        string key = colon < 0 ? "" : line[start..colon].Trim().ToLowerInvariant();
        string value = colon < 0 ? "" : line[(colon + 1)..].Trim();
        int column = colon < 0 ? start + 1 : colon + 2 + (line[(colon + 1)..].Length - line[(colon + 1)..].TrimStart().Length);
        switch (key)
        {
            case "title":
                _title = PlainLine.Of(value);
                break;
            case "root":
                _root = Pitch.TryParse(value, out Pitch root) ? root : throw Fault(column, $"\"{Shown(value)}\" is not a note; write one as in Bb2.");
                break;
            case "time":
                Between("time", start + 1);
                _time = Fraction(value, column, 1, 64);
                break;
            case "short":
                Between("short", start + 1);
                _shortTicks = value.StartsWith('=') ? Ticks(value[1..], value, column) : Length(Fraction(value, column, 1, 64));
                break;
            case "tempo":
                Between("tempo", start + 1);
                _tempos.Set(_bars.Count == 0 ? 0 : _bars[^1].StartTick + _bars[^1].LengthTicks, Tempo(value, column), _line);
                break;
            case "p":
                ReadVoice(_played, line, colon + 1);
                break;
            case "s":
                ReadVoice(_sung, line, colon + 1);
                break;
            default:
                throw Fault(start + 1, $"\"{Shown(colon < 0 ? trimmed.Split(' ')[0] : key)}\" begins no line; lines begin with P: S: title: time: tempo: root: short: or #.");
        }
    }

    // What changes for both tones stands where both have come equally far.
    private void Between(string key, int column)
    {
        if (_played.Bars != _sung.Bars)
        {
            throw Fault(column, $"{key}: stands where P and S have the same number of bars, before both of their lines.");
        }
    }

    private void ReadVoice(VoiceInput voice, string line, int from)
    {
        voice.BeginLine();
        int at = from;
        (int Count, int InTimeOf, int Column)? tuplet = null;
        while (at < line.Length)
        {
            if (char.IsWhiteSpace(line[at]))
            {
                at++;
                continue;
            }

            int column = at + 1;
            if (line[at] == '|')
            {
                if (tuplet is { } unclosed)
                {
                    throw Fault(unclosed.Column, "the tuplet is not closed with ) before its bar ends.");
                }

                at++;
                EndBar(voice, column);
                continue;
            }

            if (line[at] == ')')
            {
                tuplet = tuplet is null ? throw Fault(column, "there is no tuplet to close.") : null;
                at++;
                continue;
            }

            int end = at;
            while (end < line.Length && !char.IsWhiteSpace(line[end]) && line[end] is not ('|' or ')' or '('))
            {
                end++;
            }

            string token = line[at..end];
            if (end < line.Length && line[end] == '(')
            {
                tuplet = tuplet is null ? Tuplet(token, column) : throw Fault(column, "a tuplet within a tuplet is not read.");
                end++;
            }
            else if (token.StartsWith("t=", StringComparison.Ordinal))
            {
                _tempos.Set(voice.Tick, Tempo(token[2..], column), _line);
            }
            else
            {
                ReadNote(voice, token, column, tuplet);
            }

            at = end;
        }

        if (tuplet is { } open)
        {
            throw Fault(open.Column, "the tuplet is not closed with ).");
        }

        if (voice.HasOpenBar)
        {
            EndBar(voice, line.Length);
        }
    }

    private void ReadNote(VoiceInput voice, string token, int column, (int Count, int InTimeOf, int Column)? tuplet)
    {
        Match match = PassageText.TokenPattern().Match(token);
        string head = match.Success ? match.Groups["head"].Value : token;
        bool isRest = head is "r" or "R";
        Match name = PassageText.NotePattern().Match(head);
        if (!match.Success || (!isRest && !name.Success))
        {
            throw Fault(column, $"\"{Shown(token)}\" is no note; write a name and a length, as in Bb2/4, F#3/2. or r/8.");
        }

        if (match.Groups["unit"].Success)
        {
            bool isWhole = int.TryParse(match.Groups["unit"].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int unit);
            int dots = match.Groups["dots"].Length;
            if (!isWhole || unit is not (1 or 2 or 4 or 8 or 16 or 32 or 64) || dots > NoteLengths.MostDots)
            {
                throw Fault(column, $"\"{Shown(token)}\" has no written length; after the slash comes 1, 2, 4, 8, 16, 32 or 64, with at most two dots.");
            }

            voice.Length = NoteLengths.Ticks(unit, dots);
        }
        else if (match.Groups["ticks"].Success)
        {
            voice.Length = Ticks(match.Groups["ticks"].Value, token, column);
        }

        long length = tuplet is { } group && !match.Groups["ticks"].Success ? voice.Length * group.InTimeOf / group.Count : voice.Length;
        if (isRest)
        {
            voice.Rest(length, match.Groups["tie"].Success, _line, column);
            return;
        }

        if (!Pitch.TryParse(name.Groups["note"].Value, out Pitch note))
        {
            throw Fault(column, $"\"{Shown(token)}\" is no note; octaves are 0 to 9.");
        }

        // A millionth of a cent, as files hold them.
        double cents = name.Groups["cents"].Success ? Math.Round(double.Parse(name.Groups["cents"].Value, CultureInfo.InvariantCulture), 6) + 0.0 : 0;
        if (Math.Abs(cents) > MostCents)
        {
            throw Fault(column, $"\"{Shown(token)}\" is off its note by more than {MostCents} cents; write a nearer note.");
        }

        voice.Note(length, note, cents, match.Groups["tie"].Success, _line, column);
    }

    private void EndBar(VoiceInput voice, int column)
    {
        if (!voice.HasOpenBar)
        {
            throw Fault(column, $"bar {voice.Bars + 1} of {voice.Name} is empty; write r/1 for a whole rest.");
        }

        if (voice.Bars == _bars.Count)
        {
            if (_bars.Count == Passage.MostBars)
            {
                throw Fault(column, $"there are more than {Passage.MostBars} bars.");
            }

            long full = _time.Beats * Passage.TicksPerWhole / _time.Unit;
            long start = _bars.Count == 0 ? 0 : _bars[^1].StartTick + _bars[^1].LengthTicks;
            _bars.Add(new PassageBar(_bars.Count + 1, start, _shortTicks ?? full, _time.Beats, _time.Unit));
            _shortTicks = null;
        }

        PassageBar bar = _bars[voice.Bars];
        long length = voice.Tick - bar.StartTick;
        if (length != bar.LengthTicks)
        {
            throw Fault(voice.BarColumn, string.Create(CultureInfo.InvariantCulture,
                $"bar {bar.Number} of {voice.Name} lasts {Quarters(length)} quarter notes, not {Quarters(bar.LengthTicks)} ({bar.Beats}/{bar.BeatUnit})."));
        }

        voice.EndBar();
    }

    private static string Quarters(long ticks) => string.Create(CultureInfo.InvariantCulture, $"{(double)ticks / Passage.TicksPerQuarter:0.###}");

    private double Tempo(string text, int column) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double tempo) && tempo is >= PassageTempo.Slowest and <= PassageTempo.Fastest
            ? tempo
            : throw Fault(column, $"\"{Shown(text)}\" is no tempo; write quarter notes a minute, {PassageTempo.Slowest} to {PassageTempo.Fastest}.");

    private (int Count, int Unit) Fraction(string text, int column, int least, int most)
    {
        string[] sides = text.Split('/');
        return sides.Length == 2
            && int.TryParse(sides[0], NumberStyles.None, CultureInfo.InvariantCulture, out int count) && count >= least && count <= most
            && int.TryParse(sides[1], NumberStyles.None, CultureInfo.InvariantCulture, out int unit) && unit is 1 or 2 or 4 or 8 or 16 or 32 or 64
            ? (count, int.Parse(sides[1], CultureInfo.InvariantCulture))
            : throw Fault(column, $"\"{Shown(text)}\" is not of the form 4/4: above {least} to {most}, below 1, 2, 4, 8, 16, 32 or 64.");
    }

    private (int Count, int InTimeOf, int Column) Tuplet(string text, int column)
    {
        string[] sides = text.Split(':');
        return sides.Length == 2
            && int.TryParse(sides[0], NumberStyles.None, CultureInfo.InvariantCulture, out int count) && count is >= 2 and <= 15
            && int.TryParse(sides[1], NumberStyles.None, CultureInfo.InvariantCulture, out int inTimeOf) && inTimeOf is >= 1 and <= 16
            ? (count, inTimeOf, column)
            : throw Fault(column, $"\"{Shown(text)}(\" begins no tuplet; write 3:2( for three in the time of two.");
    }

    private static long Length((int Count, int Unit) fraction) => fraction.Count * Passage.TicksPerWhole / fraction.Unit;

    private long Ticks(string text, string shown, int column) =>
        long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long exact) && exact is > 0 and < 100_000_000
            ? exact
            : throw Fault(column, $"\"{Shown(shown)}\" lasts no whole number of ticks over 0.");

    private PassageFault Fault(int column, string message) => new(_line, column, message);

    // What stands in a file is shown short and without signs that could move a terminal's cursor.
    private static string Shown(string text) =>
        string.Concat((text.Length > 24 ? text[..24] + "..." : text).Select(PlainLine.Of));
}
