using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>How much of a glide was gone, on frames drawn by hand. No outside source: the truth is the drawing; half the way is what the curriculum asks.</summary>
public sealed class GlideWayTests
{
    private static AskedPart Glide(VoiceRole role, params (double FromSeconds, double ToSeconds, double FromHz, double ToHz)[] stretches) => new(
        role,
        new PitchPath([.. stretches.SelectMany(at => new[] { (at.FromSeconds, at.FromHz), (at.ToSeconds - 1e-4, at.ToHz) })]),
        [.. stretches.Select(at => new AskedSegment(at.FromHz == at.ToHz ? Move.Hold : Move.Glide, at.FromSeconds, at.ToSeconds, Pitch.Parse("F3"), 0, at.FromHz, at.ToHz))]);

    // 200 c up in 4 s.
    private static AskedPart WholeTone(VoiceRole role, double fromHz) => Glide(role, (0, 4, fromHz, Up(fromHz, 200)));

    private static TakeTrack Over(AskedPart? played, AskedPart? sung, double playedHz, double sungHz, Func<int, AnalysisFrame> at) =>
        new(Step(4, played, sung), Pair(playedHz, sungHz), Frames(0, 400, at), 0);

    private static Finding? Shortfall(TakeTrack track, VoiceRole role) => GlideWay.Shortfall(track, new UnbrokenCriterion(role));

    private static Finding? OfVoice(AskedPart sung, Func<int, double?> cents) => Shortfall(
        Over(Part(VoiceRole.Played, (0, 4, 100)), sung, 100, 150, i => Frame(i, 100, cents(i) is { } c ? Up(150, c) : null)), VoiceRole.Sung);

    [Fact]
    public void Where_no_glide_is_asked_no_way_is_wanted() => Assert.Null(OfVoice(Part(VoiceRole.Sung, (0, 4, 150)), _ => 0));

    [Theory]
    [InlineData(101, false)]
    [InlineData(99, true)]
    [InlineData(-101, false)]
    [InlineData(-99, true)]
    public void Half_the_way_is_wanted_up_or_down(double cents, bool isShort)
    {
        Finding? finding = OfVoice(Glide(VoiceRole.Sung, (0, 4, 150, Up(150, Math.CopySign(200, cents)))), i => i < 200 ? 0 : cents);
        Assert.Equal(isShort, finding is not null);
        if (isShort)
        {
            Assert.Equal((Verdict.Missed, Fault.ShortWay, VoiceRole.Sung, "unbroken", "step", "c"), (finding!.Verdict, finding.Fault, finding.Role, finding.Criterion, finding.StepId, finding.Unit));
            Assert.Equal((99.0, 100.0), (Math.Round(finding.Value!.Value, 6), Math.Round(finding.Limit!.Value, 6)));
            Assert.Equal("The sung tone went 99 c of the 200 c asked for; at least half the way is wanted.", finding.Text);
        }
    }

    /// <summary>Up 200 c and down to 100 c under where it began: 300 c, of which 150 are half. What is held between counts for nothing.</summary>
    [Theory]
    [InlineData(151, false)]
    [InlineData(149, true)]
    public void Of_several_glides_the_whole_compass_is_asked(double cents, bool isShort) => Assert.Equal(isShort, OfVoice(
        Glide(VoiceRole.Sung, (0, 1, 150, Up(150, 200)), (1, 2, Up(150, 200), Up(150, 200)), (2, 4, Up(150, 200), Up(150, -100))), i => i < 200 ? -50 : cents - 50) is not null);

    [Fact]
    public void What_sounds_before_a_glide_is_asked_is_none_of_its_way()
    {
        AskedPart late = WholeTone(VoiceRole.Sung, 150) with { Segments = [new AskedSegment(Move.Rest, 0, 1, Pitch.Parse("F3"), 0, 0, 0), new AskedSegment(Move.Glide, 1, 4, Pitch.Parse("F3"), 0, 150, Up(150, 200))] };
        Assert.Equal(0, OfVoice(late, i => i < 100 ? 190 : 0)!.Value!.Value, 6);
    }

