using System.Text.Json;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>
/// Machines where sound is listed but not there. ALSA reads the file named by ALSA_CONFIG_PATH in
/// place of its own, so each machine is made up by one.
/// </summary>
public sealed class NoDeviceTests
{
    [Theory]
    [InlineData("")]
    [InlineData("pcm.!default { type hw card 99 }")]
    [InlineData("pcm.!default { type hw card 99 nonsense 1 }")]
    [InlineData("pcm.!default { type pulse server \"tcp:127.0.0.1:9\" }")]
    [InlineData("pcm.!default { this is no configuration")]
    public void No_device_is_an_empty_list_and_libasound_is_silent(string configuration)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "needs ALSA, which is part of Linux");
        using var folder = new TestFolder("brassvox-");
        File.WriteAllText(folder.File("sound.conf"), configuration + "\n");
        CommandLineResult result = CommandLine.Run(
            ["devices", "--json"],
            new Dictionary<string, string> { ["ALSA_CONFIG_PATH"] = folder.File("sound.conf"), ["PULSE_SERVER"] = "tcp:127.0.0.1:9" });

        Assert.Equal(0, result.ExitCode);
        Assert.Equal(0, JsonDocument.Parse(result.Output).RootElement.GetArrayLength());
        Assert.Equal("", result.Errors);
    }

    [Fact]
    public void A_device_that_only_swallows_is_listed_as_the_default_it_is()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "needs ALSA, which is part of Linux");
        using var folder = new TestFolder("brassvox-");
        File.WriteAllText(folder.File("sound.conf"), "pcm.!default { type null }\n");
        CommandLineResult result = CommandLine.Run(
            ["devices", "--json"], new Dictionary<string, string> { ["ALSA_CONFIG_PATH"] = folder.File("sound.conf") });
        JsonElement device = Assert.Single(JsonDocument.Parse(result.Output).RootElement.EnumerateArray());
        Assert.Equal("default", device.GetProperty("id").GetString());
    }
}
