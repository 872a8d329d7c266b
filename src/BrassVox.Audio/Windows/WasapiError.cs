namespace BrassVox.Audio.Windows;

/// <summary>
/// Error numbers of WASAPI that call for different answers; .NET turns some of them into exceptions of other types, so
/// only HResult tells. Source: audioclient.h of the Windows SDK.
/// </summary>
internal static class WasapiError
{
    internal const int DeviceInvalidated = unchecked((int)0x88890004);
    internal const int DeviceInUse = unchecked((int)0x8889000A);
    internal const int ServiceNotRunning = unchecked((int)0x88890010);
    internal const int ResourcesInvalidated = unchecked((int)0x88890026);
    internal const int ElementNotFound = unchecked((int)0x80070490);
    internal const int AccessDenied = unchecked((int)0x80070005);

    /// <summary>True when opening again may help.</summary>
    /// <param name="code">Error number.</param>
    internal static bool IsLoss(int code) => code is DeviceInvalidated or ServiceNotRunning or ResourcesInvalidated;

    /// <summary>What an error means and what to try, to follow a device's name.</summary>
    /// <param name="code">Error number.</param>
    internal static string Explain(int code) => code switch
    {
        DeviceInvalidated or ResourcesInvalidated => "was removed or set up anew",
        ServiceNotRunning => "has no Windows audio service behind it; start that service",
        DeviceInUse => "is in exclusive use by another program; close that program, or choose another device",
        ElementNotFound => "was not found; plug a device in, or choose another device",
        AccessDenied => "may not be used; allow desktop programs to use the microphone in the privacy settings",
        _ => $"refused (error 0x{code:X8})",
    };
}
