namespace BrassVox.Audio;

/// <summary>Told by an input line, on its sound thread, of a block that has arrived. Never allocates, locks, waits or throws.</summary>
/// <param name="interleaved">Interleaved samples, full scale 1; valid only during the call.</param>
public delegate void TakeBlock(ReadOnlySpan<float> interleaved);
