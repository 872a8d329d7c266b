using System.Text.Json;
using BrassVox.Practice.Files;

namespace BrassVox.Practice.Scenes;

/// <summary>Reads and writes scene files. Nothing is half-loaded, and a file is replaced in one step.</summary>
public static class SceneFile
{
    /// <summary>Longest file read, in bytes.</summary>
    public const long LargestBytes = 1 << 16;

    /// <summary>Reads a file. Never throws for a missing, unreadable or broken file.</summary>
    /// <param name="path">Path of the file.</param>
    public static FileLoad<Scene> Read(string path) =>
        CheckedJson.Read(path, LargestBytes, SceneJson.Default.Scene, SceneCheck.FirstFault);

    /// <summary>Reads a scene from UTF-8 text.</summary>
    /// <param name="utf8">The text; a byte order mark is passed over.</param>
    /// <param name="name">Name used in a problem.</param>
    public static FileLoad<Scene> Parse(ReadOnlySpan<byte> utf8, string name) =>
        CheckedJson.Parse(utf8, name, SceneJson.Default.Scene, SceneCheck.FirstFault);

    /// <summary>Writes a scene into a folder, under its id.</summary>
    /// <param name="folder">The folder; made when it is missing.</param>
    /// <param name="scene">The scene.</param>
    /// <returns>Path of the file.</returns>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static string Write(string folder, Scene scene)
    {
        Directory.CreateDirectory(folder);
        string path = Path.Combine(folder, $"{scene.Id}.json");
        WholeFile.Write(path, file =>
        {
            JsonSerializer.Serialize(file, scene, SceneJson.Default.Scene);
            file.Write("\n"u8);
        });
        return path;
    }
}