    /// <summary>A tenth of a second within a quarter of one: fewer frames stand nowhere.</summary>
    [Theory]
    [InlineData(9, true)]
    [InlineData(10, false)]
    public void To_have_stood_somewhere_takes_a_tenth_of_a_second(int frames, bool isShort) =>
        Assert.Equal(isShort, OfVoice(WholeTone(VoiceRole.Sung, 150), i => i < 200 ? 0 : i >= 300 && i < 300 + frames ? 200 : null) is not null);

    /// <summary>A vibrato of 60 c each way, five and a half a second, goes nowhere: its middle over a quarter second hardly moves.</summary>
    [Fact]
    public void A_swing_is_no_way() => Assert.InRange(OfVoice(WholeTone(VoiceRole.Sung, 150), i => 60 * Math.Sin(2 * Math.PI * 5.5 * i / 100.0))!.Value!.Value, 0, 60);

    [Theory]
    [InlineData(9, 1, false)]
    [InlineData(10, 1, true)]
    [InlineData(20, 20, false)]
    public void A_tone_told_too_rarely_went_nobody_knows_how_far(int frames, int apart, bool isTold)
    {
        Finding finding = OfVoice(WholeTone(VoiceRole.Sung, 150), i => i % apart == 0 && i / apart < frames ? 0 : null)!;
        Assert.Equal(isTold ? Verdict.Missed : Verdict.NotTold, finding.Verdict);
        Assert.True(isTold || (finding.Criterion, finding.Role, finding.Unit, finding.StepId, finding.Text)
            == ("unbroken", VoiceRole.Sung, "c", "step", "The sung tone was never told from the other, so how far it went is not known."));
    }

    /// <summary>From an octave in fog to 60 or 101 c beside it: where it lay in fog for a tenth of a second it stood where the pair does.</summary>
    [Theory]
    [InlineData(VoiceRole.Sung, 100, 101, null)]
    [InlineData(VoiceRole.Sung, 10, 101, null)]
    [InlineData(VoiceRole.Sung, 9, 101, 0.0)]
    [InlineData(VoiceRole.Sung, 100, 60, 60.0)]
    [InlineData(VoiceRole.Played, 100, 101, null)]
    [InlineData(VoiceRole.Played, 9, 101, 0.0)]
    [InlineData(VoiceRole.Played, 100, 60, 60.0)]
    public void What_lay_in_fog_stood_where_the_pair_does(VoiceRole role, int fog, double cents, double? went)
    {
        bool isPlayed = role == VoiceRole.Played;
        TakeTrack track = Over(
            isPlayed ? WholeTone(role, 100) : Part(VoiceRole.Played, (0, 4, 100)), isPlayed ? Part(VoiceRole.Sung, (0, 4, 200)) : WholeTone(role, 200), 100, 200,
            i => i < fog ? Fog(i) : Frame(i, isPlayed ? Up(100, cents) : 100, isPlayed ? 200 : Up(200, cents)));
        Finding? finding = Shortfall(track, role);
        Assert.Equal(went, finding?.Value is { } value ? Math.Round(value, 6) : null);
        Assert.True(finding is null || finding.Text.StartsWith(isPlayed ? "The played tone went" : "The sung tone went", StringComparison.Ordinal));
    }

    [Fact]
    public void Fog_that_is_not_asked_for_stands_nowhere() => Assert.Equal(0, Shortfall(
        Over(Part(VoiceRole.Played, (0, 4, 100)), WholeTone(VoiceRole.Sung, 150), 100, 150, i => i < 100 ? Fog(i) : Frame(i, 100, Up(150, 150))), VoiceRole.Sung)!.Value!.Value, 6);

    // P and a voice that leaves its twelfth by 20 c in 4 s; at the last frame it lies 3.99 of 4 s on its way.
    private static Finding? Twelfth(Func<int, AnalysisFrame> at, AskedPart? played, double sungHz = 300) => Shortfall(
        Over(played, Glide(VoiceRole.Sung, (0, 4, sungHz, Up(sungHz, 20))), 100, sungHz, at), VoiceRole.Sung);

