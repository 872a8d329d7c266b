using BrassVox.Audio.Wav;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Publishing.Tracks;
using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Publishing;

public sealed class PracticeTracksTests : IDisposable
{
    private static readonly TonePresets Tones = TonePresets.Load(Path.Combine(Repository.Root, "presets", "tones"));
    private static readonly ExerciseLibrary Exercises = ExerciseLibrary.Load(Path.Combine(Repository.Root, "presets", "exercises"));
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-tracks-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData(-23)]
    [InlineData(-20)]
    public void Stems_add_up_to_the_mix_at_the_loudness_asked(double lufs)
    {
        PracticeTracks set = Render(new TrackOptions(Click: ClickUse.Throughout, LoudnessLufs: lufs));
        float[] mix = Of(set, "mix");
        float[][] stems = [Of(set, "played"), Of(set, "sung"), Of(set, "resultants"), Of(set, "click"), Of(set, "cue")];
        Assert.All(set.Tracks, track => Assert.Equal(mix.Length, track.Length));
        Assert.All(Enumerable.Range(0, mix.Length), i => Assert.Equal((float)stems.Sum(stem => (double)stem[i]), mix[i]));
        Assert.InRange(set.LoudnessLufs, lufs - 0.1, lufs + 0.1);
        Assert.InRange(set.PeakDbtp, -60, PracticeTracks.HighestPeakDbtp);
    }

    [Fact]
    public void Before_the_take_sound_cue_and_count_only_and_in_it_no_cue()
    {
        PracticeTracks set = Render(new TrackOptions());
        int take = (int)Math.Round(set.TakeSeconds * set.SampleRateHz);
        foreach (string name in new[] { "both", "played", "sung", "resultants" })
        {
            Assert.All(Of(set, name)[..take], sample => Assert.Equal(0, sample));
        }

        Assert.All(Of(set, "cue")[take..], sample => Assert.Equal(0, sample));
        Assert.Contains(Of(set, "cue")[..take], sample => Math.Abs(sample) > 0.01);
        Assert.Contains(Of(set, "click")[..take], sample => Math.Abs(sample) > 0.01);
    }

    [Fact]
    public void Where_a_peak_forbids_the_loudness_the_peak_is_kept()
    {
        PracticeTracks set = Render(new TrackOptions(LoudnessLufs: -3));
        Assert.InRange(set.PeakDbtp, -1.1, PracticeTracks.HighestPeakDbtp);
        Assert.True(set.LoudnessLufs < -3);
    }

    [Fact]
    public void Files_sort_carry_names_and_are_read_again_bit_for_bit()
    {
        PracticeTracks set = Render(new TrackOptions());
        IReadOnlyList<string> files = TrackFiles.Write(set, _folder, "14-pair", "Übung", "Practice of Mira", TrackFormat.WavFloat);
        Assert.Equal(files.Order(StringComparer.Ordinal), files);
        for (int i = 0; i < files.Count; i++)
        {
            Assert.Equal(set.Tracks[i].ToSamples(), Assert.IsType<WavSound>(WavReader.Read(files[i])).Channels[0]);
        }

        // RIFF INFO (Multimedia Programming Interface 1.0, from memory): sizes count the closing zero.
        byte[] head = File.ReadAllBytes(files[0])[..256];
        Assert.True(head.AsSpan().IndexOf("LIST"u8) > 0);
        Assert.True(head.AsSpan().IndexOf("INAM\x27\0\0\0\u00DCbung: everything, with count and cue\0"u8) > 0);
        Assert.True(head.AsSpan().IndexOf("IPRD\x11\0\0\0Practice of Mira\0"u8) > 0);
    }

    [Fact]
    public void Opus_is_whole_pages_of_one_stream_that_ends_with_the_last_sample()
    {
        PracticeTracks set = Render(new TrackOptions());
        byte[] file = TrackFiles.Opus(set, set.Tracks[0], "Pair", "Practice");
        long position = 0;
        int pages = 0;
        int skip = BitConverter.ToUInt16(file, 28 + 10);
        for (int at = 0; at < file.Length; pages++)
        {
            Assert.Equal("OggS"u8.ToArray(), file[at..(at + 4)]);
            Assert.Equal(pages, BitConverter.ToInt32(file, at + 18));
            Assert.Equal(pages == 0 ? 2 : 0, file[at + 5] & 2);
            position = BitConverter.ToInt64(file, at + 6);
            int lengths = file[at + 26];
            at += 27 + lengths + file[(at + 27)..(at + 27 + lengths)].Sum(length => length);
            Assert.InRange(at, 0, file.Length);
        }

        Assert.Equal(skip + set.Tracks[0].Length, position);
    }

    private static float[] Of(PracticeTracks set, string name) => set.Tracks.Single(track => track.Name == name).ToSamples();

    private static PracticeTracks Render(TrackOptions options)
    {
        ResolvedExercise resolved = ExerciseResolver.Resolve(Exercises.Find("14")!, PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low)).Resolved!;
        return PracticeTracks.Render(resolved, new FlowPair(Tones.BrassById("trombone"), Tones.VoiceById("bass"), 1), options);
    }
}
