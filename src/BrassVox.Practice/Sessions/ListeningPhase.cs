namespace BrassVox.Practice.Sessions;

/// <summary>Where a listening session stands.</summary>
public enum ListeningPhase
{
    /// <summary>Nothing sounds; the next trial waits to be started.</summary>
    Ready,

    /// <summary>The trial sounds. Taps and, for choices, answers are taken already.</summary>
    Sounding,

    /// <summary>The sound is over; the answer is waited for.</summary>
    Asking,

    /// <summary>The answer was given; the truth may be shown.</summary>
    Answered,

    /// <summary>All trials are done.</summary>
    Finished,
}
