namespace BrassVox.Synthesis.Living;

/// <summary>How the radius runs along a section of a bore.</summary>
public enum BoreShape
{
    /// <summary>The same radius throughout.</summary>
    Cylinder,

    /// <summary>Radius in a straight line.</summary>
    Cone,

    /// <summary>A Bessel horn: radius proportional to (distance from the mouth plus an offset) to the power of minus the flare exponent.</summary>
    Bessel,
}
