using System.Text.Json.Serialization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Judging;

/// <summary>What a take came to: findings with reasons, the best second, one thing to do next.</summary>
/// <param name="ExerciseId">The exercise.</param>
/// <param name="Aim">The grade aimed at.</param>
/// <param name="AsAsked">True when nothing asked was missed and all of it was measured, in as many steps as the exercise wants; null when nothing was told, or too little to say.</param>
/// <param name="Reached">The narrowest grade at which all criteria are met; null for none, where a step was missed, and where the take is not judged.</param>
/// <param name="Findings">What each criterion found, step by step.</param>
/// <param name="Played">P over the take; null when P was not asked for.</param>
/// <param name="Sung">S over the take; null when S was not asked for.</param>
/// <param name="Pair">The two together.</param>
/// <param name="BestSecond">The second nearest to what was asked, from the beginning of the take; null when nothing was heard for a second.</param>
/// <param name="Next">One thing to try next.</param>
public sealed record TakeResult(
    string ExerciseId,
    Grade Aim,
    bool? AsAsked,
    Grade? Reached,
    IReadOnlyList<Finding> Findings,
    JudgedTone? Played,
    JudgedTone? Sung,
    JudgedPair Pair,
    Window? BestSecond,
    string Next)
{
    /// <summary>True when an octave was asked for and cannot be told.</summary>
    [JsonIgnore]
    public bool IsOctaveUntold => Findings.Any(finding => finding.Criterion == PairCriteria.OctaveName);

    // The reader of JSON gives null where a file, as an older one, does not name them.

    /// <summary>Note by note, where the exercise is judged so; empty otherwise.</summary>
    public IReadOnlyList<NoteResult> Notes { get; init => field = value ?? []; } = [];

    /// <summary>The error with and without the program's own sound, where a take has both; empty otherwise.</summary>
    public IReadOnlyList<DroneComparison> DroneComparisons { get; init => field = value ?? []; } = [];
}