    private static double Beats(double seconds) => Up(300, 20 * seconds / 4) - 300;

    /// <summary>Of a hundred rates the 95th is told: six fast ones are enough, five are not.</summary>
    [Theory]
    [InlineData(6, false)]
    [InlineData(5, true)]
    public void All_in_fog_the_beats_tell_how_far_it_went(int fast, bool isShort)
    {
        Finding? finding = Twelfth(i => i < 100 ? Fog(i, i < fast ? 1.75 : 1.5) : Fog(i), Part(VoiceRole.Played, (0, 4, 100)));
        Assert.Equal(isShort, finding is not null);
        if (isShort)
        {
            Assert.Equal((Verdict.Missed, Fault.ShortWay, VoiceRole.Sung, "unbroken", "/s", 1.5), (finding!.Verdict, finding.Fault, finding.Role, finding.Criterion, finding.Unit, finding.Value));
            Assert.Equal(Beats(3.99) / 2, finding.Limit!.Value, 2e-4);
            Assert.Equal("The sung tone lay in fog and beat at most 1.5 /s; the way asked for would beat 3.5 /s at its ends.", finding.Text);
        }
    }

    [Theory]
    [InlineData(10, true)]
    [InlineData(9, false)]
    public void Beats_of_a_tenth_of_a_second_are_needed(int frames, bool isTold) =>
        Assert.Equal(isTold ? null : Verdict.NotTold, Twelfth(i => Fog(i, i < frames ? 3 : null), Part(VoiceRole.Played, (0, 4, 100)))?.Verdict);

    /// <summary>P rests from 2 s on: no beats are asked for after that, so half of what 1.99 s would beat is enough.</summary>
    [Theory]
    [InlineData(0.9, false)]
    [InlineData(0.8, true)]
    public void Beats_are_asked_for_only_while_both_tones_are(double rate, bool isShort)
    {
        Finding? finding = Twelfth(i => Fog(i, rate), Part(VoiceRole.Played, (0, 2, 100), (2, 4, 0)));
        Assert.Equal(isShort, finding is not null);
        Assert.True(!isShort || Math.Abs(finding!.Limit!.Value - (Beats(1.99) / 2)) < 2e-4);
    }

    /// <summary>A glide of P moves its third harmonic, three times as far in Hz, past S; down it beats as well.</summary>
    [Theory]
    [InlineData(20)]
    [InlineData(-20)]
    public void A_glide_of_the_lower_tone_beats_at_its_harmonic(double cents)
    {
        TakeTrack track = Over(Glide(VoiceRole.Played, (0, 4, 100, Up(100, cents))), Part(VoiceRole.Sung, (0, 4, 300)), 100, 300, i => Fog(i, 1));
        Finding finding = Shortfall(track, VoiceRole.Played)!;
        Assert.Equal(Math.Abs(Up(300, cents * 3.99 / 4) - 300) / 2, finding.Limit!.Value, 2e-4);
        Assert.StartsWith("The played tone lay in fog", finding.Text, StringComparison.Ordinal);
    }

    /// <summary>Alone, beside a fifth, or 5 Hz off the twelfth (fog, but over two hundredths of P): nothing says what it should beat.</summary>
    [Fact]
    public void Where_no_beats_are_asked_for_the_way_is_not_known()
    {
        AskedPart played = Part(VoiceRole.Played, (0, 4, 100));
        Assert.All([Twelfth(i => Fog(i, 1), null), Twelfth(i => Fog(i, 1), played, 150), Twelfth(i => Fog(i, 1), played, 305)], finding => Assert.Equal(Verdict.NotTold, finding!.Verdict));
        Assert.Equal(Verdict.NotTold, Shortfall(Over(Glide(VoiceRole.Played, (0, 4, 100, Up(100, 20))), null, 100, 300, i => Fog(i, 1)), VoiceRole.Played)!.Verdict);
    }
}
