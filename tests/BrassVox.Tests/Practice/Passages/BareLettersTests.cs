using System.Globalization;
using System.Text;
using BrassVox.Practice.Passages;
using Xunit;

namespace BrassVox.Tests.Practice.Passages;

public sealed class BareLettersTests
{
    /// <summary>Source: the canonical decompositions of Unicode, from the system's own data (the tests run with them, the program without).</summary>
    [Fact]
    public void Every_letter_loses_the_marks_that_Unicode_takes_from_it()
    {
        Assert.False(AppContext.TryGetSwitch("System.Globalization.Invariant", out bool without) && without);
        int bared = 0;
        for (int code = 1; code < 0xFFFE; code++) // the last two are no characters
        {
            char letter = (char)code;
            if (char.IsSurrogate(letter))
            {
                continue;
            }

            string apart = letter.ToString().Normalize(NormalizationForm.FormD).ToLowerInvariant();
            bool isPlain = char.IsAsciiLetterOrDigit(apart[0]) && apart.Skip(1).All(mark => CharUnicodeInfo.GetUnicodeCategory(mark) == UnicodeCategory.NonSpacingMark);
            char bare = BareLetters.Of(letter);
            Assert.True(isPlain ? bare == apart[0] : !char.IsAsciiLetterOrDigit(bare), $"U+{code:X4} {letter}: {bare}, {apart}");
            bared += isPlain && letter > 'z' ? 1 : 0;
        }

        Assert.True(bared > 400, $"{bared} letters only");
    }

    [Theory]
    [InlineData("Übung für drei Töne", "passage-ubung-fur-drei-tone")]
    [InlineData("ÇA  VA, İzmir", "passage-ca-va-izmir")]
    [InlineData("Два дыхания", "own-passage")]
    [InlineData("passage", "own-passage")]
    [InlineData("", "own-passage")]
    public void A_title_becomes_a_name_of_plain_letters(string title, string id) => Assert.Equal(id, PassageExercise.IdOf(title));
}
