using BrassVox.Practice.Exercises;
using BrassVox.Practice.Passages;

namespace BrassVox.App.Cli;

/// <summary>Something to be given away: an exercise or a passage, with notes for one player.</summary>
/// <param name="FileName">Begin of the names of its files; sorts by the order of the curriculum.</param>
/// <param name="Resolved">What is asked, at its tempo.</param>
/// <param name="Passage">The passage, if it is one.</param>
internal sealed record SheetItem(string FileName, ResolvedExercise Resolved, Passage? Passage = null)
{
    /// <summary>Name for people.</summary>
    public string Title => Resolved.Exercise.Name;
}
