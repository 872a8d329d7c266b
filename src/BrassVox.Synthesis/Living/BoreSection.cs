namespace BrassVox.Synthesis.Living;

/// <summary>One piece of a bore, seen from the player.</summary>
/// <param name="Shape">Course of the radius.</param>
/// <param name="LengthMm">Length in mm, &gt; 0.</param>
/// <param name="StartRadiusMm">Radius at the player's end in mm, &gt; 0.</param>
/// <param name="EndRadiusMm">Radius at the bell's end in mm; the same as the start for a cylinder, larger for a Bessel horn.</param>
/// <param name="FlareExponent">Exponent of a Bessel horn, 0.1 to 5; 0 for the other shapes. 0.7 is usual for trumpet and trombone bells.</param>
/// <remarks>Source of the Bessel form: Benade; Fletcher and Rossing, The Physics of Musical Instruments, section 8.7 (from memory).</remarks>
public sealed record BoreSection(BoreShape Shape, double LengthMm, double StartRadiusMm, double EndRadiusMm, double FlareExponent);
