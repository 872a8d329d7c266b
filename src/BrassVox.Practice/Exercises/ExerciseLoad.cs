using BrassVox.Practice.Files;

namespace BrassVox.Practice.Exercises;

/// <summary>What came of reading one exercise: the exercise, or the problem.</summary>
/// <param name="Exercise">The exercise; null when there is a problem.</param>
/// <param name="Problem">The problem; null when there is an exercise.</param>
public sealed record ExerciseLoad(Exercise? Exercise, FileProblem? Problem);
