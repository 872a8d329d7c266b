using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class PitchTests
{
    [Theory]
    [InlineData("Bb1", 34)]
    [InlineData("bb1", 34)]
    [InlineData("B♭1", 34)]
    [InlineData("A#1", 34)]
    [InlineData("A♯1", 34)]
    [InlineData("Cbb2", 34)]
    [InlineData("C𝄫2", 34)]
    [InlineData("Gx1", 33)]
    [InlineData("G𝄪1", 33)]
    [InlineData("B#3", 60)]
    [InlineData("Cb4", 59)]
    [InlineData("C-1", 0)]
    [InlineData("G9", 127)]
    [InlineData(" A4 ", 69)]
    public void Note_names_read_as_their_midi_numbers(string name, int midi) =>
        Assert.Equal(midi, Pitch.Parse(name).MidiNumber);

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("H1")]
    [InlineData("Bb")]
    [InlineData("4")]
    [InlineData("Bbbb1")]
    [InlineData("Bb1.5")]
    [InlineData("Bb10")]
    [InlineData("F2 ♯")]
    public void What_is_no_note_name_is_refused(string? name) => Assert.False(Pitch.TryParse(name, out _));

    [Fact]
    public void Every_midi_note_round_trips_through_its_name()
    {
        for (int midi = 0; midi < 128; midi++)
        {
            Pitch pitch = Pitch.FromMidi(midi);
            Assert.Equal(midi, pitch.MidiNumber);
            Assert.Equal(pitch, Pitch.Parse(pitch.ToString()));
        }
    }
}
