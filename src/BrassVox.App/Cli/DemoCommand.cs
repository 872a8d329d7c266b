using System.CommandLine;
using BrassVox.Practice.Demo;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox demo</c>: an invented ensemble, so that every screen and report can be seen at once.</summary>
internal static class DemoCommand
{
    /// <summary>Seed of the ensemble unless another is given.</summary>
    public const int UsualSeed = 1;

    public static Command Build()
    {
        Option<string?> data = new("--data") { Description = $"Data folder; the ensemble goes into its folder {WhereOptions.DemoFolder} (unless given: {DataFolder.Variable}, else the system's place for user data)", HelpName = "folder" };
        Option<int> seed = CommonOptions.WholeOption("--seed", 0, int.MaxValue, UsualSeed, "Same number, same ensemble");
        Command command = new("demo", "Invent six weeks of an ensemble in a folder of its own, labelled simulated; your own takes are not touched") { data, seed };
        command.SetAction(arguments =>
        {
            string folder = Path.Combine(DataFolder.Find(arguments.GetValue(data)), WhereOptions.DemoFolder);
            IReadOnlyList<DemoTruth> takes;
            using EndAsked ended = new();
            try
            {
                takes = Ensemble(folder, arguments.GetValue(seed)).Fill((done, of) => Console.Error.WriteLine($"brassvox: player {done} of {of} invented"), ended.Token);
            }
            catch (OperationCanceledException)
            {
                return Failure.Say(ended.Code, $"ended before all players were invented; {folder} is as it was.");
            }

            foreach (IGrouping<string?, DemoTruth> player in takes.GroupBy(take => take.Take.PlayerName))
            {
                Console.Out.WriteLine($"{player.Key,-12}  {player.Count(),3} takes");
            }

            Console.Out.WriteLine($"SIMULATED: nobody played these. The truth behind each is in {DemoEnsemble.TruthFile}.");
            Console.Out.WriteLine("Look at them: brassvox --demo, or takes map --demo, plan --demo, with --player NAME.");
            Console.Error.WriteLine($"brassvox: written to {folder}");
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>The ensemble of a folder.</summary>
    /// <param name="folder">The folder, its own.</param>
    /// <param name="seed">The seed.</param>
    public static DemoEnsemble Ensemble(string folder, int seed) =>
        new(folder, ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder), ExerciseRun.MakeTracker, TimeProvider.System, seed);
}
