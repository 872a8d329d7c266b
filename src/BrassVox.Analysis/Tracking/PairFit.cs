namespace BrassVox.Analysis.Tracking;

/// <summary>Two pitches fitted to one window, and how well the window decides them.</summary>
/// <param name="PlayedHz">P in Hz, 0 when the tone is left out.</param>
/// <param name="SungHz">S in Hz, 0 when the tone is left out.</param>
/// <param name="ExplainedPower">Mean power explained by both tones.</param>
/// <param name="CurvaturePlayed">Minus the second derivative of the explained power by P in cents.</param>
/// <param name="CurvatureSung">The same by S in cents.</param>
/// <param name="CurvatureCross">The same by P and S.</param>
internal readonly record struct PairFit(
    double PlayedHz,
    double SungHz,
    double ExplainedPower,
    double CurvaturePlayed,
    double CurvatureSung,
    double CurvatureCross)
{
    /// <summary>Share of the product of both curvatures that the determinant keeps where the surface counts as quadratic; ours, from synthetic pairs.</summary>
    public const double LeastQuadratic = 0.3;

    /// <summary>The same pair with the lower tone in the first place.</summary>
    public PairFit LowerFirst() => PlayedHz <= SungHz
        ? this
        : new PairFit(SungHz, PlayedHz, ExplainedPower, CurvatureSung, CurvaturePlayed, CurvatureCross);
}
