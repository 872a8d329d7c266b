using System.CommandLine;
using System.Globalization;
using BrassVox.Practice.Files;
using BrassVox.Practice.Scenes;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox scene</c>: the scenes of Stage as files, for those who write their own.</summary>
internal static class SceneCommand
{
    /// <summary>Builds the command.</summary>
    public static Command Build() => new("scene", "The scenes of Stage as files: list, check, schema") { List(), Check(), Schema() };

    private static Command List()
    {
        Command command = new("list", "List the scenes in order, your own included");
        command.SetAction(_ =>
        {
            SceneLibrary library = SceneLibrary.Load(SceneLibrary.ShippedFolder, SceneLibrary.OwnFolder(DataFolder.Find()));
            foreach (FileProblem problem in library.Problems)
            {
                Console.Error.WriteLine($"brassvox: {problem}");
            }

            foreach (Scene scene in library.Scenes)
            {
                Console.Out.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{scene.Number,2}  {scene.Name,-32}  {scene.Pair.Played} + {scene.Pair.Sung}, {scene.Pair.Tuning}{(scene.Coupling == 0 ? ", separate" : "")}"));
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static Command Check()
    {
        Argument<string> file = new("file") { Description = "A scene file" };
        Command command = new("check", "Check one scene file") { file };
        command.SetAction(arguments =>
        {
            FileLoad<Scene> load = SceneFile.Read(arguments.GetValue(file)!);
            if (load.Value is not { } scene)
            {
                return Failure.Say(ExitCode.UnusableInput, load.Problem!.ToString());
            }

            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{scene.Number} {scene.Name}: good"));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Schema()
    {
        Command command = new("schema", "Print the JSON Schema of scene files");
        command.SetAction(_ =>
        {
            Console.Out.Write(SceneSchema.ToJson());
            return ExitCode.Done;
        });
        return command;
    }
}
