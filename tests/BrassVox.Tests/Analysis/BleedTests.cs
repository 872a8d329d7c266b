using BrassVox.Analysis;
using BrassVox.Analysis.Bleed;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>A drone on Bb2 mixed in at 0 dB through a seeded room of 100 ms; truth is what was mixed.</summary>
public sealed class BleedTests
{
    private const int Rate = 8_000;
    private const double BFlat2 = 116.5409;
    private const double F3 = 174.6141;
    private const double Seconds = 8;

    public static TheoryData<double, double> Players => new()
    {
        { 146.8324, 0 },
        { F3, 0 },
        { 233.0819, 0 },
        { 117.2160, 0 },
        { BFlat2, 0 },
        { BFlat2, 1.5 },
    };

    [Theory]
    [MemberData(nameof(Players))]
    public void Bleed_under_a_player_is_detected_and_its_absence_too(double playerHz, double fromSeconds)
    {
        float[] drone = WanderingPlayer.Drone(Rate, Seconds, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        float[] player = Player(playerHz, WanderingPlayer.Rms(bleed), fromSeconds);

        BleedReading with = BleedCheck.Measure(drone, Sum(bleed, player), Rate);
        BleedReading without = BleedCheck.Measure(drone, player, Rate);

        Assert.True(with.Bleeds);
        Assert.InRange(with.ShareDb, -5, 0);
        Assert.False(without.Bleeds);
    }

    [Fact]
    public void Two_seconds_of_drone_alone_are_enough_to_detect_bleed()
    {
        float[] drone = WanderingPlayer.Drone(Rate, 2, BFlat2, 14, 0.1);
        float[] noise = WanderingPlayer.Noise(drone.Length, 1e-3, 4);

        Assert.True(BleedCheck.Measure(drone, Sum(Bleed(drone), noise), Rate).Bleeds);
        Assert.False(BleedCheck.Measure(drone, noise, Rate).Bleeds);
        Assert.False(BleedCheck.Measure(drone, new float[drone.Length], Rate).Bleeds);
        Assert.False(BleedCheck.Measure(new float[drone.Length], noise, Rate).Bleeds);
        Assert.False(BleedCheck.Measure(drone.AsSpan(0, Rate), noise, Rate).Bleeds);
    }

    [Theory]
    [InlineData(7)]
    [InlineData(12)]
    public void Faint_bleed_under_another_note_is_detected(int semitones)
    {
        float[] drone = WanderingPlayer.Drone(Rate, 3, BFlat2, 14, 0.1);
        float[] player = WanderingPlayer.Tone(Rate, 3, BFlat2 * Math.Pow(2, semitones / 12.0), 12, 0.8, 0.1, 8);
        float[] bleed = [.. Bleed(drone).Select(v => v * 0.03f)];

        BleedReading reading = BleedCheck.Measure(drone, Sum(bleed, player), Rate);

        Assert.True(reading.Bleeds);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(1.25)]
    [InlineData(1.5)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_rock_steady_player_in_tune_is_no_bleed(double ratio)
    {
        float[] drone = WanderingPlayer.Drone(Rate, 3, BFlat2, 14, 0.1);
        float[] player = WanderingPlayer.Drone(Rate, 3, BFlat2 * ratio, 12, 0.1);
        Assert.False(BleedCheck.Measure(drone, player, Rate).Bleeds);
    }

    [Fact]
    public void No_false_detection_over_many_players()
    {
        float[] drone = WanderingPlayer.Drone(Rate, 3, BFlat2, 14, 0.1);
        for (int seed = 0; seed < 40; seed++)
        {
            double hz = BFlat2 * Math.Pow(2, seed % 25 / 12.0);
            float[] player = WanderingPlayer.Tone(Rate, 3, hz, 8, 0.8, 0.1, seed);
            Assert.False(BleedCheck.Measure(drone, player, Rate).Bleeds, $"seed {seed}, {hz:F1} Hz");
        }
    }

    [Theory]
    [MemberData(nameof(Players))]
    public void A_filter_learned_from_the_drone_alone_takes_20_dB_away_whatever_is_played(double playerHz, double fromSeconds)
    {
        float[] drone = WanderingPlayer.Drone(Rate, Seconds, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        float[] player = Player(playerHz, WanderingPlayer.Rms(bleed), fromSeconds);
        int alone = 2 * Rate;

        BleedFilter filter = BleedFilter.Learn(
            drone.AsSpan(0, alone), Sum(bleed, WanderingPlayer.Noise(bleed.Length, 1e-4, 9)).AsSpan(0, alone), Rate)!;
        float[] clean = filter.Clean(drone, Sum(bleed, player));

        double leftDb = LeftDb(clean, player, bleed);
        Assert.InRange(leftDb, -200, -20);
        Assert.InRange(filter.LeftDb, -200, -20);
    }

    [Fact]
    public void The_player_is_then_measured_within_5_cents_and_the_drone_no_longer()
    {
        float[] drone = WanderingPlayer.Drone(Rate, Seconds, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        float[] player = Player(F3, WanderingPlayer.Rms(bleed), 0);
        float[] mixed = Sum(bleed, player);
        AnalysisFrame[] truth = Track(player);

        // Learned under the player, from the take itself.
        BleedFilter filter = BleedFilter.Learn(drone, mixed, Rate)!;
        float[] clean = filter.Clean(drone, mixed);
        AnalysisFrame[] measured = Track(clean);

        Assert.InRange(LeftDb(clean, player, bleed), -200, -20);
        Assert.All(measured.Zip(truth), pair =>
            Assert.InRange(Cents(pair.First.Played) - Cents(pair.Second.Played), -5, 5));
        Assert.InRange(Track(mixed).Count(frame => frame.Sung is not null), 0.95 * measured.Length, measured.Length);
        Assert.All(measured, frame => Assert.Null(frame.Sung));
    }

    [Fact]
    public void Remains_of_the_drone_are_not_taken_for_a_player()
    {
        float[] drone = WanderingPlayer.Drone(Rate, 4, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        float[] player = WanderingPlayer.Tone(Rate, 4, F3, 12, 0.8, 0.05, 3, fromSeconds: 2);
        float[] mixed = Sum(bleed, player);

        float[] clean = BleedFilter.Learn(drone, mixed, Rate)!.Clean(drone, mixed, silentBelowDb: -12);

        Assert.Equal(0, WanderingPlayer.Rms(clean.AsSpan(Rate / 2, Rate)));
        Assert.Equal(WanderingPlayer.Rms(player.AsSpan(5 * Rate / 2)), WanderingPlayer.Rms(clean.AsSpan(5 * Rate / 2)), 0.005);
    }

    [Fact]
    public void What_is_left_is_told_within_8_dB_and_never_10_dB_too_well()
    {
        float[] drone = WanderingPlayer.Drone(Rate, Seconds, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        foreach (double hz in new[] { 146.8324, F3, 117.2160, BFlat2 })
        {
            float[] player = Player(hz, WanderingPlayer.Rms(bleed), 0);
            BleedFilter filter = BleedFilter.Learn(drone, Sum(bleed, player), Rate)!;
            double truth = LeftDb(filter.Clean(drone, Sum(bleed, player)), player, bleed);
            Assert.InRange(filter.LeftDb - truth, -10, 8);
        }
    }

    [Fact]
    public void Streamed_in_any_blocks_the_result_is_the_same_and_nothing_is_allocated()
    {
        float[] drone = WanderingPlayer.Drone(Rate, 2, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        BleedFilter filter = BleedFilter.Learn(drone, bleed, Rate, delaySamples: 80)!;
        float[] expected = filter.Clean(drone, bleed);
        var canceller = new BleedCanceller(filter, 256);
        float[] streamed = new float[bleed.Length];
        int[] blocks = [0, 1, 77, 512, 1000];
        Assert.Equal(0, Allocated.Least(() =>
        {
            canceller.Reset();
            for (int at = 0, i = 0; at < bleed.Length; i++)
            {
                int count = Math.Min(blocks[i % blocks.Length], bleed.Length - at);
                canceller.Clean(drone.AsSpan(at, count), bleed.AsSpan(at, count), streamed.AsSpan(at, count));
                at += count;
            }
        }));
        for (int n = 0; n < bleed.Length - canceller.LatencySamples; n++)
        {
            Assert.Equal(expected[n], streamed[n + canceller.LatencySamples], 1e-5);
        }
    }

    [Fact]
    public void Broken_samples_and_short_takes_do_no_harm()
    {
        float[] drone = WanderingPlayer.Drone(Rate, 2, BFlat2, 14, 0.1);
        float[] bleed = Bleed(drone);
        bleed[2500] = float.NaN;
        bleed[4500] = float.PositiveInfinity;

        BleedFilter filter = BleedFilter.Learn(drone, bleed, Rate)!;
        Assert.All(filter.Clean(drone, bleed), v => Assert.True(float.IsFinite(v)));
        Assert.Null(BleedFilter.Learn(drone.AsSpan(0, 100), bleed, Rate));
        Assert.Null(BleedFilter.Learn(new float[2 * Rate], bleed, Rate));
        Assert.Null(BleedFilter.Learn(drone, bleed, Rate, delaySamples: 3 * Rate));
    }

    private static float[] Bleed(float[] sent) => new SimulatedRoom(Rate, 160, 0.1, 7).Heard(sent);

    private static float[] Player(double hz, double rms, double fromSeconds) =>
        WanderingPlayer.Tone(Rate, Seconds, hz, 12, 0.8, rms, 3, fromSeconds);

    private static float[] Sum(float[] a, float[] b) => [.. a.Zip(b, (x, y) => x + y)];

    private static double LeftDb(float[] clean, float[] player, float[] bleed)
    {
        int settled = Rate / 2;
        float[] rest = [.. clean.Zip(player, (a, b) => a - b)];
        return 20 * Math.Log10(WanderingPlayer.Rms(rest.AsSpan(settled)) / WanderingPlayer.Rms(bleed.AsSpan(settled)));
    }

    /// <summary>The drone sings Bb2, the player plays F3: what an exercise declares.</summary>
    private static AnalysisFrame[] Track(float[] take)
    {
        var tracker = new DuetTracker(Rate, DuetPrior.Held(F3, BFlat2));
        List<AnalysisFrame> frames = [];
        tracker.Push(take, frames);
        return [.. frames.Where(f => f.CentreSeconds is > 1 and < 7)];
    }

    private static double Cents(PitchEstimate? tone) => 1200 * Math.Log2(tone!.Value.FrequencyHz / F3);
}
