using System.Buffers.Binary;
using System.Diagnostics;
using System.Text;
using BrassVox.Audio.Wav;
using Xunit;

namespace BrassVox.Tests.Audio;

public sealed class WavWriterTests
{
    [Fact]
    public void S08_too_loud_is_held_never_wrapped()
    {
        using var folder = new TestFolder();
        float[] samples = [0, 0.5f, 1, 1.1f, -1, -1.1f, float.NaN, float.PositiveInfinity];
        WavWritten written = WriteFile(folder.File("loud.wav"), new WavWriteOptions(48000, 1, WavEncoding.Pcm16), samples);
        byte[] data = File.ReadAllBytes(written.Path)[44..];
        short[] values = [.. Enumerable.Range(0, 8).Select(i => BinaryPrimitives.ReadInt16LittleEndian(data.AsSpan(2 * i)))];
        Assert.Equal([0, 16384, 32767, 32767, -32768, -32768, 0, 32767], values);
        Assert.Equal((3, 1), (written.ClippedSamples, written.NonFiniteSamples));
        Assert.Equal(["3 samples clipped, lower the level", "1 sample was no number, written as 0"], written.Notes);
    }

    [Fact]
    public void S08_two_loud_voices_keep_their_sign_and_are_counted()
    {
        using var folder = new TestFolder();
        float[] sum = [.. Enumerable.Range(0, 48000).Select(i => (float)(0.8 * WavBytes.Sine(220, i) + 0.8 * WavBytes.Sine(330, i)))];
        WavWritten written = WriteFile(folder.File("two.wav"), new WavWriteOptions(48000, 1, WavEncoding.Pcm16), sum);
        WavSound back = Assert.IsType<WavSound>(WavReader.Read(written.Path));
        Assert.All(sum.Zip(back.Channels[0]), pair => Assert.True(pair.First * pair.Second >= 0));
        Assert.Equal(sum.Count(s => Math.Abs(s) > 1), written.ClippedSamples);
    }

