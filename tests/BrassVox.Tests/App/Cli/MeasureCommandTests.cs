using System.Text.Json;
using BrassVox.Audio;
using BrassVox.Audio.Wav;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

public sealed class MeasureCommandTests : IDisposable
{
    private const int Rate = 8_000;
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-measure-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("take.wav")]
    [InlineData("link.wav")]
    public void The_table_never_takes_the_place_of_the_take(string name)
    {
        string take = Write("take.wav", Fifth(0.5));
        string csv = Path.Combine(_folder, name);
        if (name == "link.wav")
        {
            Assert.SkipWhen(OperatingSystem.IsWindows(), "Links need a right there.");
            File.CreateSymbolicLink(csv, take);
        }

        byte[] before = File.ReadAllBytes(take);
        CommandLineResult run = CommandLine.Run(["measure", take, "--csv", csv]);
        Assert.Equal((5, string.Empty), (run.ExitCode, run.Output));
        Assert.Contains("would write over", run.Errors, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(take));
    }

    /// <summary>Lines m P + n S of a nearly just pair are a series on a lower root, which no one sounds: an undeclared pair is told right or not at all.</summary>
    [Theory]
    [InlineData("Bb2", 116.5409, "G3", 195.9977)]
    [InlineData("Bb2", 116.5409, "F3", 174.6141)]
    [InlineData("Eb2", 77.7817, "G2", 97.9989)]
    public void A_coupled_pair_without_declared_notes_is_told_right_or_not_at_all(string played, double playedHz, string sung, double sungHz)
    {
        string take = Path.Combine(_folder, "coupled.wav");
        Assert.Equal(0, CommandLine.Run(["render", played, sung, "--seconds", "3", "--coupling", "0.6", "--output", take]).ExitCode);
        CommandLineResult run = CommandLine.Run(["measure", take, "--json"]);
        JsonElement report = JsonDocument.Parse(run.Output).RootElement;
        Assert.All([("played", playedHz), ("sung", sungHz)], told =>
        {
            if (report.TryGetProperty(told.Item1, out JsonElement tone) && tone.ValueKind == JsonValueKind.Object)
            {
                Assert.Equal(0, 1200 * Math.Log2(tone.GetProperty("frequencyHz").GetDouble() / told.Item2), 10.0);
            }
        });
    }

    /// <summary>A named tone that glides although nobody said so is told of, with what to say; with no note named it is the roles that are asked for.</summary>
    [Theory]
    [InlineData("", "", false)]
    [InlineData("--sung F3 --played Bb2", "", true)]
    [InlineData("--sung F3 --played Bb2", "--moves sung", false)]
    [InlineData("--sung F3 --played Bb2", "--moves both", false)]
    public void A_tone_that_slides_unsaid_is_told_of(string notes, string moves, bool isTold)
    {
        string take = Path.Combine(_folder, "glide.wav");
        Assert.Equal(0, CommandLine.Run(["render", "Bb2", "F3", "--glide-sung", "G3", "--seconds", "4", "--output", take]).ExitCode);
        string[] words = $"{notes} {moves}".Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(isTold, CommandLine.Run(["measure", take, .. words]).Output.Contains("\nmoves    ", StringComparison.Ordinal));
        JsonElement report = JsonDocument.Parse(CommandLine.Run(["measure", take, "--json", .. words]).Output).RootElement;
        Assert.Equal(isTold, report.GetProperty("leaves").ValueKind == JsonValueKind.Array);
    }

    [Fact]
    public void A_pair_that_is_held_leaves_nothing() =>
        Assert.DoesNotContain("\nmoves    ", CommandLine.Run(["measure", Write("held.wav", Fifth(2)), "--played", "Bb2", "--sung", "F3"]).Output, StringComparison.Ordinal);

    /// <summary>Both tones declared to move: each note names the tone nearer to it.</summary>
    [Fact]
    public void Two_tones_that_may_both_move_are_told_by_what_is_nearer()
    {
        string take = Write("take.wav", Fifth(2));
        JsonElement report = JsonDocument.Parse(CommandLine.Run(["measure", take, "--played", "Bb2", "--sung", "F3", "--moves", "both", "--json"]).Output).RootElement;
        Assert.Equal(116.54, report.GetProperty("played").GetProperty("frequencyHz").GetDouble(), 0.3);
        Assert.Equal(176.64, report.GetProperty("sung").GetProperty("frequencyHz").GetDouble(), 0.3);
    }

    [Fact]
    public void A_recording_that_was_cut_off_is_told_so_and_a_table_goes_to_a_pipe_too()
    {
        float[] whole = Fifth(1);
        float limit = 0.6f * whole.Max(Math.Abs);
        string take = Write("take.wav", [.. whole.Select(sample => Math.Clamp(sample, -limit, limit) * 0.9f / limit)]);
        Assert.Contains("cut off  at its loudest", CommandLine.Run(["measure", take, "--played", "Bb2", "--sung", "F3"]).Output, StringComparison.Ordinal);
        Assert.DoesNotContain("cut off", CommandLine.Run(["measure", Write("whole.wav", whole)]).Output, StringComparison.Ordinal);
        if (File.Exists("/dev/null"))
        {
            CommandLineResult run = CommandLine.Run(["measure", take, "--csv", "/dev/null"]);
            Assert.Equal((0, ""), (run.ExitCode, run.Errors));
            Assert.False(PlainFile.Is("/dev/null"));
        }
    }

    /// <summary>Of a file with another note than the one named, that one is told; of one with the named notes, nothing else.</summary>
    [Theory]
    [InlineData("Bb2", "A3", "sung", "A3")]
    [InlineData("G2", "F3", "played", "G2")]
    [InlineData("Bb2", "F3", null, null)]
    public void Another_note_than_the_one_named_is_told(string played, string sung, string? role, string? note)
    {
        string take = Path.Combine(_folder, "other.wav");
        Assert.Equal(0, CommandLine.Run(["render", played, sung, "--tuning", "just", "--seconds", "3", "--output", take]).ExitCode);
        string[] measure = ["measure", take, "--played", "Bb2", "--sung", "F3", "--tuning", "just"];
        JsonElement report = JsonDocument.Parse(CommandLine.Run([.. measure, "--json"]).Output).RootElement;
        bool isTold = report.TryGetProperty("otherNote", out JsonElement other) && other.ValueKind == JsonValueKind.Object;
        Assert.Equal(role is not null, isTold);
        string text = CommandLine.Run(measure).Output;
        Assert.Equal(isTold, text.Contains($"with the {role} note left open", StringComparison.Ordinal));
        if (isTold)
        {
            Assert.Equal((role, note), (other.GetProperty("role").GetString(), other.GetProperty("note").GetString()));
            Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 80, line));
        }
    }

    /// <summary>Strongly coupled near the just fifth, where every window is drawn to it: the truth is what was rendered.</summary>
    [Theory]
    [InlineData("Bb2", "F3", "20", "0.8")]
    [InlineData("Bb2", "F3", "8", "0.7")]
    [InlineData("Bb1", "F2", "20", "0.8")]
    [InlineData("Bb1", "F2", "-20", "0.8")]
    public void A_coupled_fifth_is_told_where_it_is(string played, string sung, string cents, string coupling)
    {
        string take = Path.Combine(_folder, "fifth.wav");
        Assert.Equal(0, CommandLine.Run(["render", played, sung, "--tuning", "just", "--detune-sung", cents, "--coupling", coupling, "--seconds", "8", "--output", take]).ExitCode);
        JsonElement report = JsonDocument.Parse(CommandLine.Run(["measure", take, "--played", played, "--sung", sung, "--tuning", "just", "--json"]).Output).RootElement;
        Assert.Equal(double.Parse(cents, System.Globalization.CultureInfo.InvariantCulture), report.GetProperty("sung").GetProperty("offsetCents").GetDouble(), 0.5);
        Assert.Equal(0, report.GetProperty("played").GetProperty("offsetCents").GetDouble(), 0.5);
    }

    /// <summary>A tuba's home pair with a high voice, the voice low or high of 6:1: the played tone is true as rendered, and was told up to 14 c off.</summary>
    [Theory]
    [InlineData("F4", "-45", "0.8")]
    [InlineData("F4", "-30", "0.6")]
    [InlineData("F4", "-30", "0.8")]
    [InlineData("F4", "30", "0.8")]
    [InlineData("D4", "-45", "0.8")]
    public void A_played_tone_is_not_blamed_for_the_voice(string sung, string cents, string coupling)
    {
        string take = Path.Combine(_folder, "blamed.wav");
        Assert.Equal(0, CommandLine.Run(["render", "Bb1", sung, "--tuning", "just", "--detune-sung", cents, "--coupling", coupling, "--seconds", "3", "--output", take]).ExitCode);
        JsonElement report = JsonDocument.Parse(CommandLine.Run(["measure", take, "--played", "Bb1", "--sung", sung, "--tuning", "just", "--json"]).Output).RootElement;
        Assert.Equal(0, report.GetProperty("played").GetProperty("offsetCents").GetDouble(), 4.0);
    }

    /// <summary>Where neither named note fits, or what is read under them is a false tone, the two that sound are told; fog of the named notes, and one tone alone, are none.</summary>
    [Theory]
    [InlineData("Bb2", "F3", "G3", "F3", "F3", true)]
    [InlineData("Bb2", "F3", "Bb3", "F3", "F3", true)]
    [InlineData("Bb2", "F3", "D3", "F3", "F3", true)]
    [InlineData("Bb2", "F3", "C3", "G3", "F3", true)]
    [InlineData("Bb2", "F3", "F2", "F3", "F3", true)]
    [InlineData("Bb2", "F3", "Bb1", "F3", "F3", true)]
    [InlineData("Bb1", "F3", "Bb1", "F3", "", false)]
    [InlineData("Bb1", "Bb2", "Bb1", "Bb2", "", false)]
    [InlineData("Bb2", "D3", "Bb2", "D3", "", false)]
    [InlineData("Bb2", null, "Bb2", "F3", "", false)]
    public void Two_other_tones_than_the_two_named_are_told(string playing, string? singing, string played, string sung, string upper, bool isTold)
    {
        string take = Path.Combine(_folder, "pair.wav");
        if (singing is null)
        {
            take = Write("pair.wav", Series(3, 116.5409));
        }
        else
        {
            Assert.Equal(0, CommandLine.Run(["render", playing, singing, "--seconds", "3", "--output", take]).ExitCode);
        }

        string[] measure = ["measure", take, "--played", played, "--sung", sung];
        JsonElement report = JsonDocument.Parse(CommandLine.Run([.. measure, "--json"]).Output).RootElement;
        Assert.Equal(isTold, report.TryGetProperty("otherPair", out JsonElement other) && other.ValueKind == JsonValueKind.Object);
        string text = CommandLine.Run(measure).Output;
        Assert.Equal(isTold, text.Contains("with no note named two tones stood apart", StringComparison.Ordinal));
        if (isTold)
        {
            JsonElement tones = other.GetProperty("tones");
            Assert.Equal((playing, upper), (tones.GetProperty("lowerNote").GetString(), tones.GetProperty("upperNote").GetString()));
            Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 80, line));
        }
    }

    /// <summary>A second of a tone in a long silence is a tone; a tenth of one is a guess at an attack.</summary>
    [Theory]
    [InlineData(1.0, true)]
    [InlineData(0.1, false)]
    public void A_short_tone_in_a_long_file_is_told(double seconds, bool isTold)
    {
        float[] tone = Fifth(seconds);
        string take = Write("long.wav", [.. new float[20 * Rate], .. tone, .. new float[40 * Rate]]);
        JsonElement report = JsonDocument.Parse(CommandLine.Run(["measure", take, "--played", "Bb2", "--sung", "F3", "--json"]).Output).RootElement;
        Assert.Equal(isTold, report.TryGetProperty("sung", out JsonElement sung) && sung.ValueKind == JsonValueKind.Object);
    }

    /// <summary>Noise is loud and holds no tone; a silent file is an input as any other here (README, exit code 3).</summary>
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.0)]
    public void Where_no_tone_is_found_nothing_is_called_silent(double peak)
    {
        var random = new Random(5);
        CommandLineResult run = CommandLine.Run(["measure", Write("noise.wav", [.. Enumerable.Range(0, Rate).Select(_ => (float)(peak * ((2 * random.NextDouble()) - 1)))])]);
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("no tone in 100 %", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("silent", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_take_shorter_than_one_window_is_refused_with_its_length()
    {
        CommandLineResult run = CommandLine.Run(["measure", Write("short.wav", Fifth(0.05))]);
        Assert.Equal((3, string.Empty), (run.ExitCode, run.Output));
        Assert.Contains("lasts 0.05 s", run.Errors, StringComparison.Ordinal);
    }

    // Two steady harmonic series sound the same whichever is sung: both pitches are told, but not which is which.
    [Fact]
    public void Two_tones_of_open_roles_are_not_called_both_pitches_told()
    {
        string take = Write("pair.wav", Fifth(1));
        CommandLineResult free = CommandLine.Run(["measure", take]);
        Assert.Contains("played   no pitch", free.Output, StringComparison.Ordinal);
        Assert.Contains("both pitches in 0 % of the frames", free.Output, StringComparison.Ordinal);
        Assert.Contains("roles    in 100 % two tones stood apart", free.Output, StringComparison.Ordinal);
        Assert.Matches(@"116\.5\d Hz \(Bb2 [+-]?0\.\d c\) and 176\.\d\d Hz \(F3 \+(19\.[5-9]|20\.[0-5]) c\)", free.Output);

        CommandLineResult declared = CommandLine.Run(["measure", take, "--played", "Bb2"]);
        Assert.Contains("both pitches in 100 % of the frames", declared.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("roles", declared.Output, StringComparison.Ordinal);
    }

    // Truth is what the sound was made of: offset, onset, balance, beats, interval; every key carries its unit or is a count or a name.
    [Fact]
    public void Json_holds_both_tones_and_the_pair()
    {
        float[] fifth = Fifth(2.5);
        Array.Clear(fifth, 0, Rate / 2);
        CommandLineResult run = CommandLine.Run(["measure", Write("pair.wav", fifth), "--played", "Bb2", "--sung", "F3", "--json"]);
        using JsonDocument json = JsonDocument.Parse(run.Output);
        JsonElement sung = json.RootElement.GetProperty("sung");
        Assert.Equal(20.0, sung.GetProperty("offsetCents").GetDouble(), 0.5);
        Assert.Equal(0.5, sung.GetProperty("onsetSeconds").GetDouble(), 0.02);
        Assert.Equal(0.0, sung.GetProperty("driftCents").GetDouble(), 0.2);
        Assert.Equal(JsonValueKind.Null, sung.GetProperty("vibratoRateHz").ValueKind);
        JsonElement pair = json.RootElement.GetProperty("pair");
        Assert.Equal(720.0, pair.GetProperty("intervalCents").GetDouble(), 0.5);
        Assert.Equal(0.0, pair.GetProperty("balanceDb").GetDouble(), 0.5);
        JsonElement beat = pair.GetProperty("beats").EnumerateArray().First(x => x.GetProperty("playedHarmonic").GetInt32() == 3);
        double sungHz = 174.6141 * Math.Pow(2, 20.0 / 1200);
        Assert.Equal((2.0 * sungHz) - (3.0 * 116.5409), beat.GetProperty("beatsPerSecond").GetDouble(), 0.1);
        Assert.Empty(pair.GetProperty("resultants").EnumerateArray());
        Assert.Equal(JsonValueKind.Null, pair.GetProperty("couplingDb").ValueKind);
        Assert.Equal(JsonValueKind.Null, pair.GetProperty("capture").ValueKind);
    }

    [Fact]
    public void Text_says_the_same_within_80_columns()
    {
        CommandLineResult run = CommandLine.Run(["measure", Write("pair.wav", Fifth(2.5)), "--played", "Bb2", "--sung", "F3"]);
        string[] lines = run.Output.Split('\n');
        Assert.All(lines.Skip(1), line => Assert.InRange(line.Length, 0, 80));
        Assert.Contains(lines, line => line.StartsWith("sung ", StringComparison.Ordinal) && line.EndsWith("+20.0 c from the note asked", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("pair     fifth 720.0 c", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("beats    3.66 a second: 3 of P with 2 of S at 351 Hz", StringComparison.Ordinal));
        Assert.Contains("coupled  no line of sum or difference to be told", lines);
    }

    // A float WAV that holds no numbers gives no pitch and no fault.
    [Fact]
    public void A_file_of_no_numbers_has_no_pitch()
    {
        string file = Write("nan.wav", Fifth(1));
        byte[] bytes = File.ReadAllBytes(file);
        int data = bytes.AsSpan().IndexOf("data"u8) + 8;
        for (int i = data; i + 4 <= bytes.Length; i += 4)
        {
            BitConverter.TryWriteBytes(bytes.AsSpan(i), float.NaN);
        }

        File.WriteAllBytes(file, bytes);
        CommandLineResult run = CommandLine.Run(["measure", file]);
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("played   no pitch", run.Output, StringComparison.Ordinal);
        Assert.Contains("sung     no pitch", run.Output, StringComparison.Ordinal);
        Assert.Contains("no number or infinite", run.Errors, StringComparison.Ordinal);
    }

    // Bb2 and F3 + 20 c, ten harmonics each at 1/n.
    private static float[] Fifth(double seconds) => Series(seconds, 116.5409, 174.6141 * Math.Pow(2, 20.0 / 1200));

    private static float[] Series(double seconds, params double[] tones)
    {
        float[] sound = new float[(int)(seconds * Rate)];
        for (int i = 0; i < sound.Length; i++)
        {
            sound[i] = (float)tones.Sum(hz => Enumerable.Range(1, 10).Sum(n => 0.05 / n * Math.Sin((2 * Math.PI * n * hz * i / Rate) + (n * n))));
        }

        return sound;
    }

    private string Write(string name, float[] samples)
    {
        string path = Path.Combine(_folder, name);
        Assert.True(WavWriter.TryCreate(path, new WavWriteOptions(Rate, 1, WavEncoding.Floating32), out WavWriter? writer, out _));
        using (writer)
        {
            writer.Write(samples);
            writer.Finish();
        }

        return path;
    }
}
