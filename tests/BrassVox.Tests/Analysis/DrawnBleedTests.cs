using BrassVox.Analysis.Bleed;
using BrassVox.Analysis.RoundTrip;
using BrassVox.Analysis.Transforms;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Ways from loudspeaker to microphone that were drawn, a few taps long, at 8 kHz: what is learned, found and measured of them. No outside source but where one is named.</summary>
public sealed class DrawnBleedTests
{
    private const int Rate = 8_000;

    private static float[] Noise(int count, double rms, int seed) => TestTone.Noise(Rate, (count + 0.5) / Rate, rms, seed);

    // A drone of harmonics of 110 Hz, each fourth of the power of the one before.
    private static float[] Drone(double seconds, double hz = 110, int partials = 6) =>
        [.. Enumerable.Range(0, (int)(seconds * Rate)).Select(n => (float)Enumerable.Range(1, partials).Sum(k => 0.2 * Math.Pow(2, -k) * Math.Cos((2 * Math.PI * k * hz * n / Rate) + (k * k))))];

    private static float[] Through(float[] sent, params (int Delay, double Gain)[] ways)
    {
        float[] heard = new float[sent.Length];
        foreach ((int delay, double gain) in ways)
        {
            for (int n = delay; n < heard.Length; n++)
            {
                heard[n] += (float)(gain * sent[n - delay]);
            }
        }

        return heard;
    }

    private static float[] Sum(params float[][] parts) => TestTone.Sum(parts);

    private static double Power(ReadOnlySpan<float> samples)
    {
        double sum = 0;
        foreach (float x in samples)
        {
            sum += (double)x * x;
        }

        return sum / samples.Length;
    }

    /// <summary>Through white noise the way is learned tap by tap; it takes the noise out again wholly.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(7)]
    public void A_way_is_learned_tap_by_tap(int delay)
    {
        float[] sent = Noise(2 * Rate, 0.1, 1);
        float[] heard = Through(sent, (7, 0.5), (20, -0.25), (61, 0.1));
        BleedFilter filter = BleedFilter.Learn(sent, heard, Rate, delay, 0.01)!;
        Assert.Equal((Rate, delay, 80), (filter.SampleRateHz, filter.DelaySamples, filter.Coefficients.Length));
        for (int i = 0; i < 80; i++)
        {
            Assert.Equal((i + delay) switch { 7 => 0.5, 20 => -0.25, 61 => 0.1, _ => 0 }, filter.Coefficients[i], 0.002);
        }

        // 0.1 rms through taps of 0.5, 0.25 and 0.1.
        Assert.Equal(10 * Math.Log10(0.01 * (0.25 + 0.0625 + 0.01)), filter.BleedDbfs, 0.15);
        Assert.InRange(filter.LeftDb, -200, -40);
        float[] clean = filter.Clean(sent, heard);
        Assert.Equal(heard.Length, clean.Length);
        Assert.InRange(10 * Math.Log10(Power(clean) / Power(heard)), -200, -40);

        // A player stays; what was not finite is silence; beyond the end of what was sent nothing is taken.
        float[] player = Drone(2, 146.8);
        float[] mixed = Sum(heard, player);
        mixed[5_000] = float.NaN;
        clean = filter.Clean(sent, mixed);
        Assert.Equal(0, clean[5_000]);
        Assert.All(Enumerable.Range(100, 4_800), n => Assert.Equal(player[n], clean[n], 0.02));
        clean = filter.Clean(sent.AsSpan(0, 8_000), mixed);
        Assert.All(Enumerable.Range(8_100, 500), n => Assert.Equal(mixed[n], clean[n], 1e-6));
        Assert.Equal(mixed[..50], filter.Clean([], mixed)[..50]);
    }

