namespace BrassVox.Audio;

/// <summary>Which way the sound goes.</summary>
internal enum LineDirection
{
    /// <summary>From the program to a device.</summary>
    Output,

    /// <summary>From a device to the program.</summary>
    Input,
}
