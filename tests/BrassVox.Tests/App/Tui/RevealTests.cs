using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>What always stands on the reveal, however much there is to say.</summary>
public sealed class RevealTests
{
    private const string LongAdvice = "The played tone is high: hear it lower in your head before you begin; slow beats tell you that you are near.";

    [Theory]
    [InlineData(80, 24, null)]
    [InlineData(80, 24, -32.0)]
    [InlineData(80, 24, -0.4)]
    [InlineData(120, 40, -0.4)]
    [InlineData(200, 60, -32.0)]
    public void Aim_and_next_are_whole_however_much_else_there_is_to_say(int width, int height, double? leftDb)
    {
        Canvas canvas = Drawn(width, height, leftDb is { } left ? new DroneInTake(true, -12, left) : null);
        string screen = Joined(canvas);
        Assert.Contains("AS ASKED? not yet", screen, StringComparison.Ordinal);
        Assert.Contains($"NEXT {LongAdvice}", screen, StringComparison.Ordinal);
        Assert.Equal("", canvas.Row(height - 2));
        Assert.Equal("", canvas.Row(height - 1));
    }

    [Fact]
    public void Statement_15_no_offset_without_the_word_bleeds_when_the_drone_does()
    {
        string screen = Joined(Drawn(80, 24, new DroneInTake(true, -12, -0.4)));
        Assert.Contains("bleeds", screen, StringComparison.Ordinal);
        Assert.Contains("may be the drone", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("dB", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("DRONE", Joined(Drawn(80, 24, null)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_taller_screen_shows_the_sayings_and_the_findings_too()
    {
        string screen = Joined(Drawn(80, 40, new DroneInTake(true, -12, -30)));
        Assert.Contains("AS ASKED? not yet: played tone off pitch", screen, StringComparison.Ordinal);
        Assert.Contains("YOU SAID the pair stood still: it beat, half the time over 3.7 /s", screen, StringComparison.Ordinal);
        Assert.Contains("YOU SAID it held", screen, StringComparison.Ordinal);
        Assert.Contains("P stood 31 c high", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void A_take_that_the_drone_spoiled_shows_no_figure_as_the_players()
    {
        string screen = Joined(Drawn(80, 40, new DroneInTake(true, -12, -0.4)));
        Assert.DoesNotContain("31 c", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("3.7 /s", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("BEST SECOND", screen, StringComparison.Ordinal);
        Assert.Contains("you said true: not told", screen, StringComparison.Ordinal);
        Assert.Contains("could not be taken out", screen, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(80, 24)]
    [InlineData(200, 60)]
    public void An_octave_that_cannot_be_told_is_never_passed_in_silence(int width, int height)
    {
        string screen = Joined(Drawn(width, height, null, asAsked: true, "octave"));
        Assert.Contains("AS ASKED? yes, but the octave cannot be told", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("octave", Joined(Drawn(width, height, null, asAsked: true)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(80, 24, -22.0, "c; drift -22, vib. 5.4 /s")]
    [InlineData(80, 24, -122.0, "cents; drift -122")]
    [InlineData(80, 24, 3.0, "c; wander 18, vib. 5.4 /s")]
    [InlineData(200, 60, -22.0, "c; drift -22, vib. 5.4 /s")]
    public void Figures_and_axis_do_not_run_into_one_another(int width, int height, double drift, string unrest)
    {
        Canvas canvas = Drawn(width, height, null, drift: drift);
        foreach (int row in new[] { 8, 16 })
        {
            Assert.StartsWith($"  {unrest}", canvas.Row(row), StringComparison.Ordinal);
        }

        Assert.Matches(@"^ .* 0  .* 8 s$", canvas.Row(16));
    }

    [Fact]
    public void As_asked_says_in_what()
    {
        string screen = Joined(Drawn(80, 24, null, asAsked: true, met: "drift"));
        Assert.Contains("AS ASKED? yes: drift", screen, StringComparison.Ordinal);
    }

    /// <summary>P 1 c and S 3 c high of a just fifth on Bb2: 3 x 116.54 Hz x (2^(3/1200) - 2^(1/1200)) = 0.4 a second (exact), however far S swings about its centre.</summary>
    [Fact]
    public void Beats_agree_with_the_offsets_beside_them_and_say_how_far_they_went()
    {
        JudgedTake swinging = LogRig.Judged(new SimulatedTone { OffsetCents = 1 }, new SimulatedTone { OffsetCents = 3, SpreadCents = 25 });
        Assert.Matches(@"^0\.[0-9] /s, up to ([5-9]\.\d|1\d) /s$", RevealView.BeatsInShort(swinging));
        JudgedTake held = LogRig.Judged(new SimulatedTone { OffsetCents = 1 }, new SimulatedTone { OffsetCents = 3 });
        Assert.Equal("0.4 /s", RevealView.BeatsInShort(held));
        Assert.InRange(RevealView.BeatsInShort(swinging).Length, 1, 20);
    }

    [Theory]
    [InlineData(80, 24, -32.0)]
    [InlineData(80, 24, -0.4)]
    [InlineData(120, 40, -0.4)]
    public void Where_no_drone_sounded_none_is_spoken_of(int width, int height, double leftDb)
    {
        JudgedTake judged = LogRig.Judged() with { Exercise = new TakeOptions(Drone: DroneUse.Silent).Apply(ShippedExercises.Resolve("open-home-pair")), Drone = new DroneInTake(true, -12, leftDb) };
        using var rig = new StandRig();
        var canvas = new Canvas(width, height);
        RevealView.Draw(canvas, rig.Stand, judged, null);
        Assert.DoesNotContain("drone", Joined(canvas), StringComparison.OrdinalIgnoreCase);
        Assert.Contains("a tone like it", Joined(canvas), StringComparison.Ordinal);
        Assert.DoesNotContain("drone", judged.Drone!.Words(judged.HasDrone), StringComparison.OrdinalIgnoreCase);
        Assert.StartsWith("drone", judged.Drone!.Words(hasDrone: true), StringComparison.Ordinal);
    }

    private static Canvas Drawn(int width, int height, DroneInTake? drone, bool asAsked = false, string? untold = null, double drift = -22, string? met = null)
    {
        using var rig = new StandRig();
        ResolvedExercise exercise = ShippedExercises.Resolve("open-home-pair");
        var tone = new JudgedTone(VoiceRole.Played, 31, 18, drift, 5.4, 30, 0.2, 8, 8);
        var result = new TakeResult(
            exercise.Exercise.Id, Grade.II, asAsked, Grade.I,
            [
                .. untold is null ? Array.Empty<Finding>() : [new Finding("hold", untold, VoiceRole.Sung, Verdict.NotTold, Fault.None, null, null, "c", null, "which one cannot be told")],
                .. met is null ? Array.Empty<Finding>() : [new Finding("hold", met, VoiceRole.Sung, Verdict.Met, Fault.None, 3, 15, "c", Grade.III, "as asked")],
                new Finding("hold", "offset", VoiceRole.Played, Verdict.Missed, Fault.Offset, 31, 15, "c", Grade.I, "P stood 31 c high"),
            ],
            tone, tone with { Role = VoiceRole.Sung }, new JudgedPair(3.7, 0, 8, 12, 8, 0), new Window(2.4, 3.4), LongAdvice);
        var judged = new JudgedTake(exercise, 1, new RecordedTake([], 48000, 0), [], result) { Drone = drone };
        var canvas = new Canvas(width, height);
        RevealView.Draw(canvas, rig.Stand, judged, new Saying(SaidPitch.True, SaidPitch.Low, SaidPair.Still, SaidLine.Held, Sureness.Certain));
        return canvas;
    }

    private static string Joined(Canvas canvas) => string.Join(' ', canvas.ToString().Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
}
