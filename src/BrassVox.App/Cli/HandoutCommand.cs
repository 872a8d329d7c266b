using System.CommandLine;
using System.Globalization;
using System.Text;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Notation;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox handout WHAT... --take ID --output FILE.html</c>: exercises, passages and kept takes as one file for a student.</summary>
internal static class HandoutCommand
{
    public static Command Build(Func<TonePresets> loadTones)
    {
        SheetItems items = new(mayBeNone: true);
        TakesNamed takes = new();
        Option<string> output = new Option<string>("--output", "-o") { Description = "The .html file to write", Required = true, HelpName = "file" }.EndingIn("a handout", ".html");
        Option<string> title = new("--title") { DefaultValueFactory = _ => "Two tones, one player", Description = "Title of the sheet", HelpName = "text" };
        Command command = new("handout", "Write one HTML file for a student: exercises and passages with notes, sound and what to listen for; takes with what was heard in them");
        Option<bool> noTakes = SheetItems.NoTakes();
        items.AddTo(command);
        takes.AddTo(command);
        command.Add(title);
        command.Add(noTakes);
        command.Add(output);
        command.SetAction(arguments =>
        {
            string path = arguments.GetValue(output)!;
            string heading = arguments.GetValue(title)!;
            if (string.IsNullOrWhiteSpace(heading))
            {
                return Failure.Say(ExitCode.BadCommandLine, "--title: a sheet has a name; write a few words, or leave --title out.");
            }

            ExerciseLibrary library = items.Library(arguments);
            (Player player, IReadOnlyList<TakeReview> reviews, (int Code, string Why)? failure) = takes.Read(arguments, items.Where, library);
            if (failure is { } refused)
            {
                return Failure.Say(refused.Code, refused.Why);
            }

            IReadOnlyList<SheetItem> named = items.Read(arguments, library, player.Profile);
            if (named.Count + reviews.Count == 0)
            {
                return Failure.Say(ExitCode.BadCommandLine, "nothing is named: give an exercise, as in 14, a passage, or a kept take with --take last.");
            }

            TonePresets tones = loadTones();
            using EndAsked ended = new();
            try
            {
                IReadOnlyList<Engraving> notes = named.Count == 0 ? [] : new Engraver().Engrave([.. named.Select(item => item.ScoreFor(player))], withLegend: false, ended.Token);
                HandoutItem[] sheets =
                [
                    .. named.Zip(notes, (item, engraving) => new HandoutItem(item.Resolved, HandoutSound.Of(item.Resolved, PlayerTones.Engine(tones, player.Profile), ended.Token), engraving)),
                ];

                byte[] html = Encoding.UTF8.GetBytes(Handout.Html(player, sheets, heading, arguments.GetValue(noTakes) ? null : items.SoFar(arguments, player), reviews));
                WholeFile.Write(path, file => file.Write(html));
                Console.Out.Write(string.Create(CultureInfo.InvariantCulture, $"{path}  {Contents(sheets.Length, reviews.Count)}, {Size(html.Length)}\n"));
                return ExitCode.Done;
            }
            catch (OperationCanceledException)
            {
                return Failure.Say(ended.Code, "ended before the handout was whole: nothing was written.");
            }
        });
        return command;
    }

    /// <summary>What a handout holds: 2 exercises, 1 take.</summary>
    /// <param name="exercises">Exercises and passages.</param>
    /// <param name="takes">Takes looked at one by one.</param>
    public static string Contents(int exercises, int takes) => string.Join(", ", new[] { Count(exercises, "exercise"), Count(takes, "take") }.Where(words => words.Length > 0));

    /// <summary>A size in MB, of less than a tenth of one in kB.</summary>
    /// <param name="bytes">The size in bytes.</param>
    public static string Size(long bytes) => bytes < 1e5
        ? string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:F0} kB")
        : string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:F1} MB");

    private static string Count(int count, string what) => count == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
