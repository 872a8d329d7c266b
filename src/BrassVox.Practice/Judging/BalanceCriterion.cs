namespace BrassVox.Practice.Judging;

/// <summary>From one held stretch of P to the next the played tone grows against the sung one. Only the balance counts, never how loud anything is.</summary>
/// <param name="GrowsByDb">Least growth of P against S from stretch to stretch, in dB.</param>
public sealed record BalanceCriterion(double GrowsByDb) : Criterion;
