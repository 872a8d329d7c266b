namespace BrassVox.Audio;

/// <summary>How a line ended.</summary>
public enum LineEnd
{
    /// <summary>It was stopped on request, or its file ended.</summary>
    Stopped,

    /// <summary>The device went away or its server ended: open again, perhaps on another device.</summary>
    DeviceLost,

    /// <summary>Something failed that opening again will not cure; the message says what.</summary>
    Faulted,
}
