using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using BrassVox.Audio.Wav;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>
/// WAV files beside sox, a general-purpose sound tool: it reads what we write, and we read what it writes, to a pipe too.
/// </summary>
[Trait("Needs", "Sox")]
public sealed class WavToolTests
{
    private const double PitchHz = 116.54;

    [Theory]
    [InlineData("8", "unsigned-integer", 1, 1, 8000, 1.0 / 64)]
    [InlineData("16", "signed-integer", 2, 2, 44100, 1e-4)]
    [InlineData("24", "signed-integer", 3, 3, 48000, 1e-6)]
    [InlineData("32", "signed-integer", 6, 4, 96000, 1e-6)]
    [InlineData("32", "floating-point", 2, 4, 192000, 1e-6)]
    [InlineData("64", "floating-point", 1, 8, 48000, 1e-6)]
    public void What_sox_writes_is_read(string bits, string kind, int channels, int bytes, int rateHz, double tolerance)
    {
        Need();
        string text = rateHz.ToString(CultureInfo.InvariantCulture);
        string count = channels.ToString(CultureInfo.InvariantCulture);
        string[] sound = ["synth", "0.5", "sine", PitchHz.ToString(CultureInfo.InvariantCulture), "vol", "0.5"];
        using var folder = new TestFolder();
        string path = folder.File("sox.wav");
        Sox(["-D", "-r", text, "-c", count, "-n", "-b", bits, "-e", kind, path, .. sound]);
        File.WriteAllBytes(folder.File("pipe.wav"), Sox(["-D", "-r", text, "-c", count, "-n", "-b", bits, "-e", kind, "-t", "wav", "-", .. sound]));
        float[] expected = Floats(Sox([path, "-t", "raw", "-e", "floating-point", "-b", "32", "-L", "-"]));

        foreach (string file in (string[])[path, folder.File("pipe.wav")])
        {
            WavSound read = Assert.IsType<WavSound>(WavReader.Read(file));
            Assert.Equal((rateHz, channels, bytes), (read.SampleRateHz, read.Channels.Count, read.Layout.BytesPerSample));
            Assert.Equal(rateHz / 2, read.SampleCount);
            for (int i = 0; i < expected.Length; i++)
                Assert.InRange(read.Channels[i % channels][i / channels] - expected[i], -tolerance, tolerance);
            Assert.InRange(read.Channels[0].Max(), 0.48, 0.51);
        }
    }

    [Theory]
    [InlineData(WavEncoding.Pcm16, 1, false, 1.0 / 65000)]
    [InlineData(WavEncoding.Pcm24, 5, false, 1e-7)]
    [InlineData(WavEncoding.Floating32, 2, true, 1e-7)]
    public void What_we_write_sox_reads_without_a_warning(WavEncoding encoding, int channels, bool isTake, double tolerance)
    {
        Need();
        using var folder = new TestFolder();
        string path = folder.File("ours.wav");
        float[] samples = [.. Enumerable.Range(0, 4801 * channels).Select(i => (float)(0.9 * WavBytes.Sine(PitchHz, i / channels)))];
        Assert.True(WavWriter.TryCreate(path, new WavWriteOptions(48000, channels, encoding, IsTake: isTake), out WavWriter? writer, out _));
        using (writer)
        {
            Assert.True(writer.Write(samples));
            writer.Finish();
        }

        float[] read = Floats(Sox([path, "-t", "raw", "-e", "floating-point", "-b", "32", "-L", "-"]));
        Assert.Equal(samples.Length, read.Length);
        for (int i = 0; i < samples.Length; i++)
            Assert.InRange(read[i] - samples[i], -tolerance, tolerance);
    }

    private static void Need() => Assert.SkipUnless(
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, "sox"))),
        "needs the general-purpose sound tool sox");

    private static float[] Floats(byte[] bytes) => MemoryMarshal.Cast<byte, float>(bytes).ToArray();

    private static byte[] Sox(string[] arguments)
    {
        var start = new ProcessStartInfo("sox", arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using Process process = Process.Start(start)!;
        Task<string> complaints = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        using var output = new MemoryStream();
        process.StandardOutput.BaseStream.CopyTo(output);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        // To a pipe sox cannot write the length, and says so; that is the point of using one.
        Assert.All(
            complaints.Result.Split('\n', StringSplitOptions.RemoveEmptyEntries),
            line => Assert.Contains("can't seek", line, StringComparison.Ordinal));
        return output.ToArray();
    }
}
