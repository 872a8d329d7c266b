using System.Text.RegularExpressions;
using BrassVox.Analysis;
using BrassVox.App.Cli;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>What the program sounds during a take must never be judged as the player.</summary>
public sealed partial class DroneInTakeTests
{
    private const double PlayedCents = 8;
    private const double SungCents = -12;

    [Fact]
    public void A_microphone_that_hears_only_the_loudspeaker_has_heard_no_player()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 0.5f);
        Assert.True(judged.Drone is { Bleeds: true, IsTakenOut: true }, judged.Drone?.ToString());
        Assert.Null(judged.Result.Played!.OffsetCents);
        Assert.Null(judged.Result.Sung!.OffsetCents);
        Assert.NotEqual(true, judged.Result.AsAsked);
    }

    [Fact]
    public void With_headphones_no_drone_is_found() => Assert.True(TakeThrough(loudspeaker: 0) is { Drone.Bleeds: false });

    [Fact]
    public void A_sound_in_the_cue_does_not_hide_the_drone()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 0.5f, cueNoise: 0.5f);
        Assert.True(judged.Drone is { Bleeds: true }, judged.Drone?.ToString());
        Assert.NotEqual(true, judged.Result.AsAsked);
    }

    [Fact]
    public void Where_the_drone_stays_in_but_leaves_half_way_what_the_player_does_alone_is_judged()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 1, jumps: true, player: 0.3f);
        Assert.True(judged.Drone is { Bleeds: true, IsTakenOut: false, IsTrusted: true }, judged.Drone?.ToString());
        Assert.InRange(judged.Drone!.AloneSeconds!.Value, 2.5, 3.1);
        Assert.Equal(8, judged.Drone.AskedSeconds!.Value, 1);
        Assert.Equal(PlayedCents, judged.Result.Played!.OffsetCents!.Value, 2.0);
        Assert.Equal(SungCents, judged.Result.Sung!.OffsetCents!.Value, 2.0);

        // Nothing measured reaches back to where the drone sounded: it leaves at 4 s, and its release and the way back follow.
        Assert.All(judged.Frames, frame => Assert.True(frame.CentreSeconds - judged.Recorded.StartSeconds > 4.9));
        Assert.True(judged.Result.BestSecond is not { FromSeconds: < 4.9 });
        Finding first = judged.Result.Findings[0];
        Assert.Equal((Fault.Bleed, Verdict.NotTold), (first.Fault, first.Verdict));
        Assert.Contains("Judged is what you did after it had left", first.Text, StringComparison.Ordinal);
        Assert.All(judged.Result.Findings.Where(finding => finding.Criterion is "arrival" or "drift"), finding => Assert.Equal(Verdict.NotTold, finding.Verdict));
        Assert.All(judged.Result.Findings.Where(finding => finding.Criterion is "offset" or "spread" or "heard"), finding => Assert.Equal(Verdict.Met, finding.Verdict));
        Assert.Empty(judged.Result.DroneComparisons);
        Assert.Contains("bleeds", ExerciseText.Result(judged, []), StringComparison.Ordinal);

        // The voice sang all along, as far as anybody knows.
        Assert.Equal(8, PracticeSpell.Of(Record(judged)).SungSeconds, 1);
    }

    [Fact]
    public void A_drone_that_stays_in_and_leaves_nobody_is_not_taken_for_a_player()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 1, jumps: true);
        Assert.True(judged.Drone is { Bleeds: true, IsTakenOut: false }, judged.Drone?.ToString());
        Assert.Null(judged.Result.Played!.OffsetCents);
        Assert.Null(judged.Result.Sung!.OffsetCents);
        Assert.NotEqual(true, judged.Result.AsAsked);
    }

    [Fact]
    public void A_drone_that_stays_to_the_end_leaves_no_figure_on_the_command_line()
    {
        JudgedTake judged = TakeThrough(loudspeaker: 1, jumps: true, player: 0.3f, drone: DroneUse.Throughout);
        Assert.True(judged.Drone is { Bleeds: true, IsTrusted: false }, judged.Drone?.ToString());
        Assert.Null(judged.Result.AsAsked);
        Assert.Empty(judged.Frames);
        string text = ExerciseText.Result(judged, []);
        Assert.Contains("bleeds", text, StringComparison.Ordinal);
        Assert.Contains("headphones", text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("nothing could be told", text, StringComparison.Ordinal);
        Assert.DoesNotMatch(CentsPattern(), text);
        Assert.DoesNotContain("offset", text, StringComparison.Ordinal);

        // In JSON nothing of a pitch, an interval or a beat is left.
        TakeResult kept = Record(judged).Result;
        Assert.True(kept.Played is { OffsetCents: null, SpreadCents: null, DriftCents: null, VibratoCents: null, OnsetSeconds: null, HeardSeconds: 0 });
        Assert.True(kept.Sung is { OffsetCents: null, SpreadCents: null, DriftCents: null, VibratoCents: null, OnsetSeconds: null, HeardSeconds: 0 });
        Assert.True(kept.Pair is { MedianBeatsPerSecond: null, IntervalErrorCents: null, SeparableSeconds: 0, FogSeconds: 0 });
        Assert.Equal("bleed", Assert.Single(kept.Findings).Criterion);
        Assert.Null(kept.BestSecond);
        Assert.Contains("\"bleeds\": true", Record(judged).ToJson(indented: true), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 1, 3.0)]
    [InlineData(0.5, 1, 2.5)]
    [InlineData(3.6, 0, 0)]
    public void Alone_is_what_follows_the_last_sound_by_the_way_back_and_the_room(double wayBack, int stretches, double seconds)
    {
        const int Rate = 8000;
        float[] sent = new float[8 * Rate];
        Array.Fill(sent, 0.1f, 0, 4 * Rate);
        IReadOnlyList<Window> alone = DroneInTake.Alone(sent, sent.Length, Rate, wayBack);
        Assert.Equal(stretches, alone.Count);
        Assert.Equal(seconds, alone.Sum(window => window.ToSeconds - window.FromSeconds), 2);
    }

    [GeneratedRegex(@"[0-9] c\b")]
    private static partial Regex CentsPattern();

    private static TakeRecord Record(JudgedTake judged) => TakeRecord.Of(judged, null, "take", "take.wav", DateTimeOffset.UnixEpoch, withFrames: true);

    [Theory]
    [InlineData(1.5, 480)]
    [InlineData(2, 2000)]
    public void A_drone_that_keeps_no_phase_over_the_take_is_found_between_the_jumps(double everySeconds, int farthest)
    {
        JudgedTake judged = TakeThrough(loudspeaker: 1, jumps: true, everySeconds: everySeconds, farthest: farthest);
        Assert.True(judged.Drone is { Bleeds: true, IsTakenOut: false }, judged.Drone?.ToString());
        Assert.Null(judged.Result.Played!.OffsetCents);
        Assert.Null(judged.Result.Sung!.OffsetCents);
        Assert.NotEqual(true, judged.Result.AsAsked);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1.5)]
    public void A_player_in_headphones_near_the_drone_is_never_taken_for_it(double cents)
    {
        JudgedTake judged = TakeThrough(loudspeaker: 0, player: 0.3f, wander: 2, played: cents, sung: -cents);
        Assert.True(judged.Drone is { Bleeds: false }, judged.Drone?.ToString());
        Assert.Equal(cents, judged.Result.Played!.OffsetCents!.Value, 1.5);
    }

    // A path that jumps: now and then the delay changes, as where a line drops and doubles blocks. No one filter follows it.
    private static JudgedTake TakeThrough(
        float loudspeaker, float cueNoise = 0, bool jumps = false, float player = 0, DroneUse drone = DroneUse.Planned, double everySeconds = 2, int farthest = 48,
        double wander = 0, double played = PlayedCents, double sung = SungCents)
    {
        const int DelaySamples = 960;
        ResolvedExercise resolved = new TakeOptions(Drone: drone).Apply(ShippedExercises.Resolve("open-home-pair"));
        var offline = new OfflineEngine();
        var session = new PlayAlongSession(
            resolved, offline.Engine, (rate, prior) => new DuetTracker(rate, prior), new PlayAlongOptions(OfflineEngine.SampleRateHz, OfflineEngine.SampleRateHz));
        session.Begin();
        Random room = new(11);
        List<float> sent = [.. new float[4 * DelaySamples]];
        float[] block = new float[OfflineEngine.BlockSamples];
        float[] heard = new float[OfflineEngine.BlockSamples];
        int delay = DelaySamples;
        int nextJump = 0;
        int at = 0;
        while (session.Phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark)
        {
            offline.Engine.Render(block);
            session.HearSent(block);
            sent.AddRange(block);
            for (int i = 0; i < block.Length; i++, at++)
            {
                if (jumps && at >= nextJump)
                {
                    delay = Math.Clamp(DelaySamples + room.Next(-farthest, farthest), 1, (4 * DelaySamples) - 1);
                    nextJump = at + (int)(everySeconds * OfflineEngine.SampleRateHz * (0.5 + room.NextDouble()));
                }

                float noise = (session.Phase == PlayAlongPhase.Cue ? Math.Max(1e-4f, cueNoise) : 1e-4f) * (float)((2 * room.NextDouble()) - 1);
                double both = Tone(resolved.Pair.PlayedHz, played, wander, at) + Tone(resolved.Pair.SungHz, sung, wander, at + 7000);
                float alone = session.Phase == PlayAlongPhase.Dark ? player * (float)both : 0;
                heard[i] = (loudspeaker * sent[sent.Count - block.Length + i - delay]) + noise + alone;
            }

            session.Hear(heard);
            session.Poll();
        }

        return session.Measuring!.GetAwaiter().GetResult();
    }

    // Eight partials that fall by 6 dB an octave; the pitch swings slowly by some cents to each side, 0.7 times a second.
    private static double Tone(double hz, double cents, double wander, int sample)
    {
        const double SwingHz = 0.7;
        double seconds = (double)sample / OfflineEngine.SampleRateHz;
        double swing = Math.Log(2) / 1200 * wander / (Math.Tau * SwingHz) * (1 - Math.Cos(Math.Tau * SwingHz * seconds));
        double phase = Math.Tau * hz * ((Math.Pow(2, cents / 1200) * seconds) + swing);
        double sum = 0;
        for (int n = 1; n <= 8; n++)
        {
            sum += Math.Sin((n * phase) + n) / n;
        }

        return 0.2 * sum;
    }
}
