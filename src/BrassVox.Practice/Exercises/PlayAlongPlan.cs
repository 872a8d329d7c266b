namespace BrassVox.Practice.Exercises;

/// <summary>A take: steps one after another in one breath or with silence between.</summary>
/// <param name="Cue">What is heard before.</param>
/// <param name="Steps">The steps, at least one.</param>
/// <param name="GapSeconds">Silence between steps in seconds, at least 0.</param>
/// <param name="TempoBpm">Beats a minute for motions counted in beats; null when all are in seconds.</param>
/// <param name="Draw">Steps drawn at random from the first one; null takes the steps as they stand.</param>
/// <param name="PassShare">Share of the steps that have to be as asked, over 0 to 1.</param>
/// <param name="Passage">A passage in place of the steps, which are then none.</param>
/// <param name="Predict">The number a player predicts before each take; null for none.</param>
public sealed record PlayAlongPlan(
    Cue Cue,
    IReadOnlyList<StepPlan> Steps,
    double GapSeconds = 0,
    double? TempoBpm = null,
    DrawPlan? Draw = null,
    double PassShare = 1,
    PassagePlan? Passage = null,
    PredictedFigure? Predict = null);
