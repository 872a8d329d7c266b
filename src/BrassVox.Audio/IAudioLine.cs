namespace BrassVox.Audio;

/// <summary>A running connection to a device, a file, or nothing at all. Opened stopped.</summary>
public interface IAudioLine : IAsyncDisposable
{
    /// <summary>What the line is, for people: a device's name or a file's path.</summary>
    string Name { get; }

    /// <summary>What was granted.</summary>
    LineFormat Granted { get; }

    /// <summary>Blocks that came too late or were lost since Start. Any thread.</summary>
    long DropoutCount { get; }

    /// <summary>Ends exactly once, with the first reason.</summary>
    Task<LineEnd> Completion { get; }

    /// <summary>One line on what went wrong, once <see cref="Completion"/> is DeviceLost or Faulted; else null.</summary>
    string? FaultMessage { get; }

    /// <summary>Starts the line's sound thread. Once.</summary>
    void Start();

    /// <summary>Stops and waits for the sound thread to leave. Never called from a block callback. Safe to repeat.</summary>
    Task StopAsync();
}
