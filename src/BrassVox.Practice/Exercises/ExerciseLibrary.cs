using BrassVox.Practice.Files;

namespace BrassVox.Practice.Exercises;

/// <summary>All exercises of one or more folders, in curriculum order, and what could not be loaded.</summary>
public sealed class ExerciseLibrary
{
    private ExerciseLibrary(IReadOnlyList<Exercise> exercises, IReadOnlyList<FileProblem> problems)
    {
        Exercises = exercises;
        Problems = problems;
    }

    /// <summary>Exercises by number, then id.</summary>
    public IReadOnlyList<Exercise> Exercises { get; }

    /// <summary>Files that were refused; the others are not affected.</summary>
    public IReadOnlyList<FileProblem> Problems { get; }

    /// <summary>Folder of the exercises that come with the program.</summary>
    public static string ShippedFolder => Path.Combine(AppContext.BaseDirectory, "presets", "exercises");

    /// <summary>Loads every .json file of the folders. A later folder's exercise replaces an earlier one of the same id; a missing folder counts as empty.</summary>
    /// <param name="folders">The folders, the program's own first.</param>
    public static ExerciseLibrary Load(params IReadOnlyList<string> folders)
    {
        var byId = new Dictionary<string, Exercise>(StringComparer.Ordinal);
        List<FileProblem> problems = [];
        foreach (string folder in folders.Where(Directory.Exists))
        {
            foreach (string path in Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal))
            {
                ExerciseLoad load = ExerciseFile.Read(path);
                if (load.Exercise is { } exercise)
                {
                    byId[exercise.Id] = exercise;
                }
                else if (load.Problem is { } problem)
                {
                    problems.Add(problem);
                }
            }
        }

        return new ExerciseLibrary(
            [.. byId.Values.OrderBy(exercise => exercise.Number).ThenBy(exercise => exercise.Id, StringComparer.Ordinal)], problems);
    }

    /// <summary>Finds an exercise by id or by its number.</summary>
    /// <param name="idOrNumber">Such as open-home-pair or 14.</param>
    public Exercise? Find(string idOrNumber) =>
        Exercises.FirstOrDefault(exercise => string.Equals(exercise.Id, idOrNumber, StringComparison.OrdinalIgnoreCase))
        ?? (int.TryParse(idOrNumber, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int number)
            ? Exercises.FirstOrDefault(exercise => exercise.Number == number)
            : null);
}
