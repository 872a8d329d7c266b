using BrassVox.Practice.Files;

namespace BrassVox.Practice.Scenes;

/// <summary>All scenes of one or more folders, in order, and what could not be loaded.</summary>
public sealed class SceneLibrary
{
    private readonly IReadOnlyDictionary<string, string> _files;

    private SceneLibrary(IReadOnlyList<Scene> scenes, IReadOnlyDictionary<string, string> files, IReadOnlyList<FileProblem> problems)
    {
        Scenes = scenes;
        _files = files;
        Problems = problems;
    }

    /// <summary>Scenes by number, then id.</summary>
    public IReadOnlyList<Scene> Scenes { get; }

    /// <summary>Files that were refused; the others are not affected.</summary>
    public IReadOnlyList<FileProblem> Problems { get; }

    /// <summary>The file that a scene was loaded from.</summary>
    /// <param name="scene">One of <see cref="Scenes"/>.</param>
    /// <exception cref="KeyNotFoundException">It is none of them.</exception>
    public string FileOf(Scene scene) => _files[scene.Id];

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
        var files = new Dictionary<string, string>(StringComparer.Ordinal);
        List<FileProblem> problems = [];
        foreach (string folder in folders.Where(Directory.Exists))
        {
            foreach (string path in Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal))
            {
                FileLoad<Scene> load = SceneFile.Read(path);
                if (load.Value is { } scene)
                {
                    byId[scene.Id] = scene;
                    files[scene.Id] = path;
                }
                else if (load.Problem is { } problem)
                {
                    problems.Add(problem);
                }
            }
        }

        return new SceneLibrary([.. byId.Values.OrderBy(scene => scene.Number).ThenBy(scene => scene.Id, StringComparer.Ordinal)], files, problems);
    }
}
