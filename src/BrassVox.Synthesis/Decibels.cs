namespace BrassVox.Synthesis;

/// <summary>Levels of amplitudes.</summary>
internal static class Decibels
{
    /// <summary>Level in dB at or below which a tone counts as silent.</summary>
    internal const double Floor = -200;

    /// <summary>Amplitude of a level in dB; exactly 1 at 0 dB.</summary>
    internal static double Amplitude(double db) => db == 0 ? 1 : Math.Pow(10, db / 20);

    /// <summary>Level of an amplitude in dB, <see cref="Floor"/> at the least.</summary>
    internal static double Of(double amplitude) => amplitude < 1e-10 ? Floor : 20 * Math.Log10(amplitude);
}
