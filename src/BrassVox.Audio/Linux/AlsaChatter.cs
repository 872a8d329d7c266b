using System.Runtime.InteropServices;

namespace BrassVox.Audio.Linux;

/// <summary>
/// Keeps libasound from writing to stderr. The hooks are unmanaged functions that do nothing, so no delegate has to be
/// kept alive. alsa-lib has one hook for errors and, from 1.2.15, a second for its log; both are set where present.
/// </summary>
internal static class AlsaChatter
{
    /// <summary>Silences the library. Safe to repeat.</summary>
    /// <returns>False when this machine has no libasound.</returns>
    internal static unsafe bool Silence()
    {
        if (!NativeLibrary.TryLoad("libasound.so.2", out nint library))
            return false;
        if (NativeLibrary.TryGetExport(library, "snd_lib_error_set_handler", out nint setErrorHook))
        {
            delegate* unmanaged[Cdecl]<nint, int, nint, int, nint, void> hook = &IgnoreError;
            ((delegate* unmanaged[Cdecl]<nint, int>)setErrorHook)((nint)hook);
        }

        if (NativeLibrary.TryGetExport(library, "snd_lib_log_set_handler", out nint setLogHook))
        {
            delegate* unmanaged[Cdecl]<int, int, nint, int, nint, int, nint, nint, void> hook = &IgnoreLog;
            ((delegate* unmanaged[Cdecl]<nint, nint>)setLogHook)((nint)hook);
        }

        return true;
    }

    // In C this takes further arguments after the format; a callee that reads none of them need not declare them.
    [UnmanagedCallersOnly(CallConvs = [typeof(System.Runtime.CompilerServices.CallConvCdecl)])]
    private static void IgnoreError(nint file, int line, nint function, int error, nint format)
    {
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(System.Runtime.CompilerServices.CallConvCdecl)])]
    private static void IgnoreLog(
        int priority, int part, nint file, int line, nint function, int error, nint format, nint arguments)
    {
    }
}
