using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>
/// The private sound server of tests/tools/with-sound-server.sh. Tests that need it share it one after another.
/// </summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class SoundServer
{
    public const string Name = "sound server";

    private static string Folder => Environment.GetEnvironmentVariable("BRASSVOX_SOUND_SERVER_FOLDER")!;

    private static int ProcessId => int.Parse(File.ReadAllText(Path.Combine(Folder, "pid")), CultureInfo.InvariantCulture);

    internal static void Need() => Assert.SkipUnless(
        Environment.GetEnvironmentVariable("BRASSVOX_SOUND_SERVER") == "1",
        "needs a sound server: bash tests/tools/with-sound-server.sh dotnet test --project tests/BrassVox.Tests");

    /// <summary>Ends the server at once and keeps it down.</summary>
    internal static void Kill()
    {
        File.WriteAllText(Path.Combine(Folder, "down"), "");
        Process.GetProcessById(ProcessId).Kill();
    }

    /// <summary>Lets the server start again.</summary>
    internal static void Restart() => File.Delete(Path.Combine(Folder, "down"));

    /// <summary>Freezes the server as it is: it neither answers nor goes away.</summary>
    internal static void Freeze() => Signal("STOP");

    /// <summary>Lets a frozen server go on.</summary>
    internal static void Thaw() => Signal("CONT");

    private static void Signal(string name)
    {
        using Process kill = Process.Start("kill", [$"-{name}", ProcessId.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }
}
