using System.Text;
using BrassVox.Audio.Wav;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>Files seen in the wild, and the traps of the format.</summary>
public sealed class WavReaderTests
{
    private static readonly byte[] Mono16 = WavBytes.Block("fmt ", WavBytes.Format(1, 1, 48000, 16));
    private static readonly byte[] HalfScale = WavBytes.Sines(48000, 2, 16384, 48000, 233.08);

    [Theory]
    [InlineData(0xFFFFFFFF, 0xFFFFFFFF)]
    [InlineData(0L, 0L)]
    [InlineData(36 + 96000L, 0L)]
    [InlineData(0x7FFFFFFF, 0x7FFFF000)]
    public void S05_a_length_that_was_not_filled_in_means_to_the_end(long riffBytes, long dataBytes)
    {
        byte[] file = WavBytes.File(Mono16, WavBytes.Block("data", HalfScale, dataBytes));
        WavBytes.UInt(riffBytes).CopyTo(file, 4);

        foreach (Stream stream in (Stream[])[new MemoryStream(file), new OneWayStream(file)])
        {
            WavSound sound = Assert.IsType<WavSound>(WavReader.Read(stream, "pipe.wav"));
            Assert.Equal(48000, sound.SampleCount);
            Assert.InRange(PitchErrorCents(sound.Channels[0], 48000, 233.08), -0.5, 0.5);
            Assert.Equal("the length field was not filled in; read to the end of the file", Assert.Single(sound.Notes));
        }
    }

    [Fact]
    public void S05_a_length_beyond_the_end_is_noted_and_what_is_there_is_read()
    {
        WavSound sound = ReadSound(Mono16, WavBytes.Block("data", HalfScale[..48000], 96000));
        Assert.Equal(0.5, sound.Seconds, 12);
        Assert.Equal("the file is shorter than stated: 48000 of 96000 bytes of sound are there", Assert.Single(sound.Notes));
    }

