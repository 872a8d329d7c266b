namespace BrassVox.Audio;

/// <summary>What came of one call to a device.</summary>
internal enum PcmState
{
    /// <summary>Done; or nothing to do yet.</summary>
    Good,

    /// <summary>The device went away; open again.</summary>
    Lost,

    /// <summary>The device, or the file behind the line, failed for good.</summary>
    Failed,

    /// <summary>The file behind the line has come to its end.</summary>
    Ended,
}
