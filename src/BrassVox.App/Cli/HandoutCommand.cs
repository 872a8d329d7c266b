using System.CommandLine;
using System.Globalization;
using System.Text;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Notation;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox handout WHAT... --output FILE.html</c>: exercises and passages as one file for a student.</summary>
internal static class HandoutCommand
{
    public static Command Build(Func<TonePresets> loadTones)
    {
        SheetItems items = new();
        Option<string> output = new("--output", "-o") { Description = "The .html file to write", Required = true, HelpName = "file" };
        Option<string> title = new("--title") { DefaultValueFactory = _ => "Two tones, one player", Description = "Title of the sheet", HelpName = "text" };
        Command command = new("handout", "Write one HTML file for a student: notes, sound, pictures, what to listen for, cautions");
        Option<bool> noTakes = SheetItems.NoTakes();
        items.AddTo(command);
        command.Add(title);
        command.Add(noTakes);
        command.Add(output);
        command.SetAction(arguments =>
        {
            string path = arguments.GetValue(output)!;
            if (!path.EndsWith(".html", StringComparison.OrdinalIgnoreCase))
            {
                return Failure.Say(ExitCode.BadCommandLine, $"--output {path}: a handout is .html; end its name so.");
            }

            string heading = arguments.GetValue(title)!;
            if (string.IsNullOrWhiteSpace(heading))
            {
                return Failure.Say(ExitCode.BadCommandLine, "--title: a sheet has a name; write a few words, or leave --title out.");
            }

            Player player = items.Where.Player(arguments);
            IReadOnlyList<SheetItem> named = items.Read(arguments, player.Profile);
            TonePresets tones = loadTones();
            using EndAsked ended = new();
            try
            {
                IReadOnlyList<Engraving> notes = new Engraver().Engrave([.. named.Select(item => item.ScoreFor(player))], withLegend: false, ended.Token);
                HandoutItem[] sheets =
                [
                    .. named.Zip(notes, (item, engraving) => new HandoutItem(item.Resolved, HandoutSound.Of(item.Resolved, PlayerTones.Engine(tones, player.Profile), ended.Token), engraving)),
                ];

                byte[] html = Encoding.UTF8.GetBytes(Handout.Html(player, sheets, heading, arguments.GetValue(noTakes) ? null : items.SoFar(arguments, player)));
                WholeFile.Write(path, file => file.Write(html));
                Console.Out.Write(string.Create(CultureInfo.InvariantCulture, $"{path}  {sheets.Length} {(sheets.Length == 1 ? "exercise" : "exercises")}, {html.Length / 1e6:F1} MB\n"));
                return ExitCode.Done;
            }
            catch (OperationCanceledException)
            {
                return Failure.Say(ended.Code, "ended before the handout was whole: nothing was written.");
            }
        });
        return command;
    }
}
