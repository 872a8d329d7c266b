namespace BrassVox.Practice.Exercises;

/// <summary>What the player predicts as a number before a take.</summary>
public enum PredictedFigure
{
    /// <summary>How far P will lie from what is asked, in cents; above 0 is high.</summary>
    PlayedCents,

    /// <summary>How far S will lie from what is asked, in cents; above 0 is high.</summary>
    SungCents,

    /// <summary>How fast the pair will beat, in beats per second.</summary>
    Beats,
}
