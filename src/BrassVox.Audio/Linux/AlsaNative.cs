using System.Runtime.InteropServices;

namespace BrassVox.Audio.Linux;

/// <summary>The functions of libasound that are used, under their documented C signatures (alsa-lib 1.x, pcm.h, control.h).</summary>
internal static partial class AlsaNative
{
    internal const int Playback = 0;
    internal const int Capture = 1;
    internal const int NonBlocking = 1;
    internal const int AccessInterleaved = 3;
    internal const int FormatS16 = 2;
    internal const int FormatS32 = 10;
    internal const int FormatFloat = 14;
    internal const int Again = -11;
    internal const int BrokenPipe = -32;
    internal const int Suspended = -86;

    private const string Library = "libasound.so.2";

    [LibraryImport(Library, EntryPoint = "snd_pcm_open", StringMarshalling = StringMarshalling.Utf8)]
    internal static partial int Open(out nint pcm, string name, int stream, int mode);

    [LibraryImport(Library, EntryPoint = "snd_pcm_close")]
    internal static partial int Close(nint pcm);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_malloc")]
    internal static partial int HwMalloc(out nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_free")]
    internal static partial void HwFree(nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_any")]
    internal static partial int HwAny(nint pcm, nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_rate_resample")]
    internal static partial int HwResample(nint pcm, nint parameters, uint allow);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_access")]
    internal static partial int HwAccess(nint pcm, nint parameters, int access);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_format")]
    internal static partial int HwFormat(nint pcm, nint parameters, int format);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_channels_near")]
    internal static partial int HwChannels(nint pcm, nint parameters, ref uint channels);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_rate_near")]
    internal static partial int HwRate(nint pcm, nint parameters, ref uint rateHz, nint direction);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_period_size_near")]
    internal static partial int HwPeriod(nint pcm, nint parameters, ref nuint samples, nint direction);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params_set_buffer_size_near")]
    internal static partial int HwBuffer(nint pcm, nint parameters, ref nuint samples);

    [LibraryImport(Library, EntryPoint = "snd_pcm_hw_params")]
    internal static partial int HwInstall(nint pcm, nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_sw_params_malloc")]
    internal static partial int SwMalloc(out nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_sw_params_free")]
    internal static partial void SwFree(nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_sw_params_current")]
    internal static partial int SwCurrent(nint pcm, nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_sw_params_set_start_threshold")]
    internal static partial int SwStartThreshold(nint pcm, nint parameters, nuint samples);

    [LibraryImport(Library, EntryPoint = "snd_pcm_sw_params_set_avail_min")]
    internal static partial int SwAvailMin(nint pcm, nint parameters, nuint samples);

    [LibraryImport(Library, EntryPoint = "snd_pcm_sw_params")]
    internal static partial int SwInstall(nint pcm, nint parameters);

    [LibraryImport(Library, EntryPoint = "snd_pcm_start")]
    internal static partial int Start(nint pcm);

    [LibraryImport(Library, EntryPoint = "snd_pcm_drop")]
    internal static partial int Drop(nint pcm);

    [LibraryImport(Library, EntryPoint = "snd_pcm_recover")]
    internal static partial int Recover(nint pcm, int error, int silent);

    [LibraryImport(Library, EntryPoint = "snd_pcm_wait")]
    internal static partial int Wait(nint pcm, int timeoutMs);

    [LibraryImport(Library, EntryPoint = "snd_pcm_avail_update")]
    internal static partial nint Available(nint pcm);

    [LibraryImport(Library, EntryPoint = "snd_pcm_writei")]
    internal static unsafe partial nint Write(nint pcm, void* samples, nuint count);

    [LibraryImport(Library, EntryPoint = "snd_pcm_readi")]
    internal static unsafe partial nint Read(nint pcm, void* samples, nuint count);

    [LibraryImport(Library, EntryPoint = "snd_strerror")]
    internal static partial nint ErrorText(int error);

    [LibraryImport(Library, EntryPoint = "snd_device_name_hint", StringMarshalling = StringMarshalling.Utf8)]
    internal static partial int Hints(int card, string kind, out nint hints);

    [LibraryImport(Library, EntryPoint = "snd_device_name_get_hint", StringMarshalling = StringMarshalling.Utf8)]
    internal static partial nint Hint(nint hint, string key);

    [LibraryImport(Library, EntryPoint = "snd_device_name_free_hint")]
    internal static partial int FreeHints(nint hints);

    [LibraryImport(Library, EntryPoint = "snd_config_update_free_global")]
    internal static partial int ForgetConfiguration();

    [LibraryImport("libc", EntryPoint = "free")]
    internal static partial void Free(nint memory);

    /// <summary>libasound's own words for an error.</summary>
    /// <param name="error">Negative error number.</param>
    internal static string Explain(int error) =>
        Marshal.PtrToStringUTF8(ErrorText(error)) ?? $"error {error}";
}
