using System.Text.RegularExpressions;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>handout --take as a shell runs it.</summary>
public sealed class HandoutCommandTests : IDisposable
{
    private readonly LogRig _rig = new();

    private string Out => Path.Combine(_rig.Folder, "take.html");

    public void Dispose() => _rig.Dispose();

    [Fact]
    public void A_take_goes_out_without_its_sound_unless_that_is_asked_for()
    {
        TakeRecord kept = new TakeStore(_rig.Folder, TimeProvider.System).Keep(LogRig.Judged(sung: new SimulatedTone { OffsetCents = 22 }), null).Record!;
        CommandLineResult result = Run($"handout --take {kept.Id} --output {Out}");
        Assert.Equal((0, ""), (result.ExitCode, result.Errors));
        Assert.Matches("take.html  1 take, [01]\\.\\d MB\n$", result.Output);
        string html = File.ReadAllText(Out);
        Assert.Contains("+22&nbsp;c", html, StringComparison.Ordinal);
        Assert.Contains("Your takes so far", html, StringComparison.Ordinal);
        Assert.Matches("<p>(On the plan again|First to play on the plan): [^<]+ minutes", html);
        Assert.DoesNotContain("audio/ogg", html, StringComparison.Ordinal);

        // The kept sound ends before the take begins: said, and the rest is there.
        CommandLineResult sound = Run($"handout --take last --with-sound --no-takes --output {Out}");
        Assert.Equal(0, sound.ExitCode);
        Assert.Matches($"^brassvox: {kept.Id}: its sound is not kept here any more, or cannot be read\\.\n$", sound.Errors);
        Assert.DoesNotContain("Your takes so far", File.ReadAllText(Out), StringComparison.Ordinal);
    }

