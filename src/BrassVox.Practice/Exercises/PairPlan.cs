namespace BrassVox.Practice.Exercises;

/// <summary>Where an exercise's two tones come from. All intervals of its paths count from these two notes.</summary>
/// <param name="Voice">How the octave of the sung tone is found.</param>
/// <param name="SungAbove">Interval from P to S before any octave is chosen; null takes the home pair's sung note.</param>
/// <param name="Played">A played note for everyone; null takes the home note.</param>
/// <param name="Tuning">A tuning that belongs to the exercise; null takes the profile's.</param>
public sealed record PairPlan(VoicePlace Voice, Interval? SungAbove = null, Theory.Pitch? Played = null, string? Tuning = null);
