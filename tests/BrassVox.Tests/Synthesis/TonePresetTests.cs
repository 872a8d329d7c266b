using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>Every shipped tone loads and sounds; what is no preset is refused with its place.</summary>
public sealed class TonePresetTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "presets", "tones");

    [Fact]
    public void All_instruments_and_voices_are_there()
    {
        TonePresets presets = TonePresets.Load(Folder);
        string[] brass = ["bass-trombone", "bass-tuba", "euphonium", "horn", "trombone", "trumpet", "tuba"];
        string[] voices = ["alto", "bass", "soprano", "tenor"];
        Assert.Equal(brass, presets.Brass.Select(preset => preset.Id).Order(StringComparer.Ordinal));
        Assert.Equal(voices, presets.Voices.Select(preset => preset.Id).Order(StringComparer.Ordinal));
        Assert.All(presets.Voices, voice => Assert.Equal(["u", "o", "a", "e", "i"], voice.Vowels.Select(vowel => vowel.Name)));
    }

    [Fact]
    public void Each_of_them_sounds_at_the_reference_loudness_at_the_edge_of_its_range()
    {
        TonePresets presets = TonePresets.Load(Folder);
        for (int i = 0; i < presets.Brass.Count; i++)
        {
            BrassPreset brass = presets.Brass[i];
            VoicePreset voice = presets.Voices[i % presets.Voices.Count];
            foreach (double depth in (double[])[0, 0.7])
            {
                // An interval without common harmonics, so that no beat shifts the mean.
                float[] sound = TakenSound.Pair(brass.Id, voice.Id, brass.HighestHz * 0.97, voice.LowestHz * 1.013, ("couplingDepth", depth)).Take(0.5);
                Assert.Equal(-23, Spectrum.LoudnessLufs(sound.AsSpan(9600), TakenSound.Rate), 1.0);
            }
        }
    }

    [Theory]
    [InlineData("\"cutoffHz\": 350,", "\"cutoffHz\": 350, \"loudness\": 3,", "$.loudness")]
    [InlineData("\"cutoffHz\": 350,", "", "cutoffHz")]
    [InlineData("\"cutoffHz\": 350,", "\"cutoffHz\": 35000,", "$.cutoffHz")]
    [InlineData("\"cutoffHz\": 350,", "\"cutoffHz\": \"low\",", "$.cutoffHz")]
    [InlineData("\"formatVersion\": 1,", "\"formatVersion\": 2,", "$.formatVersion")]
    [InlineData("\"id\": \"tuba\",", "\"id\": null,", "$.id")]
    [InlineData("\"spectra\": [", "\"spectra\": [ null,", "$.spectra[0]")]
    [InlineData("\"cutoffHz\": 350,", "\"cutoffHz\": 350;", "no JSON from here on")]
    public void A_broken_preset_is_refused_with_file_and_place(string line, string instead, string place)
    {
        string folder = Directory.CreateTempSubdirectory("tones").FullName;
        try
        {
            Directory.CreateDirectory(Path.Combine(folder, "brass"));
            Directory.CreateDirectory(Path.Combine(folder, "voices"));
            string tuba = File.ReadAllText(Path.Combine(Folder, "brass", "tuba.json"));
            Assert.Contains(line, tuba, StringComparison.Ordinal);
            string file = Path.Combine(folder, "brass", "broken.json");
            File.WriteAllText(file, tuba.Replace(line, instead, StringComparison.Ordinal));
            InvalidDataException error = Assert.Throws<InvalidDataException>(() => TonePresets.Load(folder));
            Assert.Contains(file, error.Message, StringComparison.Ordinal);
            Assert.Contains(place, error.Message, StringComparison.Ordinal);
            Assert.Matches(@", line [1-9][0-9]*, at \$", error.Message);
            Assert.Contains("Mend it there, or put back the file that came with the program.", error.Message, StringComparison.Ordinal);

            // In our own words, not the library's.
            Assert.DoesNotContain("BytePositionInLine", error.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("System.", error.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("property", error.Message, StringComparison.Ordinal);
            if (instead.Length > 0 && place != "$.id")
            {
                int at = tuba.Split('\n').ToList().FindIndex(row => row.Contains(line, StringComparison.Ordinal)) + 1;
                Assert.Contains($", line {at}, at ", error.Message, StringComparison.Ordinal);
            }
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }
}
