using BrassVox.Analysis;

namespace BrassVox.Practice.Sessions;

/// <summary>Makes a tracker for a stream; the session does not care which.</summary>
/// <param name="sampleRateHz">Rate of the stream in Hz.</param>
/// <param name="prior">What is known before listening.</param>
public delegate IDuetTracker TrackerFactory(int sampleRateHz, DuetPrior prior);
