using System.Xml.Linq;
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
        IReadOnlyList<BrassVox.Analysis.AnalysisFrame> frames = BrassVox.Analysis.TakeMeasurement.Frames(new float[48000], 48000, BrassVox.Analysis.DuetPrior.Free);
        Func<double, double?>? leaping = asked ? seconds => seconds < 0.5 ? Bb1Hz : F2Hz : null;
        Assert.Null(TakeChart.Of("silence", frames, leaping, null, 15, 440).Save(path).Failure);
        string[] words = [.. XDocument.Load(path).Descendants().Where(node => node.Name.LocalName == "text").Select(node => node.Value.Trim())];
        Assert.Contains("no pitch is told", words);
        Assert.Contains("no beats are told", words);
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
