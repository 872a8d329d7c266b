namespace BrassVox.Analysis.Bleed;

/// <summary>Whether a drone is heard back by the microphone.</summary>
/// <param name="Bleeds">True when the drone is in the recording loud enough to be taken for the player.</param>
/// <param name="ShareDb">Level of the drone in the recording against the whole recording, in dB, at most 0; -200 when none is found.</param>
/// <param name="LikenessShare">0 to 1: how firmly the recording follows the drone at the drone's own partials (magnitude-squared coherence that half of them reach).</param>
public readonly record struct BleedReading(bool Bleeds, double ShareDb, double LikenessShare);
