namespace BrassVox.Synthesis;

/// <summary>One vowel of one voice.</summary>
/// <param name="Name">u, o, a, e or i.</param>
/// <param name="Formants">Five formants in rising frequency.</param>
public sealed record Vowel(string Name, IReadOnlyList<Formant> Formants);
