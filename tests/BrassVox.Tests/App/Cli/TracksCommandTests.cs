using BrassVox.App.Cli;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>Where tracks cannot go, one line says so before anything is rendered.</summary>
public sealed class TracksCommandTests
{
    [Fact]
    public void A_file_in_the_place_of_the_folder_is_named_and_kept()
    {
        string path = Path.GetTempFileName();
        CommandLineResult result = CommandLine.Run(["tracks", "open-home-pair", "-o", path]);
        Assert.Equal(ExitCode.CannotStore, result.ExitCode);
        Assert.Equal($"brassvox: {path} is a file; --output names a folder for the tracks.", result.Errors.Trim());
        Assert.True(File.Exists(path));
        File.Delete(path);
    }

    [Fact]
    public void A_place_where_no_folder_can_be_made_is_named_with_what_to_try()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "/proc is Linux's");
        CommandLineResult result = CommandLine.Run("tracks open-home-pair -o /proc/x");
        Assert.Equal(ExitCode.CannotStore, result.ExitCode);
        Assert.Equal("brassvox: /proc/x: no folder can be made there. Name another with --output, one whose parent exists and may be written.", result.Errors.Trim());
        Assert.Empty(result.Output);
    }
}