    [Fact]
    public void S05_memory_follows_the_bytes_present()
    {
        byte[] file = WavBytes.File(Mono16, WavBytes.Block("data", HalfScale[..2000], 0xFFFFFFF0));
        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.IsType<WavSound>(WavReader.Read(new OneWayStream(file), "pipe.wav"));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1_000_000);
    }

    [Fact]
    public void S06_a_broken_last_sample_is_ignored_and_left_stays_left()
    {
        byte[] sound16 = [.. WavBytes.Sines(48000, 2, 16384, 48000, 116.54, 174.81), 1, 2, 3];
        WavSound sound = ReadSound(
            WavBytes.Block("fmt ", WavBytes.Format(1, 2, 48000, 16)), WavBytes.Block("data", sound16));
        Assert.Equal(48000, sound.SampleCount);
        Assert.InRange(PitchErrorCents(sound.Channels[0], 48000, 116.54), -0.5, 0.5);
        Assert.InRange(PitchErrorCents(sound.Channels[1], 48000, 174.81), -0.5, 0.5);
        Assert.Equal("3 trailing bytes ignored", Assert.Single(sound.Notes));
    }

    [Fact]
    public void S06_so_it_is_with_24_bits()
    {
        byte[] sound24 = [.. WavBytes.Sines(48000, 3, 1 << 22, 48000, 233.08), 1, 2];
        WavSound sound = ReadSound(
            WavBytes.Block("fmt ", WavBytes.Format(1, 1, 48000, 24)), WavBytes.Block("data", sound24));
        Assert.Equal(48000, sound.SampleCount);
        Assert.InRange(PitchErrorCents(sound.Channels[0], 48000, 233.08), -0.5, 0.5);
        Assert.Equal("2 trailing bytes ignored", Assert.Single(sound.Notes));
    }

    [Fact]
    public void S06_every_cut_through_the_header_is_one_kind_of_failure()
    {
        byte[] file = WavBytes.File(Mono16, WavBytes.Block("data", HalfScale[..2]));
        for (int length = 4; length < file.Length - 1; length++)
        {
            WavFailure failure = ReadFailure(file[..length]);
            Assert.Equal(WavFailureKind.CutOff, failure.Kind);
        }

        Assert.Contains("no sound data", ReadFailure(file[..12]).Message, StringComparison.Ordinal);
        Assert.Contains("format block cut off", ReadFailure(file[..30]).Message, StringComparison.Ordinal);
        Assert.Equal(WavFailureKind.CutOff, ReadFailure([]).Kind);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    public void S07_24_bits_in_32(int spareBytes)
    {
        // 24 bits in the upper three bytes: the peak, half scale, is 00 00 00 40.
        byte[] data = WavBytes.Sines(48000, 4, 0x400000 << 8, 48000, 233.08);
        for (int i = 0; i < data.Length; i += 4)
            data[i] = 0;
        WavSound sound = ReadSound(
            WavBytes.Block("fmt ", WavBytes.Extensible(1, 48000, 32, 24, 1, spareBytes)), WavBytes.Block("data", data));
        AssertHalfScale(sound);
        Assert.Equal((24, 4), (sound.Layout.BitsPerSample, sound.Layout.BytesPerSample));
        Assert.Empty(sound.Notes);
    }

    [Fact]
    public void S07_8_bits_are_unsigned()
    {
        byte[] data = [.. WavBytes.Sines(48000, 1, 64, 48000, 233.08).Select(b => (byte)(b + 128))];
        AssertHalfScale(ReadSound(WavBytes.Block("fmt ", WavBytes.Format(1, 1, 48000, 8)), WavBytes.Block("data", data)));
    }

    [Fact]
    public void S07_an_unknown_kind_of_sound_is_named()
    {
        byte[] format = WavBytes.Extensible(1, 48000, 16, 16, 1);
        format[39] = 0x72;
        WavFailure failure = ReadFailure(WavBytes.File(WavBytes.Block("fmt ", format), WavBytes.Block("data", HalfScale)));
        Assert.Equal(WavFailureKind.Unsupported, failure.Kind);
        Assert.Contains("00000001-0000-0010-8000-00AA00389B72", failure.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2, "ADPCM")]
    [InlineData(7, "mu-law")]
    [InlineData(85, "MP3")]
    public void A_kind_of_sound_that_is_not_read_is_named(int tag, string name)
    {
        WavFailure failure = ReadFailure(
            WavBytes.File(WavBytes.Block("fmt ", WavBytes.Format(tag, 1, 48000, 16)), WavBytes.Block("data", HalfScale)));
        Assert.Equal(WavFailureKind.Unsupported, failure.Kind);
        Assert.Contains(name, failure.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, 1, 1)]
    [InlineData(1, 2, 2)]
    [InlineData(1, 3, 32)]
    [InlineData(1, 4, 5)]
    [InlineData(1, 8, 1)]
    [InlineData(3, 4, 2)]
    [InlineData(3, 8, 1)]
    public void Every_size_of_sample_gives_the_same_values(int tag, int bytes, int channels)
    {
        double[] values = [0, 0.5, -0.5, -1, 0.25, -0.75];
        byte[] data = [.. values.SelectMany(v => Enumerable.Repeat(Encode(tag, bytes, v), channels)).SelectMany(b => b)];
        foreach (byte[] format in (byte[][])[WavBytes.Format(tag, channels, 384000, bytes * 8), WavBytes.Extensible(channels, 384000, bytes * 8, bytes * 8, tag)])
        {
            WavSound sound = ReadSound(WavBytes.Block("fmt ", format), WavBytes.Block("data", data));
            Assert.Equal(channels, sound.Channels.Count);
            Assert.All(sound.Channels, channel => Assert.Equal(values.Select(v => (float)v), channel));
        }
    }

    [Fact]
    public void Blocks_of_odd_length_and_unknown_name_are_passed_over_with_or_without_padding()
    {
        byte[] data = WavBytes.Block("data", HalfScale);
        byte[] odd = WavBytes.Block("LIST", Encoding.ASCII.GetBytes("INFOICMTabc"));
        byte[] unknown = WavBytes.Block("BvOx", [1, 2, 3, 4]);
        Assert.Equal(48000, ReadSound(odd, [0], Mono16, unknown, odd, [0], data, odd, [0]).SampleCount);
        Assert.Equal(48000, ReadSound(odd, Mono16, unknown, odd, data).SampleCount);
    }

    [Fact]
    public void Rf64_states_its_length_in_its_own_block()
    {
        byte[] sizes = [.. WavBytes.UInt(0), .. WavBytes.UInt(0), .. WavBytes.UInt(96000), .. WavBytes.UInt(0), .. WavBytes.UInt(48000), .. WavBytes.UInt(0), .. WavBytes.UInt(0)];
        byte[] file = WavBytes.File(
            WavBytes.Block("ds64", sizes), Mono16, WavBytes.Block("data", HalfScale, 0xFFFFFFFF), WavBytes.Block("LIST", new byte[400]));
        Encoding.ASCII.GetBytes("RF64").CopyTo(file, 0);
        WavSound sound = Assert.IsType<WavSound>(WavReader.Read(new MemoryStream(file), "long.wav"));
        Assert.Equal(48000, sound.SampleCount);
        Assert.Empty(sound.Notes);
    }

    [Fact]
    public void Where_bits_and_block_size_disagree_two_of_three_fields_decide()
    {
        WavSound block = ReadSound(
            WavBytes.Block("fmt ", WavBytes.Format(1, 1, 48000, 24, align: 4)),
            WavBytes.Block("data", WavBytes.Sines(48000, 4, 1 << 30, 48000, 233.08)));
        AssertHalfScale(block);
        Assert.Single(block.Notes);
        WavSound bits = ReadSound(
            WavBytes.Block("fmt ", WavBytes.Format(1, 1, 48000, 16, align: 7, byteRate: 96000)), WavBytes.Block("data", HalfScale));
        AssertHalfScale(bits);
        Assert.Single(bits.Notes);
    }

    [Fact]
    public void No_number_and_infinity_are_read_as_silence_and_counted()
    {
        float[] values = [0.5f, float.NaN, float.PositiveInfinity, float.NegativeInfinity, -0.5f];
        WavSound sound = ReadSound(
            WavBytes.Block("fmt ", WavBytes.Format(3, 1, 48000, 32)),
            WavBytes.Block("data", [.. values.SelectMany(BitConverter.GetBytes)]));
        Assert.Equal([0.5f, 0, 0, 0, -0.5f], sound.Channels[0]);
        Assert.Equal(3, sound.NonFiniteSamples);
        Assert.Equal("3 samples were no number or infinite and read as 0", Assert.Single(sound.Notes));
    }

    [Theory]
    [InlineData("fLaC", "FLAC")]
    [InlineData("RIFX", "RIFX")]
    [InlineData("MThd", "MIDI")]
    [InlineData("Take", "no WAV file")]
    public void Another_kind_of_file_is_named(string start, string name)
    {
        WavFailure failure = ReadFailure([.. Encoding.ASCII.GetBytes(start), .. new byte[60]]);
        Assert.Equal(WavFailureKind.NotWav, failure.Kind);
        Assert.Contains(name, failure.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 48000, WavFailureKind.Damaged)]
    [InlineData(33, 48000, WavFailureKind.Unsupported)]
    [InlineData(1, 0, WavFailureKind.Unsupported)]
    [InlineData(1, 384001, WavFailureKind.Unsupported)]
    public void Impossible_headers_are_refused(int channels, int rateHz, WavFailureKind kind) =>
        Assert.Equal(kind, ReadFailure(WavBytes.File(
            WavBytes.Block("fmt ", WavBytes.Format(1, channels, rateHz, 16)), WavBytes.Block("data", HalfScale))).Kind);

    [Fact]
    public void A_missing_file_and_a_folder_are_told_apart()
    {
        using var folder = new TestFolder();
        Assert.Equal(WavFailureKind.NotFound, Assert.IsType<WavFailure>(WavReader.Read(folder.File("no such take.wav"))).Kind);
        Assert.Equal(WavFailureKind.NotReadable, Assert.IsType<WavFailure>(WavReader.Read(folder.Path)).Kind);
    }

    [Fact]
    public void Random_damage_never_throws_and_never_gives_what_is_no_number()
    {
        byte[] good = WavBytes.File(
            WavBytes.Block("LIST", new byte[11]), [0], WavBytes.Block("fmt ", WavBytes.Extensible(2, 48000, 32, 32, 3)), WavBytes.Block("data", new byte[800]));
        for (int seed = 0; seed < 3000; seed++)
        {
            var random = new Random(seed);
            byte[] bad = good[..random.Next(good.Length + 1)];
            for (int hits = random.Next(6); hits > 0 && bad.Length > 0; hits--)
                bad[random.Next(Math.Min(bad.Length, 120))] = (byte)random.Next(256);
            WavReading reading = WavReader.Read(seed % 2 == 0 ? new MemoryStream(bad) : new OneWayStream(bad), "bad.wav");
            if (reading is WavSound sound)
                Assert.True(sound.Channels.All(c => c.All(float.IsFinite)), $"seed {seed}");
        }
    }

    private static WavSound ReadSound(params byte[][] blocks) =>
        Assert.IsType<WavSound>(WavReader.Read(new MemoryStream(WavBytes.File(blocks)), "take.wav"));

    private static WavFailure ReadFailure(byte[] file) =>
        Assert.IsType<WavFailure>(WavReader.Read(new MemoryStream(file), "take.wav"));

    private static void AssertHalfScale(WavSound sound)
    {
        float[] samples = sound.Channels[0];
        Assert.InRange(20 * Math.Log10(samples.Max(Math.Abs)), -6.12, -5.92);
        Assert.InRange(samples.Average(), -0.005, 0.005);
        Assert.InRange(PitchErrorCents(samples, 48000, 233.08), -0.5, 0.5);
    }

    private static double PitchErrorCents(float[] samples, int rateHz, double hz) =>
        Tone.Cents(hz, Tone.FrequenciesHz(samples, rateHz, hz * 1.002)[0]);

    private static byte[] Encode(int tag, int bytes, double value) => (tag, bytes) switch
    {
        (3, 4) => BitConverter.GetBytes((float)value),
        (3, _) => BitConverter.GetBytes(value),
        (_, 1) => [(byte)(128 + value * 128)],
        _ => BitConverter.GetBytes((long)(value * Math.Pow(2, 8 * bytes - 1)))[..bytes],
    };
}
