namespace BrassVox.Audio;

/// <summary>Asked by an output line, on its sound thread, to fill a block. Never allocates, locks, waits or throws.</summary>
/// <param name="interleaved">Interleaved samples to overwrite, full scale 1; length is channels times 0 to PeriodSamples.</param>
public delegate void FillBlock(Span<float> interleaved);