    /// <summary>In unrelated noise as loud as the bleed, what would be left is told within 2 dB of what is: the error of the taps times what was sent.</summary>
    [Fact]
    public void What_is_left_is_told_from_two_halves()
    {
        float[] sent = Noise(3 * Rate, 0.1, 1);
        float[] bleed = Through(sent, (7, 0.5), (20, -0.25));
        BleedFilter filter = BleedFilter.Learn(sent, Sum(bleed, Noise(sent.Length, 0.05, 2)), Rate, 0, 0.02)!;
        double error = 0;
        for (int i = 0; i < 160; i++)
        {
            error += Math.Pow(filter.Coefficients[i] - (i == 7 ? 0.5 : i == 20 ? -0.25 : 0), 2);
        }

        Assert.Equal(10 * Math.Log10(error / 0.3125), filter.LeftDb, 2.0);
        Assert.InRange(filter.LeftDb, -30, -10);

        // Where nothing was sent through, nothing is gained.
        Assert.Equal((-200.0, 0.0), (BleedFilter.Learn(sent, new float[sent.Length], Rate)!.BleedDbfs, BleedFilter.Learn(sent, new float[sent.Length], Rate)!.LeftDb));
        Assert.True(BleedFilter.Learn(sent, Noise(sent.Length, 0.05, 2), Rate, 0, 0.02)!.LeftDb > -6);
    }

    /// <summary>Stretches of 50 ms in which less remains than so much under the bleed are silenced.</summary>
    [Fact]
    public void Remains_are_hushed_stretch_by_stretch()
    {
        float[] sent = Noise(2 * Rate, 0.1, 1);
        float[] heard = Through(sent, (7, 0.5));
        BleedFilter filter = BleedFilter.Learn(sent, heard, Rate, 0, 0.01)!;

        // The player comes in after a second, 26 dB under the bleed; for half a second more 6 dB under it.
        float[] player = Noise(2 * Rate, 0.0025, 4);
        Array.Clear(player, 0, Rate);
        for (int n = 12_000; n < player.Length; n++)
        {
            player[n] *= 10;
        }

        float[] clean = filter.Clean(sent, Sum(heard, player), -16);
        Assert.Equal(0, Power(clean.AsSpan(0, 12_000)));
        Assert.Equal(player[15_000], clean[15_000], 0.001);
        Assert.True(Power(clean.AsSpan(12_000, 400)) > 0);
        Assert.True(Power(clean.AsSpan(15_600, 400)) > 0);
        Assert.True(Power(filter.Clean(sent, Sum(heard, player), -36).AsSpan(8_000, 400)) > 0);
    }

    [Fact]
    public void A_second_is_the_least_that_is_learned_from()
    {
        float[] sent = Noise(9_000, 0.1, 1);
        Assert.NotNull(BleedFilter.Learn(sent.AsSpan(0, 8_000), sent, Rate, 0, 0.01));
        Assert.Null(BleedFilter.Learn(sent.AsSpan(0, 7_999), sent, Rate, 0, 0.01));
        Assert.NotNull(BleedFilter.Learn(sent, sent, Rate, 1_000, 0.01));
        Assert.Null(BleedFilter.Learn(sent, sent, Rate, 1_001, 0.01));
        Assert.Null(BleedFilter.Learn(new float[9_000], sent, Rate, 0, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedFilter.Learn(sent, sent, 7_999));
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedFilter.Learn(sent, sent, Rate, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedFilter.Learn(sent, sent, Rate, 0, 0.0099));
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedFilter.Learn(sent, sent, Rate, 0, 0.501));
        Assert.NotNull(BleedFilter.Learn(sent, sent, Rate, 0, 0.5));
    }

