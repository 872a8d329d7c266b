using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Practice.Section;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>A section as text and as JSON.</summary>
internal static class SectionWords
{
    private const double RightWithinCents = 0.05;
    private const int DifferenceWidth = 17;

    /// <summary>As text of at most 80 columns.</summary>
    /// <param name="report">The section.</param>
    /// <param name="a4Hz">A4 in Hz.</param>
    /// <param name="naming">The language of note names.</param>
    public static string Show(SectionReport report, double a4Hz, NoteNaming naming = NoteNaming.English)
    {
        string Near(double hz) => NearestNote.Of(hz, a4Hz) is var near ? Invariant($"{NoteNames.Of(near.Note, naming)} {near.Cents:+0;-0;0} ({hz:0} Hz)") : "";
        string Sum(double hz) => NearestNote.Of(hz, a4Hz) is var near ? Invariant($"{NoteNames.Of(near.Note, naming)} {near.Cents:+0;-0;0}") : "";
        using StringWriter text = new(CultureInfo.InvariantCulture) { NewLine = "\n" };
        string[] names = [.. report.Tones.Select(tone => $"{NoteNames.Of(tone.Note, naming)}{(tone.Cents == 0 ? "" : Invariant($" {tone.Cents:+0.#;-0.#} c"))}")];
        int width = names.Max(name => name.Length);
        foreach ((SectionTone tone, string name) in report.Tones.Zip(names))
        {
            text.WriteLine(Invariant($"  {tone.Player}  {name.PadRight(width)}  {tone.FrequencyHz,7:F2} Hz"));
        }

        text.WriteLine();
        text.WriteLine("  who    interval         just     off    beats  at Hz difference        sum");
        foreach (SectionPair pair in report.Pairs)
        {
            string difference = pair.DifferenceHz >= NearestNote.LowestPitchHz ? Near(pair.DifferenceHz) : pair.DifferenceHz < 1 ? "-" : Invariant($"{(pair.DifferenceHz > BeatingPairs.BeatingUpToHz ? "grain" : "beats")} {pair.DifferenceHz:0} /s");
            difference = difference.Length > DifferenceWidth ? difference.Replace("(", "", StringComparison.Ordinal).TrimEnd(')') : difference;
            text.WriteLine(Invariant(
                $"  {pair.Lower} + {pair.Upper}  {Short(IntervalName.Of(pair.Cents)),-16} {pair.Just,-5}{pair.OffCents,7:+0.0;-0.0;0.0}{pair.BeatsPerSecond,6:0.0} /s {pair.BeatingAtHz,5:0} {difference,-DifferenceWidth} {Sum(pair.SumHz)}"));
        }

        text.WriteLine();
        if (report.Moves.All(move => Math.Abs(move.Cents) < RightWithinCents))
        {
            text.WriteLine("  Nobody has to move.");
            return text.ToString();
        }

        text.WriteLine($"  player {report.Standing} stays");
        foreach (SectionMove move in report.Moves.Where(move => Math.Abs(move.Cents) >= RightWithinCents))
        {
            text.WriteLine(Invariant($"  player {move.Player} {(move.Cents > 0 ? "up" : "down")} {Math.Abs(move.Cents):0.0} c, to {move.ToHz:F2} Hz"));
        }

        text.WriteLine(Invariant($"  then the fastest beats left are {report.BeatsAfter + 0.0:0.0} /s"));
        return text.ToString();
    }

    // Of wide intervals no column may push the last one out of 80.
    private static string Short(string interval) => interval.Length <= 15 ? interval : interval
        .Replace("major", "maj", StringComparison.Ordinal).Replace("minor", "min", StringComparison.Ordinal).Replace("augmented", "aug", StringComparison.Ordinal)
        .Replace("octaves", "8ve", StringComparison.Ordinal).Replace("octave", "8ve", StringComparison.Ordinal).Replace(" and a ", "+", StringComparison.Ordinal)
        .Replace("two ", "2 ", StringComparison.Ordinal).Replace("three ", "3 ", StringComparison.Ordinal).Replace("four ", "4 ", StringComparison.Ordinal).Replace("five ", "5 ", StringComparison.Ordinal);

    public static string Json(SectionReport report, double a4Hz)
    {
        var shown = new SectionShown(
            [.. report.Tones.Select(tone => new SectionToneShown(tone.Player, tone.Note.ToString(), tone.Cents, Round(tone.FrequencyHz)))],
            [.. report.Pairs.Select(pair => new SectionPairShown(
                pair.Lower, pair.Upper, IntervalName.Of(pair.Cents), Round(pair.Cents), pair.Just.ToString(), Round(pair.OffCents), Round(pair.BeatsPerSecond), Round(pair.BeatingAtHz),
                Round(pair.DifferenceHz), pair.DifferenceHz >= NearestNote.LowestPitchHz ? NearestNote.Of(pair.DifferenceHz, a4Hz).Note.ToString() : null, Round(pair.SumHz), NearestNote.Of(pair.SumHz, a4Hz).Note.ToString()))],
            report.Standing,
            [.. report.Moves.Select(move => new SectionMoveShown(move.Player, Round(move.Cents), Round(move.ToHz)))],
            Round(report.BeatsAfter));
        return JsonSerializer.Serialize(shown, SectionJson.Default.SectionShown) + "\n";
    }

    private static double Round(double value) => Math.Round(value, 6) + 0.0;

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>What <c>section --json</c> prints.</summary>
internal sealed record SectionShown(
    IReadOnlyList<SectionToneShown> Tones, IReadOnlyList<SectionPairShown> Pairs, int Standing, IReadOnlyList<SectionMoveShown> Moves, double BeatsAfter);

/// <summary>One player.</summary>
internal sealed record SectionToneShown(int Player, string Note, double Cents, double FrequencyHz);

/// <summary>Two players.</summary>
internal sealed record SectionPairShown(
    int Lower, int Upper, string Interval, double Cents, string Just, double OffCents, double BeatsPerSecond, double BeatingAtHz,
    double DifferenceHz, string? Difference, double SumHz, string Sum);

/// <summary>One player's move.</summary>
internal sealed record SectionMoveShown(int Player, double Cents, double ToHz);

/// <summary>JSON of the section.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, NewLine = "\n", PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(SectionShown))]
internal sealed partial class SectionJson : JsonSerializerContext;
