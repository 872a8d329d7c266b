using BrassVox.Synthesis.Living;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Synthesis.Living;

/// <summary>The bores as data, and the slots that calibration derived from them.</summary>
public sealed class BrassBoreTests
{
    public static TheoryData<string> Ids() => [.. SourceUnderTest.Bores.Keys];

    [Fact]
    public void There_is_one_bore_for_each_instrument_with_a_tone() =>
        Assert.Equal(SourceUnderTest.Presets.Brass.Select(tone => tone.Id).Order(), SourceUnderTest.Bores.Keys.Order());

    [Theory]
    [MemberData(nameof(Ids))]
    public void Slots_cover_the_usual_range_within_what_valves_can_lengthen(string id)
    {
        BrassBore bore = SourceUnderTest.Bores[id];
        for (double hz = bore.LowestHz; hz <= bore.HighestHz; hz *= 1.01)
        {
            double stretch = bore.Slots[bore.SlotFor(hz)].SoundingHz[2] / hz;

            // From a little shorter than open to an octave longer, which is what four or more valves or a trigger and slide give.
            Assert.InRange(stretch, 0.98, 2.05);
        }
    }

    // Players sound about 1.1 % above the resonance (Boutin, Fletcher, Smith and Wolfe 2015, abstract); pedals have none.
    [Theory]
    [MemberData(nameof(Ids))]
    public void Notes_lie_a_little_above_their_resonance_at_every_loudness(string id)
    {
        BrassBore bore = SourceUnderTest.Bores[id];
        ColumnMode[] modes = SourceUnderTest.ModesOf(id);
        foreach (ColumnSlot slot in bore.Slots.Where(slot => slot.Number > 1))
        {
            double resonance = modes[slot.Number - 1].Pole.Imaginary / (2 * Math.PI);
            Assert.All(slot.SoundingHz, hz => Assert.InRange(hz / resonance, 1.003, 1.035));
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_slots_in_the_file_are_what_the_bore_gives(string id)
    {
        BrassBore bore = SourceUnderTest.Bores[id];
        ColumnSlot slot = bore.Slots.First(slot => slot.Number == 4);
        SteadyTone tone = SteadyTone.Measure(SourceUnderTest.ModesOf(id), bore, slot.LipHz, BlowingState.At(0.5), slot.SoundingHz[2], 0.5, 0.3);
        Assert.InRange(1200 * Math.Log2(tone.FrequencyHz / slot.SoundingHz[2]), -0.5, 0.5);
        Assert.InRange(tone.LoudnessDb - slot.LoudnessDb[2], -0.2, 0.2);
    }

    [Theory]
    [InlineData("\"nominalHz\"", "\"nominalHertz\"", "nominalHertz")]
    [InlineData("\"temperatureC\": 20", "\"temperatureC\": 200", "$.temperatureC")]
    [InlineData("\"shape\": \"Bessel\"", "\"shape\": \"Trumpet\"", "$.sections")]
    public void A_wrong_file_is_refused_with_its_name_and_the_place(string from, string to, string place)
    {
        string text = File.ReadAllText(Path.Combine(Repository.Root, "presets", "bores", "horn.json"));
        string folder = Directory.CreateTempSubdirectory("brassvox-bores").FullName;
        string file = Path.Combine(folder, "wrong.json");
        File.WriteAllText(file, text.Replace(from, to, StringComparison.Ordinal));
        InvalidDataException error = Assert.Throws<InvalidDataException>(() => BrassBore.LoadAll(folder));
        Directory.Delete(folder, recursive: true);
        Assert.Contains("wrong.json", error.Message, StringComparison.Ordinal);
        Assert.Contains(place, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_saved_bore_loads_as_it_was()
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-bores").FullName;
        BrassBore bore = SourceUnderTest.Bores["tuba"];
        BrassBoreFiles.Save(bore, Path.Combine(folder, "tuba.json"));
        string again = File.ReadAllText(Path.Combine(folder, "tuba.json"));
        Directory.Delete(folder, recursive: true);
        Assert.Equal(File.ReadAllText(Path.Combine(Repository.Root, "presets", "bores", "tuba.json")), again);
    }
}
