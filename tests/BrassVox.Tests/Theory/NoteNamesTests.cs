using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class NoteNamesTests
{
    // Common practice, no source: names as printed on German, French and Italian band parts.
    [Theory]
    [InlineData("Bb1", "B1", "Sib1", "B-flat 1")]
    [InlineData("B1", "H1", "Si1", "B 1")]
    [InlineData("B#1", "His1", "Si#1", "B-sharp 1")]
    [InlineData("Eb3", "Es3", "Mib3", "E-flat 3")]
    [InlineData("Ab2", "As2", "Lab2", "A-flat 2")]
    [InlineData("Db4", "Des4", "Reb4", "D-flat 4")]
    [InlineData("F#2", "Fis2", "Fa#2", "F-sharp 2")]
    [InlineData("Gb2", "Ges2", "Solb2", "G-flat 2")]
    [InlineData("A4", "A4", "La4", "A 4")]
    [InlineData("Abb2", "Ases2", "Labb2", "A-double-flat 2")]
    public void A_note_has_its_name_in_each_language(string english, string german, string solfege, string spoken)
    {
        Pitch pitch = Pitch.Parse(english);
        Assert.Equal(german, NoteNames.Of(pitch, NoteNaming.German));
        Assert.Equal(solfege, NoteNames.Of(pitch, NoteNaming.Solfege));
        Assert.Equal(spoken, NoteNames.Of(pitch, NoteNaming.Spoken));
    }

    [Fact]
    public void B_in_German_is_the_flat_one_and_H_is_not_English()
    {
        Assert.True(NoteNames.TryParse("b1", NoteNaming.German, out Pitch flat));
        Assert.Equal(Pitch.Parse("Bb1"), flat);
        Assert.True(NoteNames.TryParse("H1", NoteNaming.German, out Pitch natural));
        Assert.Equal(Pitch.Parse("B1"), natural);
        Assert.False(NoteNames.TryParse("H1", NoteNaming.English, out _));
        Assert.False(NoteNames.TryParse(null, NoteNaming.German, out _));
    }

    [Theory]
    [InlineData(NoteNaming.English)]
    [InlineData(NoteNaming.German)]
    [InlineData(NoteNaming.Solfege)]
    [InlineData(NoteNaming.Spoken)]
    public void Every_name_reads_back_in_any_case(NoteNaming naming)
    {
        foreach (NoteLetter letter in Enum.GetValues<NoteLetter>())
        {
            for (int alteration = -2; alteration <= 2; alteration++)
            {
                Pitch pitch = new(letter, alteration, 3);
                Assert.True(NoteNames.TryParse(NoteNames.Of(pitch, naming).ToUpperInvariant(), naming, out Pitch read));
                Assert.Equal(pitch, read);
            }
        }
    }
}
