using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
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
        Option<bool> json = CommonOptions.Json();
        Command command = new("list", "List the scenes in order, your own included") { json };
        command.SetAction(arguments =>
        {
            SceneLibrary library = SceneLibrary.Load(SceneLibrary.ShippedFolder, SceneLibrary.OwnFolder(DataFolder.Find()));
            foreach (FileProblem problem in library.Problems)
            {
                Console.Error.WriteLine($"brassvox: {problem}");
            }

            if (arguments.GetValue(json))
            {
                SceneReport[] scenes = [.. library.Scenes.Select(SceneReport.Of)];
                Console.Out.Write(JsonSerializer.Serialize(scenes, SceneReportJson.Default.SceneReportArray) + "\n");
                return ExitCode.Done;
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

/// <summary>One scene of <c>scene list --json</c>.</summary>
internal sealed record SceneReport(string Id, int Number, string Name, string Played, string Sung, string Tuning, double Coupling)
{
    public static SceneReport Of(Scene scene) => new(
        scene.Id, scene.Number, scene.Name, scene.Pair.Played.ToString(), scene.Pair.Sung.ToString(), scene.Pair.Tuning.ToString(), scene.Coupling);
}

/// <summary>How they are written.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, NewLine = "\n")]
[JsonSerializable(typeof(SceneReport[]))]
internal sealed partial class SceneReportJson : JsonSerializerContext;