    /// <summary>While it runs a canceller gives what the whole recording would, a block late.</summary>
    [Theory]
    [InlineData(0, 64)]
    [InlineData(7, 64)]
    [InlineData(7, 1024)]
    public void A_canceller_does_the_same_a_block_late(int delay, int block)
    {
        float[] sent = Noise(8_100, 0.1, 1);
        float[] heard = Sum(Through(sent, (7, 0.5), (20, -0.25)), Drone(1.0125, 146.8));
        heard[4_000] = float.NaN;
        BleedFilter filter = BleedFilter.Learn(sent, Through(sent, (7, 0.5), (20, -0.25)), Rate, delay, 0.01)!;
        float[] expected = filter.Clean(sent, heard);
        BleedCanceller canceller = new(filter, block);
        Assert.Equal(block, canceller.LatencySamples);
        for (int round = 0; round < 2; round++)
        {
            float[] clean = new float[heard.Length];
            for (int start = 0; start < heard.Length; start += 333)
            {
                int count = Math.Min(333, heard.Length - start);
                canceller.Clean(sent.AsSpan(start, count), heard.AsSpan(start, count), clean.AsSpan(start, count));
            }

            Assert.All(Enumerable.Range(0, block), n => Assert.Equal(0, clean[n]));
            Assert.All(Enumerable.Range(block, heard.Length - block).Where(n => n != block + 4_000), n => Assert.Equal(expected[n - block], clean[n], 1e-6));
            canceller.Reset();
        }

        Assert.Throws<ArgumentException>(() => canceller.Clean(sent, heard.AsSpan(1), new float[8_099]));
        Assert.Throws<ArgumentException>(() => canceller.Clean(sent, heard, new float[8_099]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BleedCanceller(filter, 63));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BleedCanceller(filter, 65_537));
        Assert.Equal(65_536, new BleedCanceller(filter, 65_536).LatencySamples);
    }

    /// <summary>The bleed's share of the recording in dB: a player as loud leaves half, one of a third of its amplitude 0.9.</summary>
    [Theory]
    [InlineData(1.0, -3.01)]
    [InlineData(0.333, -0.46)]
    [InlineData(3.0, -10.0)]
    public void The_share_of_the_bleed_is_told(double player, double shareDb)
    {
        float[] drone = Drone(4);
        float[] bleed = Through(drone, (30, 0.3));
        float[] noise = Noise(bleed.Length, player * Math.Sqrt(Power(bleed)), 3);
        BleedReading reading = BleedCheck.Measure(drone, Sum(bleed, noise), Rate);
        Assert.True(reading.Bleeds);
        Assert.Equal(shareDb, reading.ShareDb, 0.7);
        Assert.InRange(reading.LikenessShare, 0.6, 1);
        BleedReading alone = BleedCheck.Measure(drone, bleed, Rate, 30);
        Assert.True(alone.Bleeds);
        Assert.Equal(0, alone.ShareDb, 0.15);
        Assert.Equal(1, alone.LikenessShare, 0.001);
        reading = BleedCheck.Measure(drone, noise, Rate);
        Assert.False(reading.Bleeds);
    }

    /// <summary>Half of all partials have to follow, and half of the 1st, 3rd, 5th: where the even ones alone do, a player sits at the octave.</summary>
    [Fact]
    public void A_player_at_the_octave_is_no_bleed()
    {
        float[] drone = Drone(3, partials: 8);
        float[] octave = [.. Enumerable.Range(0, drone.Length).Select(n => (float)Enumerable.Range(1, 4).Sum(k => 0.2 * Math.Pow(2, -k) * Math.Cos(2 * Math.PI * k * 220 * n / Rate)))];
        Assert.False(BleedCheck.Measure(drone, Sum(octave, Noise(drone.Length, 0.001, 3)), Rate).Bleeds);
        Assert.True(BleedCheck.Measure(drone, Sum(octave, drone, Noise(drone.Length, 0.001, 3)), Rate).Bleeds);
    }

