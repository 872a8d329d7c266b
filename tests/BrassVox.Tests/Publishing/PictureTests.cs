using System.Xml.Linq;
using BrassVox.Analysis;
using BrassVox.Publishing.Pictures;
using Xunit;

namespace BrassVox.Tests.Publishing;

/// <summary>Pictures as files; how they look is seen by looking.</summary>
public sealed class PictureTests : IDisposable
{
    private const double Bb1Hz = 58.2705;
    private const double F2Hz = 87.3071;

    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-picture-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_png_has_the_size_asked()
    {
        SkipWithoutFont();
        string path = Path.Combine(_folder, "pair.png");
        Assert.Null(ResultantChart.Of(Bb1Hz, F2Hz, 3, 440).Save(path, 640, 480).Failure);
        byte[] bytes = File.ReadAllBytes(path);

        // PNG, W3C Recommendation, section 5.2 (signature) and 11.2.1 (IHDR: width and height big-endian at bytes 16 and 20).
        Assert.Equal(new byte[] { 137, 80, 78, 71, 13, 10, 26, 10 }, bytes[..8]);
        Assert.Equal((640, 480), (Big(bytes, 16), Big(bytes, 20)));
    }

    [Fact]
    public void An_svg_holds_the_names_of_all_lines_as_text()
    {
        SkipWithoutFont();
        string path = Path.Combine(_folder, "pair.svg");
        Assert.Null(ResultantChart.Of(Bb1Hz, F2Hz, 3, 440).Save(path).Failure);
        XDocument svg = XDocument.Load(path);
        string words = string.Join('\n', svg.Descendants().Where(node => node.Name.LocalName == "text").Select(node => node.Value));
        foreach (string name in new[] { "P+S", "S-P", "2S-P", "2P-S", "2P+S", "P+2S", "58.27 Hz", "87.31 Hz" })
        {
            Assert.Contains(name, words, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_take_in_which_nothing_is_told_says_so_in_its_panels(bool asked)
    {
        SkipWithoutFont();
        string path = Path.Combine(_folder, "silence.svg");
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(new float[48000], 48000, DuetPrior.Free);
        Func<double, double?>? leaping = asked ? seconds => seconds < 0.5 ? Bb1Hz : F2Hz : null;
        Assert.Null(TakeChart.Of("silence", frames, leaping, null, 15, 440).Save(path).Failure);
        string[] words = [.. XDocument.Load(path).Descendants().Where(node => node.Name.LocalName == "text").Select(node => node.Value.Trim())];
        Assert.Equal(2, words.Count(word => word == "no pitch is told"));
        Assert.Single(words, "no beats are told");

        // The panels meet between two pixels: what lies below them has to be paper as well.
        Assert.Equal("white", XDocument.Load(path).Descendants().First(node => node.Name.LocalName == "rect").Attribute("fill")?.Value);
    }

    /// <summary>What an empty panel says is what more than half of the frames that sound say, not what one of them does.</summary>
    [Theory]
    [InlineData(1, 0, "no pitch is told", false)]
    [InlineData(0, 1, "no pitch is told", false)]
    [InlineData(30, 5, "the two tones cannot be told apart", false)]
    [InlineData(5, 30, "two tones stand apart, but which is played is open", true)]
    public void An_empty_panel_says_what_most_frames_say(int fog, int open, string said, bool areOpen)
    {
        SkipWithoutFont();
        AnalysisFrame Frame(int i, Separability separability, bool isOpen = false) => new(480 * i, 7680, 48000, separability == Separability.Silent ? -200 : -20, null, null, null, separability)
        {
            RolesOpen = isOpen ? (new PitchEstimate(116, -20, 1), new PitchEstimate(174, -20, 1)) : null,
        };
        int sounding = 50;
        AnalysisFrame[] frames =
        [
            .. Enumerable.Range(0, sounding).Select(i => i < fog ? Frame(i, Separability.NotSeparable) : i < fog + open ? Frame(i, Separability.Separable, true) : Frame(i, Separability.OneTone)),
            .. Enumerable.Range(sounding, 100).Select(i => Frame(i, Separability.Silent)),
        ];
        Assert.Equal(areOpen, TakeChart.AreRolesOpen(frames));
        string path = Path.Combine(_folder, "most.svg");
        Assert.Null(TakeChart.Of("most", frames, null, null, 15, 440).Save(path).Failure);
        string[] words = [.. XDocument.Load(path).Descendants().Where(node => node.Name.LocalName == "text").Select(node => node.Value.Trim())];
        Assert.Contains("no pitch is told", words.Select(word => word.TrimEnd(':')));
        string[] why = [.. words.Where(word => word is "the two tones cannot be told apart" or "two tones stand apart, but which is played is open").Distinct()];
        Assert.Equal(said == "no pitch is told" ? [] : [said], why);
    }

    [Fact]
    public void A_place_that_cannot_be_written_is_one_line_and_leaves_nothing()
    {
        SkipWithoutFont();
        Picture picture = ResultantChart.Of(Bb1Hz, F2Hz, 2, 440);
        Assert.Contains("end its name so", picture.Save(Path.Combine(_folder, "pair.gif")).Failure, StringComparison.Ordinal);
        Assert.Contains("cannot be written", picture.Save(Path.Combine(_folder, "none", "pair.png")).Failure, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder));
    }

    [Fact]
    public void A_spectrogram_reads_a_sine_where_and_as_strong_as_it_is()
    {
        const int Rate = 8000;
        const double Hz = 440.0;
        float[] sine = [.. Enumerable.Range(0, Rate).Select(i => (float)(0.5 * Math.Sin(2 * Math.PI * Hz * i / Rate)))];
        var levels = BrassVox.Analysis.Transforms.Spectrogram.Of(sine, Rate, 0.17, 0.05, 1000);
        for (int column = 0; column < levels.Columns; column++)
        {
            int loudest = Enumerable.Range(0, levels.Bins).MaxBy(bin => levels.LevelDb(column, bin));
            Assert.Equal(Hz, loudest * levels.BinHz, levels.BinHz);
            Assert.Equal(20 * Math.Log10(0.5), levels.LevelDb(column, loudest), 0.4);
        }
    }

    private static void SkipWithoutFont() => Assert.SkipWhen(Paper.Font is null, "needs a font: DejaVu Sans, for instance");

    private static int Big(byte[] bytes, int at) => (bytes[at] << 24) | (bytes[at + 1] << 16) | (bytes[at + 2] << 8) | bytes[at + 3];
}