    [Fact]
    public void What_is_no_plain_file_keeps_its_place()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Devices and pipes have no place among files there.");
        using var folder = new TestFolder();
        string pipe = folder.File("pipe.wav");
        using (Process made = Process.Start("mkfifo", [pipe]))
            made.WaitForExit();
        Assert.False(WavWriter.TryCreate(pipe, new WavWriteOptions(48000, 1), out _, out WavWriteFailure? failure));
        Assert.Equal(WavWriteFailureKind.NotAllowed, failure.Kind);
        Assert.Contains("no plain file", failure.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(pipe + WavWriter.PartSuffix));
        using var there = new FileStream(pipe, FileMode.Open, FileAccess.ReadWrite);
        Assert.False(there.CanSeek);
    }

    // Sizes worked out by hand: header, samples, pad byte.
    [Fact]
    public void Sizes_are_those_worked_out_by_hand()
    {
        using var folder = new TestFolder();
        byte[] second = File.ReadAllBytes(
            WriteFile(folder.File("a.wav"), new WavWriteOptions(48000, 1, WavEncoding.Pcm16), new float[48000]).Path);
        Assert.Equal(96044, second.Length);
        Assert.Equal(96036u, BinaryPrimitives.ReadUInt32LittleEndian(second.AsSpan(4)));
        Assert.Equal(96000u, BinaryPrimitives.ReadUInt32LittleEndian(second.AsSpan(40)));
        byte[] odd = File.ReadAllBytes(WriteFile(folder.File("b.wav"), new WavWriteOptions(48000, 1), new float[1]).Path);
        Assert.Equal(48, odd.Length);
        Assert.Equal(40u, BinaryPrimitives.ReadUInt32LittleEndian(odd.AsSpan(4)));
        Assert.Equal(3u, BinaryPrimitives.ReadUInt32LittleEndian(odd.AsSpan(40)));
    }

    [Theory]
    [InlineData(WavEncoding.Pcm16, 1, 1.0 / 65536)]
    [InlineData(WavEncoding.Pcm24, 2, 1.0 / (1 << 24))]
    [InlineData(WavEncoding.Floating32, 5, 0)]
    public void What_is_written_reads_back(WavEncoding encoding, int channels, double half)
    {
        using var folder = new TestFolder();
        var random = new Random(5);
        float[] samples = [.. Enumerable.Range(0, 100_000 * channels / channels * channels).Select(_ => random.NextSingle() * 1.98f - 0.99f)];
        samples = samples[..(samples.Length / channels * channels)];
        WavWritten written = WriteFile(folder.File("take 1.wav"), new WavWriteOptions(44100, channels, encoding), samples);
        WavSound sound = Assert.IsType<WavSound>(WavReader.Read(written.Path));
        Assert.Empty(sound.Notes);
        Assert.Equal((samples.Length / channels, 44100), (sound.SampleCount, sound.SampleRateHz));
        Assert.Equal(sound.SampleCount, written.SampleCount);
        for (int i = 0; i < samples.Length; i++)
            Assert.InRange(sound.Channels[i % channels][i / channels] - samples[i], -half * 1.001, half * 1.001);
    }

    [Fact]
    public void A_float_file_states_its_length_in_a_fact_block()
    {
        using var folder = new TestFolder();
        byte[] file = File.ReadAllBytes(
            WriteFile(folder.File("f.wav"), new WavWriteOptions(48000, 2, WavEncoding.Floating32), new float[1000]).Path);
        int fact = Encoding.ASCII.GetString(file).IndexOf("fact", StringComparison.Ordinal);
        Assert.Equal(500u, BinaryPrimitives.ReadUInt32LittleEndian(file.AsSpan(fact + 8)));
    }

    [Fact]
    public void A_take_survives_a_crash_up_to_the_last_second()
    {
        using var folder = new TestFolder();
        Assert.True(WavWriter.TryCreate(folder.File("take.wav"), WavWriteOptions.ForTake(48000, 1), out WavWriter? writer, out _));
        using (writer)
        {
            for (int block = 0; block < 500; block++)
                Assert.True(writer.Write(new float[256]));
            // The program dies here: this is what is on the disk.
            File.Copy(writer.PartPath, folder.File("left behind.wav"));
        }

        WavSound left = Assert.IsType<WavSound>(WavReader.Read(folder.File("left behind.wav")));
        Assert.InRange(left.SampleCount, 500 * 256 - 48000, 500 * 256);
        Assert.Empty(left.Notes);
        Assert.False(File.Exists(folder.File("take.wav")));
    }

    [Fact]
    public void An_unfinished_take_is_finished_later_but_not_while_it_is_being_written()
    {
        using var folder = new TestFolder();
        Assert.True(WavWriter.TryCreate(folder.File("take.wav"), WavWriteOptions.ForTake(48000, 1), out WavWriter? writer, out _));
        float[] sound = [.. Enumerable.Range(0, 100_000).Select(i => (float)WavBytes.Sine(116.54, i))];
        Assert.True(writer.Write(sound));
        Assert.Empty(UnfinishedTakes.Finish(folder.Path));
        // A crash: the header still states an older length, and half a sample was on its way.
        byte[] torn = [.. File.ReadAllBytes(writer.PartPath), 1, 2];
        writer.Finish();
        File.Move(folder.File("take.wav"), folder.File("other.wav"));
        File.WriteAllBytes(folder.File("take.wav.part"), torn);
        File.WriteAllBytes(folder.File("take.wav"), []);
        File.WriteAllText(folder.File("foreign.wav.part"), "not ours");

        WavWritten finished = Assert.Single(UnfinishedTakes.Finish(folder.Path));
        Assert.Equal(folder.File("take (2).wav"), finished.Path);
        WavSound back = Assert.IsType<WavSound>(WavReader.Read(finished.Path));
        Assert.Empty(back.Notes);
        Assert.Equal(finished.SampleCount, back.SampleCount);
        Assert.InRange(back.SampleCount, 52_000, 100_000);
        Assert.Equal(sound[..back.SampleCount], back.Channels[0]);
        Assert.Equal(
            ["foreign.wav.part", "other.wav", "take (2).wav", "take.wav"],
            Directory.GetFiles(folder.Path).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_header_beyond_4_GB_is_RF64()
    {
        var header = new WavHeaderWriter(WavWriteOptions.ForTake(48000, 2), 4);
        byte[] large = header.Lay(6_000_000_000);
        Assert.Equal(header.Lay(8).Length, large.Length);
        // EBU Tech 3306: RF64, size field all ones; ds64 with RIFF size, data size and sample count of 64 bits each.
        Assert.Equal("RF64", Encoding.ASCII.GetString(large, 0, 4));
        Assert.Equal(uint.MaxValue, BinaryPrimitives.ReadUInt32LittleEndian(large.AsSpan(4)));
        Assert.Equal("ds64", Encoding.ASCII.GetString(large, 12, 4));
        Assert.Equal(large.Length - 8 + 6_000_000_000, BinaryPrimitives.ReadInt64LittleEndian(large.AsSpan(20)));
        Assert.Equal(6_000_000_000, BinaryPrimitives.ReadInt64LittleEndian(large.AsSpan(28)));
        Assert.Equal(750_000_000, BinaryPrimitives.ReadInt64LittleEndian(large.AsSpan(36)));
        Assert.Equal(uint.MaxValue, BinaryPrimitives.ReadUInt32LittleEndian(large.AsSpan(large.Length - 4)));
        Assert.True(WavBlockReader.TryOpen(new MemoryStream([.. large, .. new byte[80]]), "large.wav", out WavBlockReader? reader, out _));
        using (reader)
            Assert.Equal(10, reader.SamplesLeft);
    }

    [Fact]
    public void A_take_can_be_read_by_its_owner_only_and_nothing_is_overwritten()
    {
        using var folder = new TestFolder();
        string path = WriteFile(folder.File("take.wav"), WavWriteOptions.ForTake(48000, 1), new float[10]).Path;
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        Assert.False(WavWriter.TryCreate(path, WavWriteOptions.ForTake(48000, 1), out _, out WavWriteFailure? failure));
        Assert.Equal(WavWriteFailureKind.AlreadyThere, failure.Kind);
    }

    [Fact]
    public void What_is_not_finished_leaves_no_wav_behind()
    {
        using var folder = new TestFolder();
        Assert.True(WavWriter.TryCreate(folder.File("pair.wav"), new WavWriteOptions(48000, 1), out WavWriter? writer, out _));
        writer.Write(new float[1000]);
        writer.Dispose();
        Assert.Empty(Directory.GetFiles(folder.Path));
    }

    [Fact]
    public void A_missing_folder_is_said_to_be_missing()
    {
        using var folder = new TestFolder();
        Assert.False(WavWriter.TryCreate(folder.File("no/where.wav"), new WavWriteOptions(48000, 1), out _, out WavWriteFailure? failure));
        Assert.Equal(WavWriteFailureKind.NoFolder, failure.Kind);
    }

    [Fact]
    public void A_full_disk_is_said_to_be_full()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "needs /dev/full, a Linux device that is always full");
        using var folder = new TestFolder();
        File.CreateSymbolicLink(folder.File("take.wav" + WavWriter.PartSuffix), "/dev/full");
        Assert.False(WavWriter.TryCreate(folder.File("take.wav"), new WavWriteOptions(48000, 1), out _, out WavWriteFailure? failure));
        Assert.Equal(WavWriteFailureKind.DiskFull, failure.Kind);
        Assert.Equal($"the disk is full; {folder.File("take.wav")} could not be begun. Free some space.", failure.Message);
        Assert.Empty(Directory.GetFiles(folder.Path));
    }

    private static WavWritten WriteFile(string path, WavWriteOptions options, float[] samples)
    {
        Assert.True(WavWriter.TryCreate(path, options, out WavWriter? writer, out _));
        using (writer)
        {
            Assert.True(writer.Write(samples));
            WavWritten written = writer.Finish();
            Assert.Null(written.Failure);
            Assert.Equal(path, written.Path);
            return written;
        }
    }
}
