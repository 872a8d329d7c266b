using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>A voice a twelfth over its tone, in fog while it is near and told while it is farther. No outside source: the truth is the drawing.</summary>
public sealed class FogEdgeTests
{
    private static readonly GradeLimits Limits = new(25, 15, 10);

    // Told beyond 20 c of 3:1, in fog within it, where nothing beats faster than 0.8 a second.
    private static TakeTrack Twelfth(Func<int, double> cents, int hundredths = 400) => Track(
        hundredths / 100.0, Part(VoiceRole.Played, (0, hundredths / 100.0, 100)), Part(VoiceRole.Sung, (0, hundredths / 100.0, 300)),
        Frames(0, hundredths, i => Math.Abs(cents(i)) > 20 ? Frame(i, 100, Up(300, cents(i))) : Frame(i, 100, null, 0.8, null, Separability.NotSeparable)));

    private static double Swing(int i, double middle, double width) => middle + (width * Math.Sin(2 * Math.PI * 5 * i / 100));

    private static Finding Offset(TakeTrack track) => PitchCriteria.Offset(track, new OffsetCriterion(VoiceRole.Sung, Limits), Grade.II);

    /// <summary>30 c sharp and 15 c sharp, with vibrato: neither may pass by the slow beats of the inner turns, nor be blamed by the outer ones.</summary>
    [Theory]
    [InlineData(30, 30)]
    [InlineData(15, 40)]
    [InlineData(0, 45)]
    [InlineData(-25, 20)]
    public void A_vibrato_that_strays_out_of_fog_has_no_middle(double middle, double width)
    {
        TakeTrack track = Twelfth(i => Swing(i, middle, width));
        Finding finding = Offset(track);
        Assert.Equal(Verdict.NotTold, finding.Verdict);
        Assert.Contains("went in and out of fog, as with a vibrato", finding.Text, StringComparison.Ordinal);
        Assert.False(PairCriteria.AreBeatsTold(track));
        Assert.True(FogEdge.HasNoMiddle([track], VoiceRole.Sung));
        Assert.False(FogEdge.HasNoMiddle([track], VoiceRole.Played));
        Assert.Equal(Verdict.NotTold, PitchCriteria.Spread(track, new SpreadCriterion(VoiceRole.Sung, Limits), Grade.II).Verdict);
        Assert.Equal((null, 0.0, 0.0), (TakeReports.Pair([track]).MedianBeatsPerSecond, TakeReports.Pair([track]).StillSeconds, TakeReports.Pair([track]).BeatingSeconds));
        Assert.Null(TakeReports.Tone(VoiceRole.Sung, [track], 0, [])!.OffsetCents);
    }

    /// <summary>Two turns a second are the fewest, and a twentieth of the time outside the least.</summary>
    [Theory]
    [InlineData(40, true)]
    [InlineData(120, false)]
    public void Slow_changes_are_no_vibrato(int period, bool strays) =>
        Assert.Equal(strays, FogEdge.Strays(Twelfth(i => i % period < period / 2 ? 0 : 25 + (i % 20), 960), VoiceRole.Sung));

    [Theory]
    [InlineData(2, false)]
    [InlineData(4, true)]
    public void Single_windows_outside_are_no_vibrato(int outside, bool strays) =>
        Assert.Equal(strays, FogEdge.Strays(Twelfth(i => i % 50 < outside ? 25 + (i % 50 * 10) : 0, 500), VoiceRole.Sung));

    /// <summary>In and out of fog, and always in one place where it is told: that is where it stands.</summary>
    [Theory]
    [InlineData(3, Verdict.Missed)]
    [InlineData(12, Verdict.NotTold)]
    public void A_steady_tone_at_the_edge_of_fog_is_judged_where_it_is_told(double width, Verdict verdict)
    {
        TakeTrack track = Twelfth(i => i % 20 < 8 ? 30 + (width * (i % 2)) : 0);
        Assert.Equal(verdict, Offset(track).Verdict);
        Assert.Equal(verdict == Verdict.NotTold, FogEdge.HasNoMiddle([track], VoiceRole.Sung));
    }

    /// <summary>A step that strays takes nothing from one that does not, and tells nothing beside it.</summary>
    [Fact]
    public void A_step_that_strays_is_left_out_of_the_takes_figures()
    {
        TakeTrack straight = Twelfth(_ => 24);
        TakeTrack straying = Twelfth(i => Swing(i, 30, 30));
        Assert.Equal(24, TakeReports.Tone(VoiceRole.Sung, [straight, straying], 0, [])!.OffsetCents!.Value, 1e-6);
        Assert.Equal(24, TakeReports.Pair([straying, straight]).IntervalErrorCents!.Value, 1e-6);
    }

    [Fact]
    public void Slow_beats_in_fog_are_judged_as_ever() => Assert.Equal(Verdict.Met, Offset(Twelfth(_ => 5)).Verdict);
}
