namespace BrassVox.Theory;

/// <summary>Which pairwise formula weighs two partials.</summary>
public enum RoughnessModel
{
    /// <summary>Sethares: the weaker of the two amplitudes counts.</summary>
    Sethares,

    /// <summary>Vassilakis: level and depth of the beating count.</summary>
    Vassilakis,
}
