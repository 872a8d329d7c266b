namespace BrassVox.Practice.Judging;

/// <summary>One frame of one tone, held against its path.</summary>
/// <param name="Seconds">Centre of the frame, from the beginning of the take or step.</param>
/// <param name="FrequencyHz">Measured pitch in Hz; null when not found or in fog.</param>
/// <param name="Cents">Distance from the path in cents; null when the pitch is.</param>
/// <param name="LevelDbfs">Level of the tone in dBFS; null when the pitch is.</param>
/// <param name="IsFog">True when the two tones could not be told apart.</param>
/// <param name="IsAsked">True when the tone is asked for at that time.</param>
internal readonly record struct SoundedPoint(
    double Seconds, double? FrequencyHz, double? Cents, double? LevelDbfs, bool IsFog, bool IsAsked);
