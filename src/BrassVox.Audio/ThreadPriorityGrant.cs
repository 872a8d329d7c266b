namespace BrassVox.Audio;

/// <summary>How the system agreed to run a sound thread.</summary>
internal enum ThreadPriorityGrant
{
    /// <summary>Like any other thread.</summary>
    Normal,

    /// <summary>Ahead of other threads, but not real-time.</summary>
    Raised,

    /// <summary>Real-time: nothing ordinary can hold it up.</summary>
    RealTime,
}
