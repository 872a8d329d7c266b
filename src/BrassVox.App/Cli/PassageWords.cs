using System.Globalization;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>A passage as figured rows for a player.</summary>
internal static class PassageWords
{
    private const int LabelWidth = 10;
    private const int ColumnWidth = 10;
    private const int Columns = 7;

    public static string Show(Passage passage, PlayerProfile profile, PassageReport report)
    {
        using StringWriter text = new(CultureInfo.InvariantCulture) { NewLine = "\n" };
        string title = passage.Title.Length > 0 ? passage.Title : "passage";
        text.WriteLine(Invariant($"{title}   {passage.Bars.Count} bars, {passage.SecondsAt(passage.LengthTicks):0} s   {profile.TuningName}, A4 {profile.A4Hz} Hz"));

        // Over two octaves an interval has a long name: then fewer moments stand in a row.
        int width = report.Moments.Select(moment => 1 + Math.Max(Short(moment.Between).Length, Made(moment, NoteNaming.English).Length)).Append(ColumnWidth).Max();
        int columns = Math.Max(1, Columns * ColumnWidth / width);
        for (int first = 0; first < report.Moments.Count; first += columns)
        {
            PassageMoment[] moments = [.. report.Moments.Skip(first).Take(columns)];
            text.WriteLine();
            Row(text, "bar.beat", width, moments, moment => moment.Place);
            Row(text, "P", width, moments, moment => moment.Played is { } note ? moment.PlayedBegins ? note.ToString() : "held" : "-");
            Row(text, "S", width, moments, moment => moment.Sung is { } note ? moment.SungBegins ? note.ToString() : "held" : "-");
            Row(text, "between", width, moments, moment => Short(moment.Between));
            Row(text, "made", width, moments, moment => Made(moment, NoteNaming.English));
            int most = moments.Max(moment => moment.Cares.Count);
            for (int i = 0; i < most; i++)
            {
                Row(text, i == 0 ? "care" : "", width, moments, moment => i < moment.Cares.Count ? WordOf(moment.Cares[i]) : "");
            }
        }

        text.WriteLine();
        text.WriteLine("difficulty of each bar, 1 easy to 10 hard");
        text.WriteLine("  " + string.Join(' ', report.DifficultyByBar.Select(bar => Invariant($"{bar:0.#}"))));
        if (report.Suggestion is { } suggestion)
        {
            text.WriteLine();
            text.WriteLine(Invariant($"octave choice: {suggestion.OutsideNow} sung notes lie outside {profile.LowestSung} to {profile.HighestSung}; sung {Octaves(suggestion.Octaves)} it is {suggestion.OutsideThen} (--octave {suggestion.Octaves})"));
            text.WriteLine(Invariant($"  moments on one another's lines: {suggestion.FogNow} now, {suggestion.FogThen} then"));
            foreach (string change in suggestion.Changes)
            {
                text.WriteLine($"  {change}");
            }
        }

        return text.ToString();
    }

    /// <summary>A care in a word or two.</summary>
    public static string WordOf(Care care) => care switch
    {
        Care.PlayedRange => "P range",
        Care.SungRange => "S range",
        Care.Register => "register",
        Care.PlayedLeap => "P leap",
        Care.SungLeap => "S leap",
        Care.BothLeap => "both leap",
        Care.Fog => "fog",
        _ => "low",
    };

    /// <summary>What a pair makes, in a column: a note, or how often a second it beats where that is no pitch.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="naming">The language of note names.</param>
    public static string Made(PassageMoment moment, NoteNaming naming) => moment switch
    {
        { Made: { } made } => NoteNames.Of(made.Note, naming),
        { MadeHz: { } hz } => Invariant($"{(hz > BeatingPairs.BeatingUpToHz ? "grain" : "beats")} {hz:0}"),
        _ => "",
    };

    /// <summary>What a pair makes, in a sentence; null where it makes nothing.</summary>
    /// <param name="moment">The moment.</param>
    /// <param name="naming">The language of note names.</param>
    public static string? MadeSentence(PassageMoment moment, NoteNaming naming) => moment switch
    {
        { Made: { } made } => Invariant($"They make {NoteNames.Of(made.Note, naming)}, {moment.MadeHz:0} Hz."),
        { MadeHz: { } hz } => Invariant($"They {(hz > BeatingPairs.BeatingUpToHz ? "are grainy" : "beat")}, {hz:0} times a second: too slow to be a tone."),
        _ => null,
    };

    /// <summary>An interval's name that fits a column.</summary>
    public static string Short(string interval) => interval
        .Replace("minor ", "min ", StringComparison.Ordinal)
        .Replace("major ", "maj ", StringComparison.Ordinal)
        .Replace("whole tone", "maj 2nd", StringComparison.Ordinal)
        .Replace(" third", " 3rd", StringComparison.Ordinal)
        .Replace(" sixth", " 6th", StringComparison.Ordinal)
        .Replace("seventh", "7th", StringComparison.Ordinal)
        .Replace("augmented", "aug", StringComparison.Ordinal)
        .Replace("octaves", "8ves", StringComparison.Ordinal)
        .Replace("octave and a ", "8ve+", StringComparison.Ordinal)
        .Replace(" and a ", "+", StringComparison.Ordinal);

    private static string Octaves(int octaves) => Math.Abs(octaves) == 1 ? (octaves > 0 ? "an octave higher" : "an octave lower") : Invariant($"{Math.Abs(octaves)} octaves {(octaves > 0 ? "higher" : "lower")}");

    private static void Row(StringWriter text, string label, int width, PassageMoment[] moments, Func<PassageMoment, string> cell)
    {
        string row = " " + label.PadRight(LabelWidth) + string.Concat(moments.Select(moment => cell(moment).PadRight(width)));
        text.WriteLine(row.TrimEnd());
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
