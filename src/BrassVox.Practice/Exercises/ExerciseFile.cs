using BrassVox.Practice.Files;

namespace BrassVox.Practice.Exercises;

/// <summary>Reads exercise files. Nothing is half-loaded: an exercise is whole or there is a problem with file, line and place.</summary>
public static class ExerciseFile
{
    /// <summary>Longest file read, in bytes.</summary>
    public const long LargestBytes = 1 << 20;

    /// <summary>Reads a file. Never throws for a missing, unreadable or broken file.</summary>
    /// <param name="path">Path of the file.</param>
    public static ExerciseLoad Read(string path) =>
        Loaded(CheckedJson.Read(path, LargestBytes, ExerciseJson.Default.Exercise, ExerciseCheck.FirstFault));

    /// <summary>Reads an exercise from UTF-8 text.</summary>
    /// <param name="utf8">The text; a byte order mark is passed over.</param>
    /// <param name="name">Name used in a problem.</param>
    public static ExerciseLoad Parse(ReadOnlySpan<byte> utf8, string name) =>
        Loaded(CheckedJson.Parse(utf8, name, ExerciseJson.Default.Exercise, ExerciseCheck.FirstFault));

    private static ExerciseLoad Loaded(FileLoad<Exercise> load) => new(load.Value, load.Problem);
}
