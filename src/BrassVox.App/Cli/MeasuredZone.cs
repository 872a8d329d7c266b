namespace BrassVox.App.Cli;

/// <summary>Where one tone held the other while the voice glided past a harmonic.</summary>
/// <param name="PlayedHarmonic">Harmonic of the played tone that was met.</param>
/// <param name="SungHarmonic">Harmonic of the sung tone that met it.</param>
/// <param name="LowCents">Lower edge against the exact interval.</param>
/// <param name="HighCents">Upper edge, likewise.</param>
internal sealed record MeasuredZone(int PlayedHarmonic, int SungHarmonic, double LowCents, double HighCents);
