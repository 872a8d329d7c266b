using System.Text.Json;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>The exercise commands as a shell runs them.</summary>
public sealed class ExerciseCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-exercise-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void The_list_names_every_shipped_exercise_in_the_order_of_the_curriculum()
    {
        CommandLineResult result = CommandLine.Run(["exercise", "list", "--json", "--data", _folder]);
        Assert.Equal(0, result.ExitCode);
        JsonElement[] exercises = [.. JsonDocument.Parse(result.Output).RootElement.EnumerateArray()];
        Assert.Equal(Directory.GetFiles(Path.Combine(Repository.Root, "presets", "exercises"), "*.json").Length, exercises.Length);
        int[] numbers = [.. exercises.Select(exercise => exercise.GetProperty("number").GetInt32())];
        Assert.Equal(numbers.Order(), numbers);
        Assert.Contains("open-home-pair", exercises.Select(exercise => exercise.GetProperty("id").GetString()));
    }

    /// <summary>A4 = 442, just fifth 3:2 over Bb2 (exact arithmetic).</summary>
    [Fact]
    public void Show_gives_the_notes_of_the_player()
    {
        CommandLineResult result = CommandLine.Run(["exercise", "show", "14", "--instrument", "Trombone", "--a4", "442", "--json", "--data", _folder]);
        Assert.Equal(0, result.ExitCode);
        JsonElement shown = JsonDocument.Parse(result.Output).RootElement;
        double playedHz = 442 * Math.Pow(2, -23.0 / 12);
        Assert.Equal("Bb2", shown.GetProperty("played").GetString());
        Assert.Equal(playedHz, shown.GetProperty("playedHz").GetDouble(), 1e-5);
        Assert.Equal(1.5 * playedHz, shown.GetProperty("sungHz").GetDouble(), 1e-5);
        Assert.NotEmpty(shown.GetProperty("cautions").EnumerateArray());
    }

    /// <summary>Exercise 23 has several steps with rests between: when they begin is said, and where a file ends before them.</summary>
    [Fact]
    public void When_steps_begin_is_said_and_that_a_file_ends_before_them()
    {
        string wav = Path.Combine(_folder, "short.wav");
        Assert.Equal(0, CommandLine.Run(["render", "Bb2", "F3", "--seconds", "6", "--output", wav]).ExitCode);
        string shown = CommandLine.Run(["exercise", "show", "23", "--data", _folder]).Output;
        Assert.Contains("Timing      The steps begin at 0, ", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("Timing", CommandLine.Run(["exercise", "show", "14", "--data", _folder]).Output, StringComparison.Ordinal);
        string run = CommandLine.Run(["exercise", "run", "23", "--input", wav, "--played", "Bb2", "--sung", "F3", "--data", _folder]).Output;
        Assert.Contains("The file ends at 6.0 s", run, StringComparison.Ordinal);
    }

    /// <summary>The trombone's home pair with a high voice, 30 c sharp with a vibrato of 30 c: it once passed as reaching grade III.</summary>
    [Theory]
    [InlineData("30", "30", "could not be judged")]
    [InlineData("15", "40", "could not be judged")]
    [InlineData("30", "0", "not as asked")]
    public void A_twelfth_out_of_tune_does_not_pass_by_its_vibrato(string cents, string vibrato, string said)
    {
        string take = Path.Combine(_folder, "twelfth.wav");
        string[] pair = ["Bb2", "F4", "--tuning", "just", "--instrument", "trombone"];
        Assert.Equal(0, CommandLine.Run(["render", .. pair, "--voice", "tenor", "--detune-sung", cents, "--set", $"sungVibratoCents={vibrato}", "--seconds", "10", "--output", take]).ExitCode);
        string text = CommandLine.Run(["exercise", "run", "14", "--played", "Bb2", "--sung", "F4", "--instrument", "trombone", "--voice", "high", "--input", take, "--data", _folder]).Output;
        Assert.Contains($"AIM II   {said}", text, StringComparison.Ordinal);
    }

    /// <summary>A pair of one's own outside the voice is told; one within it is not.</summary>
    [Theory]
    [InlineData("Bb3", false)]
    [InlineData("Bb5", true)]
    [InlineData("C2", true)]
    public void A_sung_note_outside_the_voice_is_told(string sung, bool isTold)
    {
        string shown = CommandLine.Run(["exercise", "show", "14", "--instrument", "trombone", "--voice", "low", "--played", "Bb2", "--sung", sung, "--data", _folder]).Output;
        Assert.Equal(isTold, shown.Contains("S leaves your voice here", StringComparison.Ordinal));
    }

    [Fact]
    public void A_file_is_judged_and_kept_on_request_whatever_the_culture()
    {
        string wav = Path.Combine(_folder, "take.wav");
        Assert.Equal(0, CommandLine.Run(["render", "Bb2", "F3", "--seconds", "3", "--coupling", "0", "--detune-sung", "40", "--instrument", "trombone", "--output", wav]).ExitCode);
        string[] run = ["exercise", "run", "open-home-pair", "--input", wav, "--played", "Bb2", "--sung", "F3", "--tuning", "equal", "--json", "--keep", "--data", _folder];
        CommandLineResult here = CommandLine.Run(run);
        CommandLineResult there = CommandLine.Run(run, new Dictionary<string, string> { ["LC_ALL"] = "de_DE.UTF-8" });
        Assert.Equal(0, here.ExitCode);
        Assert.Equal(here.Output, there.Output);
        JsonElement result = JsonDocument.Parse(here.Output).RootElement.GetProperty("result");
        Assert.Equal(40, result.GetProperty("sung").GetProperty("offsetCents").GetDouble(), 2.0);
        Assert.Contains("offset", result.GetProperty("findings").EnumerateArray()
            .Where(finding => finding.GetProperty("verdict").GetString() == "missed")
            .Select(finding => finding.GetProperty("fault").GetString()));
        Assert.Equal(2, Directory.GetFiles(Path.Combine(_folder, "takes"), "*.json").Length);
    }

    [Fact]
    public void A_silent_file_is_no_take()
    {
        string wav = Path.Combine(_folder, "silent.wav");
        using (var file = new BinaryWriter(File.Create(wav)))
        {
            byte[] samples = new byte[2 * 48000 * 3];
            file.Write("RIFF"u8);
            file.Write(36 + samples.Length);
            file.Write("WAVEfmt "u8);
            file.Write(16);
            file.Write((short)1);
            file.Write((short)1);
            file.Write(48000);
            file.Write(96000);
            file.Write((short)2);
            file.Write((short)16);
            file.Write("data"u8);
            file.Write(samples.Length);
            file.Write(samples);
        }

        CommandLineResult result = CommandLine.Run(["exercise", "run", "open-home-pair", "--input", wav, "--keep", "--data", _folder]);
        Assert.Equal(3, result.ExitCode);
        Assert.Contains("silent throughout", result.Errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(_folder, "takes")) && Directory.EnumerateFiles(Path.Combine(_folder, "takes")).Any());
    }

    [Fact]
    public void A_number_is_taken_before_a_file_is_judged_where_the_exercise_asks_for_one()
    {
        string wav = Path.Combine(_folder, "balance.wav");
        Assert.Equal(0, CommandLine.Run(["render", "Bb2", "G3", "--seconds", "21", "--coupling", "0", "--detune-played", "12", "--instrument", "trombone", "--output", wav]).ExitCode);
        string[] run = ["exercise", "run", "balance", "--input", wav, "--played", "Bb2", "--sung", "G3", "--tuning", "equal", "--data", _folder, "--expect"];
        CommandLineResult result = CommandLine.Run([.. run, "5"]);
        Assert.Equal(0, result.ExitCode);
        Assert.Contains("yes you expected P +5 c: it was +1", result.Output, StringComparison.Ordinal);
        Assert.Equal(2, CommandLine.Run([.. run, "sharp"]).ExitCode);
        Assert.Equal(2, CommandLine.Run(["exercise", "run", "open-home-pair", "--input", wav, "--expect", "5", "--data", _folder]).ExitCode);
    }

    [Fact]
    public void A_file_shorter_than_one_measurement_is_refused_and_nothing_judged()
    {
        string wav = Path.Combine(_folder, "short.wav");
        Assert.Equal(0, CommandLine.Run(["render", "Bb2", "F3", "--seconds", "0.2", "--output", wav]).ExitCode);
        using (FileStream file = File.OpenWrite(wav))
        {
            file.SetLength(5000);
        }

        CommandLineResult result = CommandLine.Run(["exercise", "run", "14", "--input", wav, "--data", _folder]);
        Assert.Equal(3, result.ExitCode);
        Assert.Contains("Record longer", result.Errors, StringComparison.Ordinal);
        Assert.Equal(string.Empty, result.Output);
    }

    [Theory]
    [InlineData(2, "exercise show no-such")]
    [InlineData(2, "exercise run find-the-added-tone --input take.wav")]
    [InlineData(2, "exercise show 14 --played Bb2")]
    [InlineData(2, "exercise show 14 --instrument kazoo")]
    [InlineData(2, "exercise show 14 --a4 442,5")]
    [InlineData(2, "exercise show 14 --lowest G3 --highest A3")]
    [InlineData(3, "exercise run 14 --input no-such.wav")]
    public void What_cannot_be_done_is_one_line_and_an_exit_code_of_its_kind(int exitCode, string line)
    {
        CommandLineResult result = CommandLine.Run(line);
        Assert.Equal(exitCode, result.ExitCode);
        Assert.Empty(result.Output);
        Assert.StartsWith("brassvox: ", result.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", result.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_broken_exercise_of_ones_own_is_named_and_the_others_run()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "exercises"));
        File.WriteAllText(Path.Combine(_folder, "exercises", "own.json"), "{\n  \"formatVersion\": 1,\n  \"idd\": \"own\"\n}\n");
        CommandLineResult result = CommandLine.Run(["exercise", "list", "--data", _folder]);
        Assert.Equal(0, result.ExitCode);
        Assert.Contains("own.json, line 3, at $.idd", result.Errors, StringComparison.Ordinal);
        Assert.Contains("open-home-pair", result.Output, StringComparison.Ordinal);
    }

    /// <summary>The schema file is the program's own; after a change of the format: brassvox exercise schema &gt; presets/schemas/exercise.schema.json.</summary>
    [Fact]
    public void The_shipped_schema_is_the_one_the_program_reads_by()
    {
        string shipped = File.ReadAllText(Path.Combine(Repository.Root, "presets", "schemas", "exercise.schema.json"));
        Assert.Equal(shipped, CommandLine.Run("exercise schema").Output);
    }
}
