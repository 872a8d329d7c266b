using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>When the program itself sounds one of the tones of a step, along the same path that is asked.</summary>
/// <param name="Role">The tone.</param>
/// <param name="FromSeconds">Begin within the step, in seconds.</param>
/// <param name="ToSeconds">End within the step, in seconds; null lasts to its end.</param>
public sealed record DroneWindow(VoiceRole Role, double FromSeconds = 0, double? ToSeconds = null);
