namespace BrassVox.Audio;

/// <summary>
/// One direction of one opened device. Everything but <see cref="Describe"/> is called on the line's own sound thread.
/// Nothing but <see cref="Wait"/> may block for longer than a block lasts.
/// </summary>
internal interface IPcm : IDisposable
{
    /// <summary>Name for people.</summary>
    string Name { get; }

    /// <summary>
    /// True for a device that keeps its own time, whose sound thread is to run ahead of others. A file is worked as fast as
    /// can be: at real-time priority it would starve the machine.
    /// </summary>
    bool KeepsTime { get; }

    /// <summary>What the device runs at now. Read again after each block, since some devices change their rate.</summary>
    LineFormat Format { get; }

    /// <summary>Blocks lost or late so far.</summary>
    long DropoutCount { get; }

    /// <summary>Gets the device going.</summary>
    PcmStep Start();

    /// <summary>Waits until samples can be moved or the time is up.</summary>
    /// <param name="timeoutMs">Longest wait in ms.</param>
    PcmStep Wait(int timeoutMs);

    /// <summary>Plays a block whole.</summary>
    /// <param name="interleaved">Interleaved samples.</param>
    PcmStep Write(ReadOnlySpan<float> interleaved);

    /// <summary>Fetches up to a block. <see cref="PcmStep.Samples"/> says how many samples per channel came.</summary>
    /// <param name="interleaved">Where to put them.</param>
    PcmStep Read(Span<float> interleaved);

    /// <summary>Stops the device. May throw or fail; nobody minds by then.</summary>
    void Halt();

    /// <summary>Says in one line what an error number means. Not on the sound thread.</summary>
    /// <param name="step">The answer that ended the line.</param>
    string Describe(PcmStep step);
}
