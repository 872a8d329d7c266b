using System.Runtime.InteropServices;

namespace BrassVox.Audio;

/// <summary>Asks the system to run the calling thread ahead of others. Never required; refusal is normal.</summary>
internal static partial class SoundThread
{
    private const int PolicyFifo = 1;
    private const int ResetOnFork = 0x40000000;
    private const int FifoPriority = 10;
    private const int HelperPriority = 9;
    private const int NiceForThread = 0;
    private const int Nice = -11;
    private const int UserInteractive = 0x21;

    /// <summary>Raises the calling thread as far as the system lets it.</summary>
    internal static ThreadPriorityGrant Raise()
    {
        try
        {
            if (OperatingSystem.IsLinux())
                return RaiseOnLinux();
            if (OperatingSystem.IsMacOS() && SetQualityOfService(UserInteractive, 0) == 0)
                return ThreadPriorityGrant.Raised;
            if (OperatingSystem.IsWindows())
            {
                uint task = 0;
                if (SetMultimediaTask("Pro Audio", ref task) != 0)
                    return ThreadPriorityGrant.RealTime;
            }

            Thread.CurrentThread.Priority = ThreadPriority.Highest;
            return ThreadPriorityGrant.Raised;
        }
        catch (Exception)
        {
            return ThreadPriorityGrant.Normal;
        }
    }

    /// <summary>
    /// Raises the calling thread a little before it opens a device: the helper threads of a sound server's plug-in, which
    /// carry every block, inherit this.
    /// </summary>
    internal static void RaiseForOpening()
    {
        if (!OperatingSystem.IsLinux())
            return;
        try
        {
            int priority = HelperPriority;
            if (SetScheduler(0, PolicyFifo, in priority) != 0)
                _ = SetPriority(NiceForThread, 0, Nice);
        }
        catch (Exception)
        {
            // Never required.
        }
    }

    // Id 0 means the calling thread in both calls.
    private static ThreadPriorityGrant RaiseOnLinux()
    {
        int priority = FifoPriority;
        if (SetScheduler(0, PolicyFifo | ResetOnFork, in priority) == 0)
            return ThreadPriorityGrant.RealTime;
        return SetPriority(NiceForThread, 0, Nice) == 0 ? ThreadPriorityGrant.Raised : ThreadPriorityGrant.Normal;
    }

    [LibraryImport("libc", EntryPoint = "sched_setscheduler")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int SetScheduler(int thread, int policy, in int priority);

    [LibraryImport("libc", EntryPoint = "setpriority")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int SetPriority(int which, int who, int nice);

    [LibraryImport("libSystem", EntryPoint = "pthread_set_qos_class_self_np")]
    private static partial int SetQualityOfService(int quality, int relativePriority);

    [LibraryImport("avrt", EntryPoint = "AvSetMmThreadCharacteristicsW", StringMarshalling = StringMarshalling.Utf16)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.System32)]
    private static partial nint SetMultimediaTask(string task, ref uint index);
}
