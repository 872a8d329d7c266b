using System.Globalization;
using System.Text;
using BrassVox.Practice.Files;

namespace BrassVox.Practice.Passages;

/// <summary>Passages that a player has written in the program: one text file each in <c>passages/</c> of the data folder, kept as typed, whole or with faults.</summary>
/// <param name="dataFolder">The data folder.</param>
public sealed class OwnPassages(string dataFolder)
{
    private const string Stem = "own-";
    private const string Ending = ".txt";

    /// <summary>Where they lie; need not exist yet.</summary>
    public string Folder { get; } = Path.Combine(dataFolder, "passages");

    /// <summary>Names of all of them, the first written first; files of other names are left alone.</summary>
    public IReadOnlyList<string> Names => Directory.Exists(Folder)
        ? [.. Directory.EnumerateFiles(Folder, $"{Stem}*{Ending}").Select(Path.GetFileName).OfType<string>().Where(name => NumberOf(name) > 0).OrderBy(NumberOf)]
        : [];

    /// <summary>A name that none has yet; another instance may take it meanwhile, so <see cref="KeepUnnamed"/> finds its own.</summary>
    public string NewName() => string.Create(CultureInfo.InvariantCulture, $"{Stem}{(Names is { Count: > 0 } names ? NumberOf(names[^1]) : 0) + 1}{Ending}");

    /// <summary>Where one lies.</summary>
    /// <param name="name">Its name, one of <see cref="Names"/> or <see cref="NewName"/>.</param>
    public string PathOf(string name) => Path.Combine(Folder, Checked(name));

    /// <summary>Reads one as a passage.</summary>
    /// <param name="name">Its name.</param>
    public PassageLoad Read(string name) => PassageFile.Read(PathOf(name));

    /// <summary>One as it was typed; null where it cannot be read.</summary>
    /// <param name="name">Its name.</param>
    public string? Text(string name)
    {
        try
        {
            return File.ReadAllText(PathOf(name)).ReplaceLineEndings("\n");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Keeps one, whole or not at all; the text may have faults.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="text">The text as typed.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public void Keep(string name, string text)
    {
        string path = PathOf(name);
        OwnerOnly.MakeFolder(Folder);
        WholeFile.WriteForOwner(path, file => file.Write(Encoding.UTF8.GetBytes(text)));
    }

    /// <summary>Keeps one that is new, under a name that none has, not even one that another instance keeps in the same moment.</summary>
    /// <param name="text">The text as typed.</param>
    /// <returns>Its name.</returns>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public string KeepUnnamed(string text)
    {
        OwnerOnly.MakeFolder(Folder);
        string name = NewName();
        while (!IsReserved(PathOf(name)))
        {
            name = NewName();
        }

        try
        {
            Keep(name, text);
            return name;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            File.Delete(PathOf(name));
            throw;
        }
    }

    /// <summary>Deletes one; nothing happens where there is none.</summary>
    /// <param name="name">Its name.</param>
    /// <exception cref="IOException">It cannot be deleted.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be deleted.</exception>
    public void Remove(string name)
    {
        string path = PathOf(name);
        if (File.Exists(path))
        {
            File.Delete(path);
        }
    }

    /// <summary>Whether a name is one that this gives.</summary>
    /// <param name="name">The name.</param>
    public static bool IsName(string name) => NumberOf(name) > 0;

    // An empty file holds the name until the text takes its place.
    private static bool IsReserved(string path)
    {
        try
        {
            OwnerOnly.Open(path, FileMode.CreateNew).Dispose();
            return true;
        }
        catch (IOException) when (File.Exists(path))
        {
            return false;
        }
    }

    private static string Checked(string name) => IsName(name) ? name : throw new ArgumentException($"\"{name}\" is no name of an own passage.", nameof(name));

    private static int NumberOf(string name) =>
        name.StartsWith(Stem, StringComparison.Ordinal) && name.EndsWith(Ending, StringComparison.Ordinal)
        && int.TryParse(name.AsSpan(Stem.Length, Math.Max(0, name.Length - Stem.Length - Ending.Length)), NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            ? number
            : 0;
}
