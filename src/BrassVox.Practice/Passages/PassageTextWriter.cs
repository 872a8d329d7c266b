using System.Globalization;
using System.Text;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>Writes the text of <see cref="PassageText"/>.</summary>
internal static class PassageTextWriter
{
    private const int BarsPerLine = 2;

    public static string Write(Passage passage)
    {
        var text = new StringBuilder();
        Line(text, passage.Title.Length > 0 ? $"title: {passage.Title.ReplaceLineEndings(" ")}" : null);
        Line(text, passage.Root is { } root ? $"root: {root}" : null);
        (int, int)? time = null;
        for (int first = 0; first < passage.Bars.Count;)
        {
            PassageBar bar = passage.Bars[first];
            int count = 1;
            while (count < BarsPerLine && first + count < passage.Bars.Count && IsPlain(passage, passage.Bars[first + count], bar) && bar.LengthTicks == bar.FullTicks)
            {
                count++;
            }

            text.Append('\n');
            Line(text, time == (bar.Beats, bar.BeatUnit) ? null : Invariant($"time: {bar.Beats}/{bar.BeatUnit}"));
            time = (bar.Beats, bar.BeatUnit);
            Line(text, TempoAt(passage, bar.StartTick) is { } tempo ? Invariant($"tempo: {tempo:0.######}") : null);
            Line(text, bar.LengthTicks == bar.FullTicks ? null : $"short: {ShortOf(bar)}");
            PassageBar[] bars = [.. passage.Bars.Skip(first).Take(count)];
            Line(text, "P: " + string.Join(" | ", bars.Select(each => Bar(passage, each, VoiceRole.Played))) + " |");
            Line(text, "S: " + string.Join(" | ", bars.Select(each => Bar(passage, each, VoiceRole.Sung))) + " |");
            first += count;
        }

        return text.ToString().TrimStart('\n');
    }

    private static void Line(StringBuilder text, string? line)
    {
        if (line is not null)
        {
            text.Append(line).Append('\n');
        }
    }

    private static bool IsPlain(Passage passage, PassageBar bar, PassageBar before) =>
        (bar.Beats, bar.BeatUnit) == (before.Beats, before.BeatUnit) && bar.LengthTicks == bar.FullTicks && TempoAt(passage, bar.StartTick) is null;

    private static double? TempoAt(Passage passage, long tick) => passage.Tempos.Cast<PassageTempo?>().FirstOrDefault(tempo => tempo!.Value.Tick == tick)?.QuartersPerMinute;

    private static string ShortOf(PassageBar bar)
    {
        for (int unit = 1; unit <= NoteLengths.ShortestUnit; unit *= 2)
        {
            if (bar.LengthTicks % (Passage.TicksPerWhole / unit) == 0 && bar.LengthTicks * unit / Passage.TicksPerWhole is >= 1 and <= 64)
            {
                return Invariant($"{bar.LengthTicks * unit / Passage.TicksPerWhole}/{unit}");
            }
        }

        return Invariant($"={bar.LengthTicks}");
    }

    private static string Bar(Passage passage, PassageBar bar, VoiceRole role)
    {
        List<string> words = [];
        long at = bar.StartTick;
        long end = bar.StartTick + bar.LengthTicks;
        IEnumerable<PassageTempo> tempos = role == VoiceRole.Played ? passage.Tempos.Where(tempo => tempo.Tick > bar.StartTick && tempo.Tick < end) : [];
        Queue<PassageTempo> waiting = new(tempos);
        void Span(long to, PassageNote? note)
        {
            while (at < to)
            {
                // A tempo within a note or rest parts it, so that it stands at its tick.
                long stop = waiting.TryPeek(out PassageTempo next) && next.Tick > at && next.Tick < to ? next.Tick : to;
                words.AddRange(Words(stop - at, note is null ? "r" : PassageText.NameOf(note.Note, note.Cents), note is not null && (stop < to || note.EndTick > stop)));
                at = stop;
                if (waiting.TryPeek(out next) && next.Tick == at)
                {
                    waiting.Dequeue();
                    words.Add(Invariant($"t={next.QuartersPerMinute:0.######}"));
                }
            }
        }

        foreach (PassageNote note in passage.Notes(role).Where(note => note.EndTick > bar.StartTick && note.StartTick < end))
        {
            Span(Math.Max(at, note.StartTick), null);
            Span(Math.Min(note.EndTick, end), note);
        }

        Span(end, null);
        return string.Join(' ', Merged(words));
    }

    // Neighbouring tuplets of the same kind share their brackets.
    private static List<string> Merged(List<string> words)
    {
        List<string> merged = [];
        foreach (string word in words)
        {
            int bracket = word.IndexOf("( ", StringComparison.Ordinal) + 2;
            if (bracket > 1 && merged.Count > 0 && merged[^1].StartsWith(word[..bracket], StringComparison.Ordinal))
            {
                merged[^1] = string.Concat(merged[^1].AsSpan(0, merged[^1].Length - 1), word.AsSpan(bracket));
            }
            else
            {
                merged.Add(word);
            }
        }

        return merged;
    }

    // A length as written notes tied together, as a tuplet, or (what no notation has) in ticks.
    private static IEnumerable<string> Words(long ticks, string head, bool isTiedOn)
    {
        string Tie(bool isLast) => head != "r" && (!isLast || isTiedOn) ? "~" : "";
        string Written(IReadOnlyList<(int Unit, int Dots)> parts) => string.Join(' ', parts.Select((part, i) =>
            Invariant($"{head}/{part.Unit}{new string('.', part.Dots)}{Tie(i == parts.Count - 1)}")));
        if (NoteLengths.Parts(ticks) is { } plain)
        {
            yield return Written(plain);
            yield break;
        }

        foreach ((int count, int inTimeOf) in NoteLengths.Tuplets)
        {
            if (ticks * count % inTimeOf == 0 && NoteLengths.Parts(ticks * count / inTimeOf) is { } parts
                && parts.Sum(part => NoteLengths.Ticks(part.Unit, part.Dots) * inTimeOf / count) == ticks)
            {
                yield return $"{count}:{inTimeOf}( {Written(parts)} )";
                yield break;
            }
        }

        yield return Invariant($"{head}={ticks}{Tie(true)}");
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
