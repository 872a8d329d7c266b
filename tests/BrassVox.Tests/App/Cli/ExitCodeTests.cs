using BrassVox.Audio.Wav;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>One kind of error has one exit code, whichever command meets it; the table of README.md says which.</summary>
public sealed class ExitCodeTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-codes-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("takes list --player Nobody")]
    [InlineData("plan --player Nobody")]
    [InlineData("profile show Nobody")]
    [InlineData("profile use Nobody")]
    [InlineData("handout 14 --player Nobody --output OUT.html")]
    [InlineData("tracks 14 --player Nobody --output OUT")]
    [InlineData("class 14 --player Nobody --output OUT")]
    [InlineData("notation 14 --player Nobody --output OUT.mid")]
    public void A_player_there_is_not(string line) => Refused(2, "there is no player \"Nobody\"", line);

    [Theory]
    [InlineData("takes note throat --take none-such")]
    [InlineData("takes delete none-such")]
    [InlineData("takes copy none-such OUT")]
    [InlineData("handout --take none-such --output OUT.html")]
    public void A_take_there_is_not(string line) => Refused(2, "no take", line);

    [Theory]
    [InlineData("exercise show none-such")]
    [InlineData("exercise run none-such")]
    [InlineData("handout none-such --output OUT.html")]
    [InlineData("tracks none-such --output OUT")]
    [InlineData("notation none-such --output OUT.mid")]
    [InlineData("passage show none-such")]
    [InlineData("passage render none-such --output OUT.wav")]
    public void An_exercise_or_passage_there_is_not(string line) => Refused(2, "there is no ", line);

    [Theory]
    [InlineData("exercise run 1 --input take.wav")]
    [InlineData("handout 1 --output OUT.html")]
    [InlineData("tracks 1 --output OUT")]
    public void A_listening_exercise_where_there_has_to_be_a_take(string line) => Refused(2, "is a listening exercise", line);

    [Theory]
    [InlineData("exercise show 14 --lowest G3 --highest A3")]
    [InlineData("notation 14 --lowest G3 --highest A3 --output OUT.mid")]
    public void An_exercise_that_does_not_fit_the_player(string line) => Refused(2, "yours is G3 to A3", line);

    [Theory]
    [InlineData("picture interval Bb1 F2 --output OUT.jpg")]
    [InlineData("picture beats Bb1 F2 --output OUT.jpg")]
    [InlineData("picture take missing.wav --output OUT.jpg")]
    [InlineData("picture spectrum missing.wav --output OUT")]
    [InlineData("handout 14 --output OUT.jpg")]
    [InlineData("notation 14 --output OUT.jpg")]
    [InlineData("takes export OUT.jpg")]
    [InlineData("render Bb1 F2 --seconds 0.2 --output OUT.mp3")]
    [InlineData("render Bb1 F2 --seconds 0.2 --stems -o OUT.flac")]
    [InlineData("render Bb1 F2 --seconds 0.2 --output OUT")]
    [InlineData("section Bb2 F3 --output OUT.mp3")]
    [InlineData("passage render two-breaths-one-pipe --to 1 --output OUT.opus")]
    public void A_name_whose_ending_is_none_of_those_that_are_written(string line) => Refused(2, "OUT", line);

    [Theory]
    [InlineData("render Bb1 F2 --output OUT.mp3", "--output OUT.mp3: a sound is .wav; end its name so.")]
    [InlineData("section Bb2 F3 --output OUT.mp3", "--output OUT.mp3: a sound is .wav; end its name so.")]
    [InlineData("handout 14 --output OUT.jpg", "--output OUT.jpg: a handout is .html; end its name so.")]
    [InlineData("picture interval Bb1 F2 --output OUT.jpg", "--output OUT.jpg: a picture is .png or .svg; end its name so.")]
    public void Of_an_ending_it_is_said_which_it_is_to_be(string line, string said) =>
        Refused(2, $"brassvox: {said.Replace("OUT", Path.Combine(_folder, "OUT"), StringComparison.Ordinal)}\n", line);

    [Fact]
    public void Capital_letters_end_the_name_of_a_sound_as_well() =>
        Assert.Equal(0, Run("render Bb1 F2 --seconds 0.2 --output OUT.WAV").ExitCode);

    [Theory]
    [InlineData("tracks 1 --output OUT/a/b")]
    [InlineData("tracks missing.txt --output OUT", 3)]
    public void Tracks_that_are_refused_leave_no_folder(string line, int code = 2) => Refused(code, "", line);

    [Theory]
    [InlineData("measure missing.wav")]
    [InlineData("picture take missing.wav --output OUT.png")]
    [InlineData("exercise run 14 --input missing.wav")]
    [InlineData("passage show missing.txt")]
    [InlineData("handout missing.txt --output OUT.html")]
    [InlineData("notation missing.txt --output OUT.mid")]
    [InlineData("takes import missing.json")]
    [InlineData("scene check missing.json")]
    public void A_file_there_is_not(string line) => Refused(3, "missing", line);

    [Theory]
    [InlineData("measure")]
    [InlineData("picture take --output OUT.svg")]
    public void A_recording_in_which_nothing_is_told_is_done_and_said(string line)
    {
        CommandLineResult result = Run($"{line} {Silence()}");
        Assert.Equal(0, result.ExitCode);
        Assert.Contains("no pitch", result.Output + result.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_a_picture_that_could_not_be_saved_nothing_is_said_that_it_says()
    {
        string wav = Silence();
        CommandLineResult result = Run($"picture take {wav} --output {wav}/picture.svg");
        Assert.Equal((5, ""), (result.ExitCode, result.Output));
        Assert.DoesNotContain("the picture says so", result.Errors, StringComparison.Ordinal);
        Assert.Contains("picture.svg", result.Errors, StringComparison.Ordinal);
    }

    private string Silence()
    {
        string wav = Path.Combine(_folder, "take.wav");
        Assert.True(WavWriter.TryCreate(wav, new WavWriteOptions(48000, 1), out WavWriter? writer, out _));
        using (writer)
        {
            writer.Write(new float[48000]);
            writer.Finish();
        }

        return wav;
    }

    private void Refused(int code, string said, string line)
    {
        CommandLineResult result = Run(line);
        Assert.Equal((code, ""), (result.ExitCode, result.Output));
        Assert.Contains(said, result.Errors, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder, "OUT*", SearchOption.AllDirectories));
    }

    private CommandLineResult Run(string line) => CommandLine.Run(
        line.Replace("OUT", Path.Combine(_folder, "OUT"), StringComparison.Ordinal).Split(' '), new Dictionary<string, string> { ["BRASSVOX_DATA"] = _folder });
}
