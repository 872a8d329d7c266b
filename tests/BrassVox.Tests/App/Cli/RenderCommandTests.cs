using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

public sealed class RenderCommandTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("brassvox-");

    [Fact]
    public void The_living_system_sounds_the_notes_asked()
    {
        string path = Path.Combine(_folder.FullName, "living.wav");
        CommandLineResult render = CommandLine.Run(["render", "Bb2", "C3", "--living", "--instrument", "trombone", "--coupling", "0.2", "--seconds", "2", "--output", path]);
        Assert.Equal((0, string.Empty), (render.ExitCode, render.Errors));

        CommandLineResult measure = CommandLine.Run(["measure", path, "--played", "Bb2", "--sung", "C3", "--json"]);
        System.Text.Json.JsonElement report = System.Text.Json.JsonDocument.Parse(measure.Output).RootElement;

        // Far from unison and octave nothing is caught: both tones lie within the 3 cents that the calibration promises.
        Assert.Equal(0, report.GetProperty("played").GetProperty("offsetCents").GetDouble(), 3.0);
        Assert.Equal(0, report.GetProperty("sung").GetProperty("offsetCents").GetDouble(), 3.0);
    }

    [Fact]
    public void One_column_of_air_has_no_stems()
    {
        CommandLineResult render = CommandLine.Run(["render", "Bb2", "C3", "--living", "--stems", "--output", Path.Combine(_folder.FullName, "x.wav")]);
        Assert.Equal(2, render.ExitCode);
        Assert.Contains("one column of air", render.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sound_of_which_nothing_is_left_is_refused()
    {
        string path = Path.Combine(_folder.FullName, "nothing.wav");
        CommandLineResult render = CommandLine.Run(["render", "Bb2", "C3", "--only", "S-P", "--mute", "s-p", "--output", path]);
        Assert.Equal(2, render.ExitCode);
        Assert.Contains("leave nothing to hear", render.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(path));
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