    [Fact]
    public void Two_seconds_are_the_least_that_is_judged()
    {
        float[] drone = Drone(2.5);
        Assert.True(BleedCheck.Measure(drone.AsSpan(0, 16_000), drone, Rate).Bleeds);
        Assert.Equal(new BleedReading(false, -200, 0), BleedCheck.Measure(drone.AsSpan(0, 15_999), drone, Rate));
        Assert.True(BleedCheck.Measure(drone, Through(drone, (2_000, 1.0)), Rate, 2_000).Bleeds);
        Assert.False(BleedCheck.Measure(drone, Through(drone, (5_000, 1.0)), Rate, 5_000).Bleeds);
        Assert.False(BleedCheck.Measure(drone, drone, Rate, drone.Length).Bleeds);
        Assert.False(BleedCheck.Measure(new float[20_000], drone, Rate).Bleeds);
        Assert.False(BleedCheck.Measure(drone, new float[20_000], Rate).Bleeds);
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedCheck.Measure(drone, drone, 7_999));
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedCheck.Measure(drone, drone, Rate, -1));
    }

    /// <summary>40 dB under the player is the faintest bleed that is told.</summary>
    [Theory]
    [InlineData(-36, true)]
    [InlineData(-44, false)]
    public void Fainter_than_40_dB_is_no_bleed(double db, bool bleeds)
    {
        float[] drone = Drone(4);

        // The player holds one loud line far from all partials.
        float[] player = [.. Enumerable.Range(0, drone.Length).Select(n => (float)(0.4 * Math.Cos(2 * Math.PI * 3_000 * n / Rate)))];
        float gain = (float)Math.Sqrt(Power(player) / Power(drone) * Math.Pow(10, db / 10));
        BleedReading reading = BleedCheck.Measure(drone, Sum([.. drone.Select(x => gain * x)], player), Rate);
        Assert.Equal(bleeds, reading.Bleeds);
        Assert.Equal(db, reading.ShareDb, 0.5);
    }

    /// <summary>Two lines: in their bins the recording follows wholly, in others not; all its power by Parseval.</summary>
    [Fact]
    public void Spectra_are_summed_over_pieces()
    {
        FourierPlan plan = new(400);
        CrossSpectrum cross = new(plan, 200);
        float[] sent = Drone(1, 200, 2);
        float[] heard = [.. Enumerable.Range(0, Rate).Select(n => (float)((0.05 * Math.Cos((2 * Math.PI * 200 * n / Rate) + 0.5)) + (0.02 * Math.Cos(2 * Math.PI * 1_003 * n / Rate))))];
        for (int piece = 0; piece < 20; piece++)
        {
            cross.Add(sent.AsSpan(400 * piece, 400), heard.AsSpan(400 * piece, 400));
        }

        // A Hann window over 400 samples gives a line of amplitude A the power (A / 4 x 400)^2 in its bin.
        Assert.Equal(20 * Math.Pow(0.1 / 4 * 400, 2), cross.ReferencePower[10], 1e-3);
        Assert.Equal(20 * Math.Pow(0.05 / 4 * 400, 2), cross.FollowedPower(10), 1e-3);
        Assert.Equal(1, cross.Coherence(10), 1e-6);
        Assert.Equal(20 * Math.Pow(0.05 / 4 * 400, 2), cross.FollowedPower(20) + (20 * Math.Pow(0.05 / 4 * 400, 2)), 0.01);
        Assert.InRange(cross.Coherence(20), 0, 0.05);

        // Half of all: the other half lies in the mirrored bins. A window's square is 3/8 on the mean.
        Assert.Equal(20 * 0.5 * 400 * 400 * 0.375 * 0.5 * (0.0025 + 0.0004), cross.HeardTotal, 0.01 * cross.HeardTotal);
        CrossSpectrum silent = new(plan, 200);
        silent.Add(new float[400], heard.AsSpan(0, 400));
        Assert.Equal((0.0, 0.0), (silent.Coherence(10), silent.FollowedPower(10)));
        CrossSpectrum broken = new(plan, 200);
        broken.Add([.. Enumerable.Repeat(float.NaN, 400)], [.. Enumerable.Repeat(float.PositiveInfinity, 400)]);
        Assert.Equal((0.0, 0.0), (broken.HeardTotal, broken.ReferencePower[10]));
    }

    /// <summary>A path that follows all the time, half of it, not at all, and one whose delay jumps each second.</summary>
    [Fact]
    public void The_share_of_the_time_that_is_followed()
    {
        float[] drone = Drone(4);
        float[] noise = Noise(drone.Length, 0.02, 5);
        Assert.Equal(1, BleedCheck.FollowedShare(drone, Sum(drone, [.. noise.Select(x => x * 0.01f)]), Rate));
        Assert.InRange(BleedCheck.FollowedShare(drone, noise, Rate), 0, 0.15);
        float[] half = Sum([.. drone.Take(16_000), .. new float[16_000]], [.. noise.Select(x => x * 0.1f)]);
        Assert.Equal(0.5, BleedCheck.FollowedShare(drone, half, Rate), 0.1);
        float[] jumping = [.. Enumerable.Range(0, drone.Length).Select(n => drone[Math.Max(0, n - (17 * (n / Rate)))])];
        Assert.InRange(BleedCheck.FollowedShare(drone, jumping, Rate), 0.7, 1);

        // Pauses in what was sent do not count; four stretches are the fewest, five quarters of a second.
        float[] paused = [.. drone.Take(16_000), .. new float[16_000]];
        Assert.Equal(1, BleedCheck.FollowedShare(paused, paused, Rate));
        Assert.Equal(1, BleedCheck.FollowedShare(drone, drone.AsSpan(0, 10_000), Rate));
        Assert.Equal(0, BleedCheck.FollowedShare(drone, drone.AsSpan(0, 9_999), Rate));
        Assert.Equal(0, BleedCheck.FollowedShare([], drone, Rate));
        Assert.Equal(0, BleedCheck.FollowedShare(new float[32_000], drone, Rate));
        Assert.Throws<ArgumentOutOfRangeException>(() => BleedCheck.FollowedShare(drone, drone, 7_999));
    }

    private static readonly DelayProbe Probe = new(Rate);

    private static float[] Heard(params (int Delay, double Gain)[] ways) => Through([.. Probe.Signal.Span, .. new float[Rate]], ways);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(517)]
    [InlineData(3_990)]
    public void A_delay_is_found_to_the_sample(int delay)
    {
        DelayReading reading = Probe.Measure(Heard((delay, 0.5)));
        Assert.True(reading.Found);
        Assert.Equal(delay, reading.DelaySamples, 0.02);
        Assert.Equal(0, reading.SpreadSamples, 0.01);
        Assert.Equal(1, reading.Confidence, 1e-6);

        // Half way between two samples.
        if (delay == 517)
        {
            Assert.Equal(517.5, Probe.Measure(Heard((517, 0.5), (518, 0.5))).DelaySamples, 0.1);
        }
    }

    /// <summary>What comes first counts when it holds a fifth of the strongest one's power and comes up to 30 ms earlier.</summary>
    [Theory]
    [InlineData(0.6, 80, 500)]
    [InlineData(0.35, 80, 580)]
    [InlineData(0.6, 230, 500)]
    [InlineData(0.6, 250, 750)]
    public void The_first_arrival_counts(double first, int later, double delay) =>
        Assert.Equal(delay, Probe.Measure(Heard((500, first), (500 + later, 1))).DelaySamples, 0.6);

    /// <summary>Two of three tones are enough; one is not. Tones that do not agree within 1 ms are told by their spread.</summary>
    [Fact]
    public void Two_tones_have_to_agree()
    {
        float[] heard = Heard((400, 0.5));
        float[] two = [.. heard];
        Array.Clear(two, 0, 3_000);
        DelayReading reading = Probe.Measure(two);
        Assert.Equal((true, 400.0, 0.667), (reading.Found, Math.Round(reading.DelaySamples, 1), Math.Round(reading.Confidence, 3)));
        Array.Clear(two, 0, 10_000);
        Assert.Equal(default, Probe.Measure(two));

        // The second comes 6 samples late (under 1 ms), 40 late, and the third another 40.
        reading = Probe.Measure([.. heard[..5_000], .. new float[6], .. heard[5_000..]]);
        Assert.Equal((true, 404.0, 6.0, 1.0), (reading.Found, Math.Round(reading.DelaySamples, 1), Math.Round(reading.SpreadSamples, 1), Math.Round(reading.Confidence, 3)));
        reading = Probe.Measure([.. heard[..5_000], .. new float[40], .. heard[5_000..]]);
        Assert.Equal((true, 440.0, 40.0, 0.667), (reading.Found, Math.Round(reading.DelaySamples, 1), Math.Round(reading.SpreadSamples, 1), Math.Round(reading.Confidence, 3)));
        reading = Probe.Measure([.. heard[..5_000], .. new float[40], .. heard[5_000..12_000], .. new float[40], .. heard[12_000..]]);
        Assert.Equal((false, 0.0, 80.0, 0.0), (reading.Found, reading.DelaySamples, Math.Round(reading.SpreadSamples, 1), reading.Confidence));
    }

    [Fact]
    public void A_probe_is_three_soft_rising_tones()
    {
        float[] signal = Probe.Signal.ToArray();
        Assert.Equal(18_000, signal.Length);
        Assert.Equal(0.1, signal.Max(Math.Abs), 0.002);
        Assert.Equal(1, new DelayProbe(Rate, -6).Signal.Span[600] / (signal[600] * Math.Pow(10, 14 / 20.0)), 1e-5);

        // From 0, 0.7 and 1.55 s, 0.15 s each; the first quarter lies lower than the last.
        foreach (int start in (int[])[0, 5_600, 12_400])
        {
            Assert.Equal(0, signal[start]);
            Assert.True(Power(signal.AsSpan(start + 160, 880)) > 0.004);
            Assert.Equal(0, Power(signal.AsSpan(start + 1_200, 500)));
            int Crossings(int from) => Enumerable.Range(from, 200).Count(n => signal[n] * signal[n + 1] < 0);

            // 300 Hz and 3,200 Hz, 0.4 of the rate: at 0.02 s 687 Hz, at 0.105 s 2,330 Hz, in 25 ms twice that many crossings.
            Assert.Equal(2 * (687 + 242) * 0.025, Crossings(start + 160), 4.0);
            Assert.Equal(2 * (2_330 + 242) * 0.025, Crossings(start + 840), 4.0);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => new DelayProbe(7_999));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DelayProbe(192_001));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DelayProbe(Rate, -60.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DelayProbe(Rate, -5.9));
        Assert.Equal(Rate, new DelayProbe(Rate, -60).SampleRateHz);
    }

    // What a path does: gains in dB over time, on the sounds of the input probe, 50 ms late.
    private static InputProcessingReading Path(Func<double, double> gainDb, double hiss = 1e-5, double all = 1)
    {
        InputProcessingProbe probe = new(Rate);
        float[] sent = [.. new float[400], .. probe.Signal.Span, .. new float[400]];
        float[] noise = Noise(sent.Length, hiss, 3);
        return probe.Measure([.. sent.Select((x, n) => (float)((all * x * Math.Pow(10, gainDb((n - 400.0) / Rate) / 20)) + noise[n]))]);
    }

    /// <summary>Soft for 1.4 s, loud for 3, soft for 1.4, noise for 3.6: each gain is told in dB.</summary>
    [Fact]
    public void What_a_path_does_to_steady_sounds_is_told_in_dB()
    {
        InputProcessingReading plain = Path(_ => 0);
        Assert.Equal((true, 0.0, 0.0, 0.0), (plain.Heard, Math.Round(plain.LoudDriftDb, 1), Math.Round(plain.SoftChangeDb, 1) + 0.0, Math.Round(plain.NoiseDriftDb, 0) + 0.0));
        Assert.False(plain.IsGainTurned || plain.IsNoiseRemoved);
        InputProcessingReading turned = Path(t => t is > 3.5 and < 4.4 ? -3 : t is > 4.4 and < 5.8 ? 2 : t > 8 ? -7 : 0);
        Assert.Equal(-3, turned.LoudDriftDb, 0.05);
        Assert.Equal(2, turned.SoftChangeDb, 0.05);
        Assert.Equal(-7, turned.NoiseDriftDb, 0.5);
        Assert.True(turned.IsGainTurned && turned.IsNoiseRemoved);

        // What lies between the places that are looked at does not count.
        InputProcessingReading between = Path(t => t is (> 0 and < 0.45) or (> 1.0 and < 1.75) or (> 2.4 and < 3.9) or (> 4.5 and < 4.8) or (> 5.5 and < 6.1) or (> 6.8 and < 8.9) ? -20 : 0);
        Assert.False(between.IsGainTurned || between.IsNoiseRemoved, between.ToString());
    }

    [Theory]
    [InlineData(1.4, 0, 0, false, false)]
    [InlineData(1.6, 0, 0, true, false)]
    [InlineData(-1.6, 0, 0, true, false)]
    [InlineData(0, 1.4, 0, false, false)]
    [InlineData(0, 1.6, 0, true, false)]
    [InlineData(0, -1.6, 0, true, false)]
    [InlineData(0, 0, -5.9, false, false)]
    [InlineData(0, 0, -6.1, false, true)]
    [InlineData(0, 0, 7, false, false)]
    public void Limits_of_what_counts_as_processing(double loud, double soft, double noise, bool isTurned, bool isRemoved)
    {
        InputProcessingReading reading = new(true, loud, soft, noise);
        Assert.Equal((isTurned, isRemoved), (reading.IsGainTurned, reading.IsNoiseRemoved));
        Assert.False((reading with { Heard = false }).IsGainTurned || (reading with { Heard = false }).IsNoiseRemoved);
    }

    /// <summary>Heard is what stands 10 dB over the hush before it.</summary>
    [Theory]
    [InlineData(1.0, 1e-5, true)]
    [InlineData(1.0, 0.05, false)]
    [InlineData(0.0, 1e-5, false)]
    [InlineData(0.001, 1e-7, true)]
    [InlineData(0.0001, 1e-9, false)]
    public void A_path_is_heard_over_its_hiss(double all, double hiss, bool isHeard)
    {
        Assert.Equal(isHeard, Path(_ => 0, hiss, all).Heard);
        Assert.Equal(default, new InputProcessingProbe(Rate).Measure(new float[(int)(InputProcessingProbe.LengthSeconds * Rate) - 1]));
    }

    [Fact]
    public void The_input_probe_is_soft_loud_soft_and_noise()
    {
        InputProcessingProbe probe = new(Rate, -20);
        ReadOnlySpan<float> signal = probe.Signal.Span;
        Assert.Equal((9.4, 75_200, Rate), (Math.Round(InputProcessingProbe.LengthSeconds, 9), signal.Length, probe.SampleRateHz));
        double soft = Power(signal[1_000..10_000]), loud = Power(signal[12_000..34_000]), again = Power(signal[36_500..46_000]), noise = Power(signal[48_000..74_000]);

        // Five partials of a fifth of the amplitude each: 5 x 0.5 x (0.1 / 5)^2; the soft tone 18 dB under it; even noise a third of its square.
        Assert.Equal(10 * Math.Log10(5 * 0.5 * 0.0004), 10 * Math.Log10(loud), 0.1);
        Assert.Equal(18, 10 * Math.Log10(loud / soft), 0.1);
        Assert.Equal(0, 10 * Math.Log10(again / soft), 0.1);
        Assert.Equal(10 * Math.Log10(0.01 / 3), 10 * Math.Log10(noise), 0.2);
        foreach (double at in (double[])[0, 1.4, 4.4, 5.8])
        {
            Assert.Equal(0, signal[(int)Math.Round(at * Rate)], 0.001);
        }

        Assert.InRange(signal[^1], -0.01, 0.01);
        Assert.Throws<ArgumentOutOfRangeException>(() => new InputProcessingProbe(7_999));
        Assert.Throws<ArgumentOutOfRangeException>(() => new InputProcessingProbe(192_001));
        Assert.Throws<ArgumentOutOfRangeException>(() => new InputProcessingProbe(Rate, -60.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new InputProcessingProbe(Rate, -5.9));
        Assert.Equal(Rate, new InputProcessingProbe(Rate, -60).SampleRateHz);
    }
}
