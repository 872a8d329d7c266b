using System.CommandLine;
using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox resultants PLAYED SUNG</c>: what a played and a sung note make together.</summary>
internal static class ResultantsCommand
{
    private const int HighestHarmonic = 16;

    public static Command Build()
    {
        Argument<Pitch> played = CommonOptions.NoteArgument("played", "The played note, as in Bb1");
        Argument<Pitch> sung = CommonOptions.NoteArgument("sung", "The sung note, as in F2");
        Option<double> a4 = CommonOptions.A4();
        Option<string> tuningName = CommonOptions.TuningName();
        Option<Pitch?> root = CommonOptions.Root();
        Option<int> order = CommonOptions.WholeOption("--order", 1, Resultants.HighestOrder, 4, "Highest |m|+|n| listed");
        Option<bool> json = CommonOptions.Json();
        Command command = new("resultants", "List what a played and a sung note make: every m P + n S, and which harmonics beat")
        {
            played, sung, a4, tuningName, root, order, json,
        };
        command.SetAction(arguments =>
        {
            Pitch playedNote = arguments.GetValue(played);
            Tuning.TryParse(arguments.GetValue(tuningName)!, arguments.GetValue(root) ?? playedNote, out Tuning? tuning);
            ResultantsReport report = Report(playedNote, arguments.GetValue(sung), tuning!, arguments.GetValue(a4), arguments.GetValue(order));
            Console.Out.Write(arguments.GetValue(json) ? CliJson.Text(report) : Text(report));
            return ExitCode.Done;
        });
        return command;
    }

    private static ResultantsReport Report(Pitch played, Pitch sung, Tuning tuning, double a4Hz, int order)
    {
        double playedHz = tuning.FrequencyHz(played, a4Hz);
        double sungHz = tuning.FrequencyHz(sung, a4Hz);
        double cents = Cents.Between(playedHz, sungHz);
        JustInterval just = JustInterval.NearestTo(cents);
        return new ResultantsReport(
            new NoteReport(played.ToString(), Rounded(playedHz)),
            new NoteReport(sung.ToString(), Rounded(sungHz)),
            tuning.Name,
            a4Hz,
            new IntervalReport(IntervalName.Of(cents), Rounded(cents), just.ToString(), Rounded(Math.CopySign(just.Cents, cents))),
            order,
            [.. Resultants.Of(playedHz, sungHz, order).Select(line => Component(line, a4Hz, [played, sung]))],
            [.. BeatingPairs.Of(playedHz, sungHz, HighestHarmonic).Select(pair =>
                new BeatReport(pair.PlayedHarmonic, pair.SungHarmonic, Rounded(pair.RateHz), Rounded(pair.FrequencyHz)))]);
    }

    private static ComponentReport Component(Resultant line, double a4Hz, IReadOnlyList<Pitch> asked)
    {
        NearestNote nearest = NearestNote.Of(line.FrequencyHz, a4Hz);
        string note = AsAsked(nearest.Note, asked).ToString();
        return new ComponentReport(line.Name, line.Played, line.Sung, line.Order, Rounded(line.FrequencyHz), note, Rounded(nearest.Cents));
    }

    // Whoever asks for F#2 reads F#, not Gb, wherever that key sounds.
    private static Pitch AsAsked(Pitch note, IReadOnlyList<Pitch> asked)
    {
        foreach (Pitch own in asked)
        {
            if (own.PitchClass == note.PitchClass)
            {
                return own.Transposed((note.MidiNumber - own.MidiNumber) / 12);
            }
        }

        return note;
    }

    // A millionth of a hertz or cent: far below hearing, and free of the last bits of binary arithmetic.
    private static double Rounded(double value) => Math.Round(value, 6) + 0.0;

    private static string Text(ResultantsReport report)
    {
        StringWriter text = new(CultureInfo.InvariantCulture) { NewLine = "\n" };
        IntervalReport interval = report.Interval;
        text.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{report.Played.Note} played ({report.Played.FrequencyHz:F3} Hz), {report.Sung.Note} sung ({report.Sung.FrequencyHz:F3} Hz)   {report.Tuning}, A4 {report.A4Hz} Hz"));
        text.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{interval.Name} {interval.Cents:F1} c (just {interval.JustRatio} is {interval.JustCents:F1} c)"));
        text.WriteLine();
        text.WriteLine("  made of         Hz   note      c  order");
        foreach (ComponentReport line in report.Components)
        {
            text.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"  {line.Name,-7} {line.FrequencyHz,10:F3}   {line.Note,-4} {line.Cents,6:+0.0;-0.0;0.0}  {line.Order}"));
        }

        text.WriteLine();
        text.WriteLine(report.Beats.Count > 0 ? "  beats a second" : "  no harmonics meet within 12 beats a second");
        foreach (BeatReport beat in report.Beats)
        {
            text.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"  {beat.RateHz,7:F3}   {beat.PlayedHarmonic} of P with {beat.SungHarmonic} of S, near {beat.FrequencyHz:F1} Hz"));
        }

        return text.ToString();
    }
}
