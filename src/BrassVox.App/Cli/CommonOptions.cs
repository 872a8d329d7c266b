using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>Arguments and options that several commands share. Numbers take a full stop in every culture.</summary>
internal static class CommonOptions
{
    /// <summary>A note argument, as in Bb1.</summary>
    public static Argument<Pitch> NoteArgument(string name, string description) => new(name)
    {
        Description = description,
        CustomParser = result => ParseNote(result, result.Tokens[0].Value),
    };

    /// <summary>A note option, as in --sung F3.</summary>
    public static Option<Pitch?> NoteOption(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "note",
        CustomParser = result => ParseNote(result, result.Tokens[0].Value),
    };

    /// <summary>The same for a note that is to be measured: one of <see cref="MeasuredNotes"/>.</summary>
    public static Option<Pitch?> MeasuredNoteOption(string name, string description) => new(name)
    {
        Description = $"{description}; {MeasuredNotes.Lowest} to {MeasuredNotes.Highest}",
        HelpName = "note",
        CustomParser = result =>
        {
            string text = result.Tokens[0].Value;
            Pitch pitch = ParseNote(result, text);
            if (Pitch.TryParse(text, out _) && !MeasuredNotes.Holds(pitch))
            {
                result.AddError($"{name} takes a note from {MeasuredNotes.Lowest} to {MeasuredNotes.Highest}, not \"{text}\": only there are tones measured.");
            }

            return pitch;
        },
    };

    /// <summary>A number with a range, refused with one clear line outside it.</summary>
    public static Option<double> NumberOption(string name, string unit, double lowest, double highest, double otherwise, string description) => new(name)
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{description}, {lowest} to {highest}{Spaced(unit)}"),
        HelpName = unit switch { "" => "number", "c" => "cents", "s" => "seconds", _ => unit },
        DefaultValueFactory = _ => otherwise,
        CustomParser = result => ParseNumber(result, name, unit, lowest, highest),
    };

    /// <summary>A whole number with a range.</summary>
    public static Option<int> WholeOption(string name, int lowest, int highest, int otherwise, string description) => new(name)
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{description}, {lowest} to {highest}"),
        HelpName = "number",
        DefaultValueFactory = _ => otherwise,
        CustomParser = result => ParseWhole(result, name, lowest, highest),
    };

    /// <summary>A whole number with a range that may be left out.</summary>
    public static Option<int?> WholeOption(string name, int lowest, int highest, string description) => new(name)
    {
        Description = string.Create(CultureInfo.InvariantCulture, $"{description}, {lowest} to {highest}"),
        HelpName = "number",
        CustomParser = result => ParseWhole(result, name, lowest, highest),
    };

    /// <summary>--a4, the ensemble's pitch.</summary>
    public static Option<double> A4() =>
        NumberOption("--a4", "Hz", EqualTemperament.LowestA4Hz, EqualTemperament.HighestA4Hz, 440, "Frequency of A4");

    /// <summary>--a4 where a kept player's own holds unless it is given.</summary>
    public static Option<double?> A4OfPlayer()
    {
        Option<double> usual = A4();
        return new Option<double?>(usual.Name)
        {
            Description = $"{usual.Description} ({PlayerOptions.OfPlayer("440")})",
            HelpName = usual.HelpName,
            CustomParser = result => ParseNumber(result, usual.Name, "Hz", EqualTemperament.LowestA4Hz, EqualTemperament.HighestA4Hz),
        };
    }

    /// <summary>--tuning, by name or as twelve cents.</summary>
    public static Option<string> TuningName(string otherwise = "equal")
    {
        Option<string> option = new("--tuning") { Description = Tunings, HelpName = "tuning", DefaultValueFactory = _ => otherwise };
        CheckTuning(option);
        return option;
    }

    /// <summary>--tuning where a kept player's own holds unless it is given.</summary>
    /// <param name="usual">What holds where no player is kept.</param>
    public static Option<string?> TuningOfPlayer(string usual)
    {
        Option<string?> option = new("--tuning") { Description = $"{Tunings} ({PlayerOptions.OfPlayer(usual)})", HelpName = "tuning" };
        CheckTuning(option);
        return option;
    }

    private const string Tunings = "equal, just, pythagorean, meantone, or twelve comma-separated cents above the root";

    private static void CheckTuning(Option option) => option.Validators.Add(result =>
        {
            string text = result.GetValueOrDefault<string>() ?? "equal";
            if (!Tuning.TryParse(text, default, out _))
            {
                result.AddError($"--tuning takes equal, just, pythagorean, meantone, or twelve comma-separated cents from -200 to 1400, not \"{text}\".");
            }
        });

    /// <summary>--root, the note that keeps its equal-tempered place.</summary>
    public static Option<Pitch?> Root() =>
        NoteOption("--root", "Note that keeps its equal-tempered place, as in Bb1 (the played note unless given)");

    /// <summary>Reads a time in seconds, for options that may be left out.</summary>
    public static double Seconds(ArgumentResult result, string name, double lowest, double highest) =>
        ParseNumber(result, name, "s", lowest, highest);

    /// <summary>--json, for machines.</summary>
    public static Option<bool> Json() => new("--json") { Description = "Print JSON" };

    private static Pitch ParseNote(ArgumentResult result, string text)
    {
        if (!Pitch.TryParse(text, out Pitch pitch))
        {
            result.AddError($"\"{text}\" is not a note: write a letter A to G, b or #, and the octave, as in Bb1 or F#2.");
        }

        return pitch;
    }

    private static int ParseWhole(ArgumentResult result, string name, int lowest, int highest)
    {
        if (!int.TryParse(result.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int value) || value < lowest || value > highest)
        {
            result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name} takes a whole number from {lowest} to {highest}, not \"{result.Tokens[0].Value}\"."));
        }

        return value;
    }

    private static double ParseNumber(ArgumentResult result, string name, string unit, double lowest, double highest)
    {
        string text = result.Tokens[0].Value;
        if (double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && value >= lowest && value <= highest)
        {
            return value;
        }

        string hint = text.Contains(',', StringComparison.Ordinal) ? " Use a full stop for decimals." : string.Empty;
        result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name} takes a number from {lowest} to {highest}{Spaced(unit)}, not \"{text}\".{hint}"));
        return lowest;
    }

    private static string Spaced(string unit) => unit.Length > 0 ? " " + unit : string.Empty;
}