    [Fact]
    public void A_take_of_a_log_alone_or_of_a_deleted_exercise_is_shown_as_far_as_it_is_known()
    {
        TakeRecord record = LogRig.Record("a", LogRig.Monday, new SimulatedTone { OffsetCents = 22 });
        _rig.Log.Enter(record with { ExerciseId = "long-gone", ExerciseName = "Long gone", PlayerName = "Horn-4" });
        CommandLineResult result = Run($"handout --take a --output {Out}");
        Assert.Equal((0, "brassvox: a: Long gone is not there any more; the take is shown without what was asked.\n"), (result.ExitCode, result.Errors));
        string html = File.ReadAllText(Out);
        Assert.Contains("For Horn-4: trombone", html, StringComparison.Ordinal);
        Assert.Contains("only figures were kept", html, StringComparison.Ordinal);
        Assert.Contains("Lips need rest", html, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(LogMigrationTests.OlderVersions), MemberType = typeof(LogMigrationTests))]
    public void Takes_of_an_older_log_go_out_as_they_were(int version)
    {
        _rig.MakeOlder(version);
        CommandLineResult result = Run($"handout --take last --player Euphonium-3 --output {Out}");
        if (result.ExitCode != 0)
        {
            // Its player's profile was never kept: the take names whose it is.
            result = Run($"handout --take 20260907T173000Z-open-home-pair-1 --output {Out}");
        }

        Assert.True(result.ExitCode == 0, result.Errors);
        string html = File.ReadAllText(Out);
        Assert.Contains("For Euphonium-3: tuba", html, StringComparison.Ordinal);
        Assert.Contains("Open home pair, a take of 7 September 2026", html, StringComparison.Ordinal);
        Assert.Contains("simulated: nobody played it", html, StringComparison.Ordinal);
        Assert.Matches("<th scope=\"row\">Sung</th><td>[^<]+</td>", html);
        Assert.Matches("heard [\\d.]+ of [\\d.]+&nbsp;s", html);
        Assert.Contains("<h2 id=\"takes\">Your takes so far</h2>", html, StringComparison.Ordinal);
        if (version >= 3)
        {
            Assert.Equal(0, Run($"handout --take 20260908T173000Z-own-passage-1 --output {Out}").ExitCode);
            Assert.Contains("Two Breaths, One Pipe, a take of 8 September 2026", File.ReadAllText(Out), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_class_gets_the_last_take_of_each_and_of_nobody_else()
    {
        Run("profile set Horn-4 --instrument horn --voice high");
        Run("profile set Tuba-1 --instrument tuba --voice low");
        Run("profile set Teacher-0 --instrument trombone --voice low");
        _rig.Log.Enter(LogRig.Record("older", LogRig.Monday, player: "Horn-4", sung: new SimulatedTone { OffsetCents = 11 }));
        _rig.Log.Enter(LogRig.Record("newer", LogRig.Monday.AddDays(1), player: "Horn-4", sung: new SimulatedTone { OffsetCents = 22 }));
        _rig.Log.Enter(LogRig.Record("hers", LogRig.Monday.AddDays(2), player: "Tuba-1", sung: new SimulatedTone { OffsetCents = -33 }));
        string folder = Path.Combine(_rig.Folder, "class");
        CommandLineResult result = Run($"class 14 --last-take --no-takes --output {folder}");
        Assert.True(result.ExitCode == 0, result.Errors);
        Assert.Matches("Horn-4.html  1 exercise, 1 take, \\d+\\.\\d MB\n", result.Output);
        Assert.Matches("Teacher-0.html  1 exercise, \\d+\\.\\d MB\n", result.Output);
        string horn = File.ReadAllText(Path.Combine(folder, "Horn-4.html"));
        Assert.Contains("a take of 8 September 2026", horn, StringComparison.Ordinal);
        Assert.Contains("<td>+22&nbsp;c</td>", horn, StringComparison.Ordinal);
        Assert.DoesNotContain("<td>+11&nbsp;c</td>", horn, StringComparison.Ordinal);
        Assert.DoesNotContain("<td>-33&nbsp;c</td>", horn, StringComparison.Ordinal);
        Assert.DoesNotContain("so far</h2>", horn, StringComparison.Ordinal);
        Assert.Contains("<td>-33&nbsp;c</td>", File.ReadAllText(Path.Combine(folder, "Tuba-1.html")), StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"t1\"", File.ReadAllText(Path.Combine(folder, "Teacher-0.html")), StringComparison.Ordinal);
        Assert.Equal(3, Directory.GetFileSystemEntries(folder).Length);
    }

    [Fact]
    public void What_cannot_be_done_is_one_clear_line_and_no_file()
    {
        Refused(2, "no take is kept in .* yet", $"handout --take last --output {Out}");
        _rig.Log.Enter(LogRig.Record("a", LogRig.Monday, player: "Horn-4"));
        _rig.Log.Enter(LogRig.Record("b", LogRig.Monday, player: "Tuba-1"));
        Refused(2, "there is no take \"c\"", $"handout --take c --output {Out}");
        Refused(2, "there is no take \"last\"; brassvox takes list", $"handout --take last --output {Out}");
        Refused(2, "takes of Horn-4 and Tuba-1; a handout is one player's", $"handout --take a --take b --output {Out}");
        Run("profile set Trombone-2 --instrument trombone");
        Refused(2, "a is a take of Horn-4, not of Trombone-2", $"handout --take a --player Trombone-2 --output {Out}");
        Refused(2, "nothing is named", $"handout --output {Out}");
        Refused(2, "--with-sound is about takes", $"handout 14 --with-sound --output {Out}");
        Refused(2, "--with-sound is about takes", $"class 14 --with-sound --output {Out}");
        Refused(5, "the folder of .*x\\.html is not there\\. Check that the place exists", $"handout --take a --output {Path.Combine(_rig.Folder, "none", "x.html")}");
    }

    [Fact]
    public void A_misspelt_option_is_no_exercise_and_a_file_no_folder()
    {
        CommandLineResult misspelt = Run($"handout 14 --last-take --output {Out}");
        Assert.Equal(2, misspelt.ExitCode);
        Assert.StartsWith("brassvox: there is no option \"--last-take\" here.", misspelt.Errors, StringComparison.Ordinal);
        Assert.Equal(2, Run($"class 14 --wiht-sound --output {_rig.Folder}").ExitCode);
        Run("profile set Trombone-2 --instrument trombone");
        string file = Path.Combine(_rig.Folder, "a-file");
        File.WriteAllText(file, "kept");
        Refused(5, "a-file is a file; --output names a folder for the handouts", $"class 14 --output {file}");
        Assert.Equal("kept", File.ReadAllText(file));
    }

    private void Refused(int code, string said, string line)
    {
        CommandLineResult result = Run(line);
        Assert.Equal(code, result.ExitCode);
        Assert.Matches(new Regex(said), result.Errors);
        Assert.Single(result.Errors.Trim().Split('\n'));
        Assert.Empty(result.Output);
        Assert.False(File.Exists(Out));
    }

    private CommandLineResult Run(string line) => CommandLine.Run(line.Split(' '), new Dictionary<string, string> { ["BRASSVOX_DATA"] = _rig.Folder });
}
