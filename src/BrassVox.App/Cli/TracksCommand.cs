using System.CommandLine;
using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Tracks;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox tracks WHAT... --output FOLDER</c>: the sound of exercises and passages, apart and together.</summary>
internal static class TracksCommand
{
    private const double QuietestLufs = -50;
    private const double LoudestLufs = -16;

    public static Command Build(Func<TonePresets> loadTones)
    {
        SheetItems items = new();
        Option<string> output = new("--output", "-o") { Description = "Folder for the tracks", Required = true, HelpName = "folder" };
        Option<TrackFormat> format = PlayerOptions.Words("--format", TrackFormat.Wav24, "How they are written");
        Option<ClickUse> click = PlayerOptions.Words("--click", ClickUse.CountIn, "Where it clicks");
        Option<double> coupling = CommonOptions.NumberOption("--coupling", string.Empty, 0, 1, 0.6, "0: separate; up to 1: the voice opens and shuts the flow through the lips");
        Option<double> loudness = CommonOptions.NumberOption(
            "--loudness", "LUFS", QuietestLufs, LoudestLufs, PracticeTracks.UsualLufs, "Integrated loudness of the mix (ITU-R BS.1770)");
        Command command = new("tracks", "Write practice tracks: played, sung, resultants, click and cue, apart and together");
        items.AddTo(command);
        foreach (Option option in new Option[] { format, click, coupling, loudness, output })
        {
            command.Add(option);
        }

        command.SetAction(arguments =>
        {
            // A command that is refused leaves no folder behind.
            string folder = arguments.GetValue(output)!;
            Player player = items.Where.Player(arguments);
            IReadOnlyList<SheetItem> named = items.Read(arguments, player.Profile);
            TonePresets tones = loadTones();
            if (NoFolder(folder) is { } why)
            {
                return Failure.Say(ExitCode.CannotStore, why);
            }

            TrackOptions options = new(
                CouplingDepth: arguments.GetValue(coupling), Click: arguments.GetValue(click), LoudnessLufs: arguments.GetValue(loudness));
            using EndAsked ended = new();
            try
            {
                foreach (SheetItem item in named)
                {
                    PracticeTracks set = PracticeTracks.Render(item.Resolved, PlayerTones.Engine(tones, player.Profile), options, ended.Token);
                    IReadOnlyList<string> files = TrackFiles.Write(set, folder, item.FileName, item.Title, Album(player), arguments.GetValue(format));
                    Say(item, set, files);
                }
            }
            catch (OperationCanceledException)
            {
                return Failure.Say(ended.Code, "ended before all tracks were written; those that are named above are whole.");
            }

            return ExitCode.Done;
        });
        return command;
    }

    // Before minutes are spent on rendering.
    private static string? NoFolder(string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
            return null;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return File.Exists(folder)
                ? $"{folder} is a file; --output names a folder for the tracks."
                : $"{folder}: no folder can be made there. Name another with --output, one whose parent exists and may be written.";
        }
    }

    private static void Say(SheetItem item, PracticeTracks set, IReadOnlyList<string> files)
    {
        Console.Out.Write(string.Create(
            CultureInfo.InvariantCulture,
            $"{item.Title}   {set.Seconds:F2} s, take from {set.TakeSeconds:F2} s, {set.LoudnessLufs:F1} LUFS, peak {set.PeakDbtp:F1} dBTP\n"));
        foreach (string file in files)
        {
            Console.Out.Write($"  {file}\n");
        }
    }

    private static string Album(Player player) => player.Name.Length > 0 ? $"Practice of {player.Name}" : "Practice";
}
