namespace BrassVox.Synthesis;

/// <summary>One control: its name, unit and range exist here once, for code, command line and screen.</summary>
/// <param name="Id">Name in lower camel case, unique within its owner.</param>
/// <param name="Unit">Unit as shown: Hz, c, dB, s, or empty for a plain number.</param>
/// <param name="Minimum">Smallest value.</param>
/// <param name="Maximum">Largest value.</param>
/// <param name="Default">Value before anyone sets it.</param>
/// <param name="SmoothingMs">Time in ms over which the sound follows a change.</param>
public sealed record ParameterSpec(string Id, string Unit, float Minimum, float Maximum, float Default, float SmoothingMs)
{
    /// <summary>Clamps a value to the range.</summary>
    /// <param name="value">Any number but NaN.</param>
    /// <exception cref="ArgumentException"><paramref name="value"/> is NaN.</exception>
    public float Validate(float value) =>
        float.IsNaN(value)
            ? throw new ArgumentException($"{Id} cannot be NaN; it takes {Minimum} to {Maximum} {Unit}.", nameof(value))
            : Math.Clamp(value, Minimum, Maximum);
}
