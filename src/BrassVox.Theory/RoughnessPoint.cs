namespace BrassVox.Theory;

/// <summary>One point of a roughness curve.</summary>
/// <param name="Cents">Interval of the sung above the played tone in cents; negative when it lies below.</param>
/// <param name="Roughness">Sum over all pairs of partials, in the unit of the model.</param>
public readonly record struct RoughnessPoint(double Cents, double Roughness);
