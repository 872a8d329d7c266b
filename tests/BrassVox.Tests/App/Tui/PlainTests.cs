using BrassVox.App.Tui.Plain;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Lines instead of screens.</summary>
public sealed class PlainTests
{
    [Theory]
    [InlineData("Bb1 -5 c, F#2 +12 c", "B-flat 1 minus 5 cents, F-sharp 2 plus 12 cents")]
    [InlineData("beats 0.2 /s at 29 Hz, level -24 dB.", "beats 0.2 per second at 29 hertz, level minus 24 decibels.")]
    [InlineData("S-P is now Bb2, P+S Ab3", "S-P is now B-flat 2, P+S A-flat 3")]
    public void Units_and_accidentals_are_words(string line, string expected) => Assert.Equal(expected, PlainWords.Of(line));

    [Fact]
    public void A_session_in_lines()
    {
        using StandRig rig = StandTests.At("");
        var teller = new PlainTeller(rig.Stand);
        Assert.Contains(teller.Tell(), line => line.Contains("Start. Nothing sounds until Enter.", StringComparison.Ordinal));
        Assert.Empty(teller.Tell());
        rig.Press("1");
        Assert.Contains(teller.Tell(), line => line.Contains("P B-flat 1, S F 2, fifth 700.0 cents", StringComparison.Ordinal));
        rig.Press("Enter").Run(0.2);
        Assert.Contains(teller.Tell(), line => line.EndsWith("sound on, minus 24 decibels.", StringComparison.Ordinal));
        rig.Run(1);
        Assert.Empty(teller.Tell());
        rig.Press("Right");
        Assert.Contains(teller.Tell(), line => line.Contains("S plus 5 cents. It beats 0.3 times a second: 3 of P with 2 of S.", StringComparison.Ordinal));
        rig.Press(" ").Run(0.1);
        IReadOnlyList<string> last = teller.Tell();
        Assert.Contains(last, line => line.EndsWith("tacet.", StringComparison.Ordinal));
        Assert.All(last, line => Assert.DoesNotContain('\u001b', line));
    }

    [Fact]
    public void What_can_hurt_is_told_at_the_welcome_in_the_lists_and_before_a_take()
    {
        using var first = new StandRig(firstRun: true);
        Assert.Contains(new PlainTeller(first.Stand).Tell(), line => line.Contains("Care: Glaucoma, fresh eye or belly surgery", StringComparison.Ordinal));
        using StandRig rig = StandTests.At("3");
        var teller = new PlainTeller(rig.Stand);
        IReadOnlyList<string> list = teller.Tell();
        Assert.Contains(list, line => line.Contains("Care: Play soft, sing full and easy", StringComparison.Ordinal));
        rig.Press("1", "7");
        Assert.Contains(teller.Tell(), line => line.Contains("Care: Dizzy: stop and sit down.", StringComparison.Ordinal));
        rig.Press("Enter");
        Assert.Contains(teller.Tell(), line => line.Contains("Care: Dizzy", StringComparison.Ordinal) || line.Contains("Headphones keep the drone out", StringComparison.Ordinal));
        Assert.Empty(teller.Tell());
    }

    [Fact]
    public void The_sentence_is_asked_word_by_word()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        var teller = new PlainTeller(rig.Stand);
        rig.Run(14);
        Assert.Contains(teller.Tell(), line => line.EndsWith("say it: My played tone was low, true, high?", StringComparison.Ordinal));
        rig.Press("Right", "Right");
        Assert.Contains(teller.Tell(), line => line.EndsWith("marked: true.", StringComparison.Ordinal));
        rig.Press("Enter");
        Assert.Contains(teller.Tell(), line => line.EndsWith("say it: My sung tone was low, true, high?", StringComparison.Ordinal));
    }
}
