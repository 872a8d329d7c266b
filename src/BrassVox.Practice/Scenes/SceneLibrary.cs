using BrassVox.Practice.Files;

namespace BrassVox.Practice.Scenes;

/// <summary>All scenes of one or more folders, in order, and what could not be loaded.</summary>
public sealed class SceneLibrary
{
    private SceneLibrary(IReadOnlyList<Scene> scenes, IReadOnlyList<FileProblem> problems)
    {
        Scenes = scenes;
        Problems = problems;
    }

    /// <summary>Scenes by number, then id.</summary>
    public IReadOnlyList<Scene> Scenes { get; }

    /// <summary>Files that were refused; the others are not affected.</summary>
    public IReadOnlyList<FileProblem> Problems { get; }

    /// <summary>Folder of the scenes that come with the program.</summary>
    public static string ShippedFolder => Path.Combine(AppContext.BaseDirectory, "presets", "scenes");

    /// <summary>Folder of the player's own scenes.</summary>
    /// <param name="dataFolder">The data folder.</param>
    public static string OwnFolder(string dataFolder) => Path.Combine(dataFolder, "scenes");

    /// <summary>Loads every .json file of the folders. A later folder's scene replaces an earlier one of the same id; a missing folder counts as empty.</summary>
    /// <param name="folders">The folders, the program's own first.</param>
    public static SceneLibrary Load(params IReadOnlyList<string> folders)
    {
        var byId = new Dictionary<string, Scene>(StringComparer.Ordinal);
        List<FileProblem> problems = [];
        foreach (string folder in folders.Where(Directory.Exists))
        {
            foreach (string path in Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal))
            {
                FileLoad<Scene> load = SceneFile.Read(path);
                if (load.Value is { } scene)
                {
                    byId[scene.Id] = scene;
                }
                else if (load.Problem is { } problem)
                {
                    problems.Add(problem);
                }
            }
        }

        return new SceneLibrary([.. byId.Values.OrderBy(scene => scene.Number).ThenBy(scene => scene.Id, StringComparer.Ordinal)], problems);
    }
}
