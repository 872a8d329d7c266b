using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Sessions;

/// <summary>One answered trial.</summary>
/// <param name="Trial">The trial, truth included.</param>
/// <param name="Right">True when the answer was right (for a rate: within the limit).</param>
/// <param name="Answer">What was answered, as text.</param>
/// <param name="Truth">What was true, as text.</param>
/// <param name="ErrorPercent">For a rate: how far the answer lay from the truth, in per cent, negative when slow; else null.</param>
/// <param name="TimesHeard">How often the trial was heard, at least 1.</param>
public sealed record TrialResult(
    ListeningTrial Trial, bool Right, string Answer, string Truth, double? ErrorPercent, int TimesHeard);
