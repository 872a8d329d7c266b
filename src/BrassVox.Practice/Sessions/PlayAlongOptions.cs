namespace BrassVox.Practice.Sessions;

/// <summary>How a play-along session is tied to its sound.</summary>
/// <param name="OutputRateHz">Rate the engine was prepared for, in Hz.</param>
/// <param name="InputRateHz">Rate of the microphone's samples, in Hz.</param>
/// <param name="RoundTripSeconds">From rendering a sample until its sound comes back as a recorded one, in seconds; measured, or the sum of both lines' buffers.</param>
/// <param name="DroneSounds">False leaves out what the program would sound during the take.</param>
/// <param name="Click">When a click is heard.</param>
public sealed record PlayAlongOptions(
    int OutputRateHz, int InputRateHz, double RoundTripSeconds = 0, bool DroneSounds = true, ClickUse Click = ClickUse.Off);
