using BrassVox.Analysis;
using BrassVox.Tests.Support;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>Notes that cannot be measured are refused wherever one is declared to the measurement, and no others.</summary>
public sealed class MeasuredNoteTests
{
    [Fact]
    public void They_reach_from_the_lowest_P_looked_for_to_the_highest_S()
    {
        Assert.Equal(DuetPrior.Free.PlayedLowestHz, EqualTemperament.FrequencyHz(MeasuredNotes.Lowest.MidiNumber, 440), 0.01);
        Assert.Equal(0, Cents.Between(EqualTemperament.FrequencyHz(MeasuredNotes.Highest.MidiNumber, 440), DuetPrior.Free.SungHighestHz), 50.0);
    }

    [Theory]
    [InlineData("measure take.wav --sung C#6", "--sung takes a note from A0 to C6, not \"C#6\"")]
    [InlineData("measure take.wav --played Ab0", "--played takes a note from A0 to C6, not \"Ab0\"")]
    [InlineData("measure take.wav --played X", "\"X\" is not a note")]
    [InlineData("picture take take.wav --sung F9 --output OUT.png", "--sung takes a note from A0 to C6")]
    [InlineData("exercise show 14 --played C-1 --sung F2", "--played takes a note from A0 to C6")]
    [InlineData("exercise show 14 --lowest E2 --highest D6", "--highest takes a note from A0 to C6")]
    [InlineData("profile set --a4-from note.wav --note C#6", "--note takes a note from A0 to C6")]
    public void A_note_outside_is_refused_with_one_line(string line, string says)
    {
        CommandLineResult run = CommandLine.Run(line);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains(says, run.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("is not a note\": only", run.Errors, StringComparison.Ordinal);
        Assert.Equal(string.Empty, run.Output);
    }

    [Fact]
    public void The_outermost_notes_and_notes_that_are_only_drawn_are_taken()
    {
        Assert.Equal(0, CommandLine.Run("exercise show 14 --lowest A0 --highest C6").ExitCode);

        // The file is what these miss.
        Assert.Equal(3, CommandLine.Run("measure no-such.wav --played A0 --sung C6").ExitCode);
        Assert.Equal(3, CommandLine.Run("picture spectrum no-such.wav --played A0 --sung F9 --output OUT.png").ExitCode);
    }

    [Fact]
    public void A_passage_with_such_a_note_is_not_judged_and_says_where_it_stands()
    {
        string file = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".txt");
        try
        {
            File.WriteAllText(file, CommandLine.Run("passage text two-breaths-one-pipe").Output.Replace("F3", "F7", StringComparison.Ordinal));
            CommandLineResult run = CommandLine.Run($"passage run {file} --input no-such.wav");
            Assert.Equal(3, run.ExitCode);
            Assert.Matches("F7 at \\d+\\.\\d.* cannot be judged: tones are measured from A0 to C6", run.Errors);
        }
        finally
        {
            File.Delete(file);
        }
    }
}
