namespace BrassVox.Practice.Sessions;

/// <summary>Where a play-along session stands.</summary>
public enum PlayAlongPhase
{
    /// <summary>Nothing sounds, nothing is recorded.</summary>
    Ready,

    /// <summary>The cue sounds.</summary>
    Cue,

    /// <summary>The take runs, unseen.</summary>
    Dark,

    /// <summary>The take is over and closed; the player says what it was like.</summary>
    SayIt,

    /// <summary>Said and measured: both may be shown.</summary>
    Reveal,
}
