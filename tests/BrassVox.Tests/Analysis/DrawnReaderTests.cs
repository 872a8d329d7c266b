using BrassVox.Analysis;
using BrassVox.Analysis.Tracking;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>What the tracker says of sounds of half a second and less, drawn at 6 kHz, window by window. No outside source: the truth is the drawing.</summary>
public sealed class DrawnReaderTests
{
    private const int RateHz = 6_000;
    private const int Length = 959;
    private const int Hop = 60;
    private static readonly double[] Falling = [1, 0.7, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15];

    // A tone whose pitch may move, 0 Hz for silence; phases of its own.
    private static float[] Tone(double seconds, Func<double, double> hz, double scale = 0.1, double[]? partials = null, double seed = 0.9)
    {
        float[] sound = new float[(int)(seconds * RateHz)];
        double turn = 0;
        for (int n = 0; n < sound.Length; n++)
        {
            double pitch = hz((double)n / RateHz);
            for (int k = 1; pitch > 0 && k <= (partials ?? Falling).Length; k++)
            {
                sound[n] += (float)(scale * (partials ?? Falling)[k - 1] * Math.Cos((2 * Math.PI * k * turn) + (seed * k * k)));
            }

            turn += pitch / RateHz;
        }

        return sound;
    }

    private static float[] Pair(double seconds, double playedHz, double sungHz, double sungScale = 0.1) =>
        TestTone.Sum(Tone(seconds, _ => playedHz), Tone(seconds, _ => sungHz, sungScale, seed: 1.7));

    private static List<WindowReading> Read(float[] sound, FrameReader reader, Func<int, PitchEstimate?>? voice = null)
    {
        List<WindowReading> readings = [];
        for (int start = 0; start + Length <= sound.Length; start += Hop)
        {
            readings.Add(reader.Read(sound.AsSpan(start, Length), voice?.Invoke(readings.Count)));
        }

        return readings;
    }

    private static FrameReader Reader(DuetPrior prior) => new(Length, RateHz, 0.01, prior);

    private static List<WindowReading> Read(float[] sound, DuetPrior prior) => Read(sound, Reader(prior));

    private static void IsPair(WindowReading reading, double firstHz, double secondHz, double cents = 0.5)
    {
        Assert.Equal(Separability.Separable, reading.Separability);
        Assert.Equal(0, Cents.Between(firstHz, reading.First!.Value.FrequencyHz), cents);
        Assert.Equal(0, Cents.Between(secondHz, reading.Second!.Value.FrequencyHz), cents);
    }

    /// <summary>A declared pair is told with its pitches, levels (a sine of amplitude 1 reads 0) and beats, wherever within a semitone it lies.</summary>
    [Theory]
    [InlineData(116.0, 185.3, 0, 0)]
    [InlineData(117.3, 174.9, 30, -20)]
    [InlineData(87.0, 217.0, -80, 70)]
    [InlineData(233.0, 131.0, 50, 50)]
    public void A_declared_pair_is_told(double playedHz, double sungHz, double playedOff, double sungOff)
    {
        List<WindowReading> readings = Read(Pair(0.2, playedHz, sungHz, 0.05), DuetPrior.Held(Cents.Above(playedHz, playedOff), Cents.Above(sungHz, sungOff)));
        Assert.Equal(5, readings.Count);
        double square = Falling.Sum(a => a * a);
        Assert.All(readings, reading =>
        {
            IsPair(reading, playedHz, sungHz, 0.1);
            Assert.Equal(10 * Math.Log10(0.01 * square), reading.First!.Value.LevelDbfs, 0.1);
            Assert.Equal(10 * Math.Log10(0.0025 * square), reading.Second!.Value.LevelDbfs, 0.2);
            Assert.InRange(reading.First.Value.Confidence, 0.95, 1);
            Assert.InRange(reading.Second.Value.Confidence, 0.95, 1);
            Assert.Equal(10 * Math.Log10(0.5 * 0.0125 * square), reading.LevelDbfs, 0.6);
            Assert.Equal(double.PositiveInfinity, reading.FirstIsPlayed);
            Assert.Null(reading.Series);
            Assert.Null(reading.BeatsBelowHz);
        });
    }

    /// <summary>Beats: of the lowest harmonics that come within 20 Hz of one another; 3 P - 2 S of a fifth, 5 P - 4 S of a third, 7 P - 4 S of a seventh.</summary>
    [Theory]
    [InlineData(117.3, 174.9, 2.1)]
    [InlineData(116.0, 146.0, 4.0)]
    [InlineData(116.0, 155.0, 1.0)]
    [InlineData(131.0, 233.0, 15.0)]
    public void Beats_are_those_of_the_lowest_harmonics_that_meet(double playedHz, double sungHz, double hz) =>
        Assert.Equal(hz, Read(Pair(0.17, playedHz, sungHz), DuetPrior.Held(playedHz, sungHz))[0].BeatRateHz!.Value, 0.1);

    [Fact]
    public void Silence_and_noise_hold_no_tone()
    {
        DuetPrior prior = DuetPrior.Held(116, 185);
        WindowReading silent = Read(new float[Length], prior)[0];
        Assert.Equal((-200.0, null, null, null, Separability.Silent), (silent.LevelDbfs, silent.First, silent.Second, silent.BeatRateHz, silent.Separability));
        foreach (DuetPrior one in (DuetPrior[])[prior, DuetPrior.Free, prior with { SungMoves = true }])
        {
            Assert.All(Read(TestTone.Noise(RateHz, 0.2, 0.05, 3), one), reading =>
            {
                Assert.Equal(Separability.Silent, reading.Separability);
                Assert.Equal(20 * Math.Log10(0.05), reading.LevelDbfs, 0.5);
            });
        }

        // 100 dB under full scale nothing is looked for.
        Assert.Equal(Separability.Silent, Read([.. Pair(0.17, 116, 185).Select(x => x * 2e-5f)], prior)[0].Separability);
        Assert.Equal(Separability.Separable, Read([.. Pair(0.17, 116, 185).Select(x => x * 1e-4f)], prior)[0].Separability);
    }

    /// <summary>Of a declared pair one tone may be missing: the other is told by itself.</summary>
    [Fact]
    public void One_tone_of_a_pair_is_told_alone()
    {
        DuetPrior prior = DuetPrior.Held(116, 185);
        WindowReading played = Read(Tone(0.17, _ => 116.4), prior)[0];
        Assert.Equal((Separability.OneTone, null), (played.Separability, played.Second));
        Assert.Equal(0, Cents.Between(116.4, played.First!.Value.FrequencyHz), 0.5);
        WindowReading sung = Read(Tone(0.17, _ => 185.4), prior)[0];
        Assert.Equal((Separability.OneTone, null), (sung.Separability, sung.First));
        Assert.Equal(0, Cents.Between(185.4, sung.Second!.Value.FrequencyHz), 0.5);

        // 40 dB under the other a tone is not there, 12 dB under it it is.
        Assert.Equal(Separability.OneTone, Read(Pair(0.17, 116, 185.3, 0.001), prior)[0].Separability);
        Assert.Equal(Separability.Separable, Read(Pair(0.17, 116, 185.3, 0.025), prior)[0].Separability);
    }

    /// <summary>A tone alone is fog where the other was declared on a harmonic of it: there that may sound and change nothing but the timbre. Under the tone nothing hides.</summary>
    [Theory]
    [InlineData(116.4, 116.0, 348.0, Separability.NotSeparable)]
    [InlineData(116.4, 116.0, 236.0, Separability.NotSeparable)]
    [InlineData(116.4, 116.0, 174.0, Separability.OneTone)]
    [InlineData(116.4, 348.0, 116.0, Separability.NotSeparable)]
    [InlineData(233.0, 155.0, 232.0, Separability.OneTone)]
    public void A_tone_may_hide_on_a_harmonic_of_the_other(double heardHz, double playedHz, double sungHz, Separability told)
    {
        WindowReading reading = Read(Tone(0.17, _ => heardHz), DuetPrior.Held(playedHz, sungHz))[0];
        Assert.Equal(told, reading.Separability);
        Assert.Equal(0, Cents.Between(heardHz, (reading.First ?? reading.Second)!.Value.FrequencyHz), 0.5);
        Assert.True(reading.First is null || reading.Second is null);
    }

    /// <summary>At the unison, octaves and the twelfth the two cannot be told apart; above the unison P is told by what S does not touch.</summary>
    [Theory]
    [InlineData(116.0, 117.0, false)]
    [InlineData(116.0, 232.5, true)]
    [InlineData(116.0, 349.0, true)]
    public void Where_tones_meet_they_are_not_separable(double playedHz, double sungHz, bool isPlayedTold)
    {
        WindowReading reading = Read(Pair(0.17, playedHz, sungHz), DuetPrior.Held(playedHz, sungHz))[0];
        Assert.Equal((Separability.NotSeparable, null), (reading.Separability, reading.Second));
        Assert.Equal(isPlayedTold, reading.First is not null);
        Assert.Null(reading.BeatRateHz);
    }

    /// <summary>At the octave the swell of the common line is counted once a second of it was heard.</summary>
    [Fact]
    public void Beats_at_the_octave_are_counted_by_the_swell()
    {
        List<WindowReading> readings = Read(TestTone.Sum(Tone(1.5, _ => 116, partials: [1, 0.7]), Tone(1.5, _ => 235, 0.06, [1])), DuetPrior.Held(116, 235));
        Assert.Null(readings[98].BeatRateHz);
        Assert.Equal(3, readings[^1].BeatRateHz!.Value, 0.05);
        Assert.Null(readings[^1].BeatsBelowHz);
    }

    /// <summary>A declared tone that sounds an octave or twelfth away is told where it is after half a second: higher when every other line of the declared one is empty, lower when half of the sound would be left.</summary>
    [Theory]
    [InlineData(131.0, 185.3, 2.0, 1.0)]
    [InlineData(185.3, 131.0, 1.0, 2.0)]
    [InlineData(131.0, 185.3, 0.5, 1.0)]
    [InlineData(185.3, 131.0, 1.0, 0.5)]
    [InlineData(131.0, 139.2, 2.0, 2.0)]
    [InlineData(131.0, 185.3, 3.0, 1.0)]
    public void A_declared_tone_an_octave_away_is_told_there(double declaredPlayed, double declaredSung, double first, double second)
    {
        float[] sound = TestTone.Sum(
            Tone(0.6, _ => first * declaredPlayed, second < 1 ? 0.04 : 0.1),
            Tone(0.6, _ => second * declaredSung, first < 1 ? 0.04 : 0.1, seed: 1.7));
        IsPair(Read(sound, DuetPrior.Held(declaredPlayed, declaredSung))[^1], first * declaredPlayed, second * declaredSung, 1.5);
    }

    /// <summary>Another note than the declared one, a tone away, is none of the pair.</summary>
    [Fact]
    public void A_tone_beyond_a_semitone_is_not_the_declared_one()
    {
        WindowReading reading = Read(Pair(0.17, 131, Cents.Above(185.3, 260)), DuetPrior.Held(131, 185.3))[0];
        Assert.True(reading.Second is null || Math.Abs(Cents.Between(185.3, reading.Second.Value.FrequencyHz)) < 125);
    }

    /// <summary>Where P was declared as the upper tone, it is.</summary>
    [Fact]
    public void Declared_notes_give_the_roles()
    {
        IsPair(Read(Pair(0.17, 139, 131), DuetPrior.Held(139, 131))[0], 139, 131);
        IsPair(Read(Pair(0.17, 139, 131), DuetPrior.Held(131, 139))[0], 131, 139);

        // Half way between both ways nothing tells them apart.
        List<WindowReading> readings = Read(Pair(0.17, 131, 139), DuetPrior.Held(134.94, 134.95));
        Assert.NotEqual(Separability.Separable, readings[0].Separability);
    }

    /// <summary>A voice that glides as the exercise asks is followed, 600 c a second.</summary>
    [Fact]
    public void A_moving_voice_is_followed()
    {
        double At(double t) => Cents.Above(160, 600 * t);
        float[] sound = TestTone.Sum(Tone(0.5, _ => 98), Tone(0.5, At, seed: 1.7));
        List<WindowReading> readings = Read(sound, DuetPrior.Held(98, 160) with { SungMoves = true });
        int right = 0;
        for (int i = 0; i < readings.Count; i++)
        {
            if (readings[i].Separability == Separability.Separable)
            {
                IsPair(readings[i], 98, At(((i * Hop) + (Length / 2)) / (double)RateHz), 12);
                right++;
            }
        }

        Assert.True(right > 0.7 * readings.Count, $"{right} of {readings.Count}");
    }

    /// <summary>Undeclared, the pair is told at once, the lower tone first; its roles wait for bends.</summary>
    [Theory]
    [InlineData(116.0, 185.3)]
    [InlineData(98.0, 246.0)]
    public void An_undeclared_pair_is_told_with_its_roles_open(double lowerHz, double upperHz)
    {
        List<WindowReading> readings = Read(Pair(0.3, lowerHz, upperHz), DuetPrior.Free);
        Assert.All(readings, reading =>
        {
            IsPair(reading, lowerHz, upperHz);
            Assert.InRange(reading.FirstIsPlayed, -2.2, 2.2);
            Assert.Equal(readings[0].Segment, reading.Segment);
        });
        Assert.Equal(0, readings[0].FirstIsPlayed);
        Assert.NotEqual(0, readings[^1].FirstIsPlayed);
    }

    /// <summary>A voice that swings by 15 c is told as the sung tone after half a second, above or below.</summary>
    [Theory]
    [InlineData(116.0, 185.3)]
    [InlineData(185.3, 116.0)]
    public void A_tone_that_bends_is_the_voice(double playedHz, double sungHz)
    {
        float[] sound = TestTone.Sum(Tone(0.8, _ => playedHz), Tone(0.8, t => Cents.Above(sungHz, 15 * Math.Sin(2 * Math.PI * 4 * t)), seed: 1.7));
        WindowReading last = Read(sound, DuetPrior.Free)[^1];
        Assert.True(playedHz < sungHz ? last.FirstIsPlayed > 2.2 : last.FirstIsPlayed < -2.2, $"{last.FirstIsPlayed}");
    }

    /// <summary>One tone, undeclared, may be two at the octave: told first whatever it is, with its series; another pair begins another segment.</summary>
    [Fact]
    public void One_undeclared_tone_is_told_with_its_series()
    {
        List<WindowReading> readings = Read(Tone(0.3, _ => 147.3), DuetPrior.Free);
        Assert.All(readings, reading =>
        {
            Assert.True(reading is { Separability: Separability.OneTone or Separability.NotSeparable, Second: null });
            Assert.Equal(0, Cents.Between(147.3, reading.First!.Value.FrequencyHz), 1.0);
            Assert.Equal(0, Cents.Between(147.3, reading.Series!.Value.FrequencyHz), 1.0);
            Assert.Equal(reading.LevelDbfs, reading.Series.Value.LevelDbfs);
            Assert.InRange(reading.Series.Value.Confidence, 0.9, 1);
            Assert.Equal(readings[0].Segment, reading.Segment);
        });
        FrameReader reader = Reader(DuetPrior.Free);
        List<WindowReading> two = Read(Pair(0.2, 98, 246), reader);
        List<WindowReading> after = Read(Pair(0.2, 116, 185.3), reader);
        Assert.NotEqual(two[^1].Segment, after[^1].Segment);
    }

    /// <summary>After a gap of a tenth of a second the same pair is the same segment, and one of its tones alone belongs to it; another pair does not.</summary>
    [Fact]
    public void A_pair_is_the_same_after_a_short_gap()
    {
        FrameReader reader = Reader(DuetPrior.Free);
        int segment = Read(Pair(0.3, 116, 185.3), reader)[^1].Segment;
        Assert.All(Read(new float[Length + (4 * Hop)], reader), reading => Assert.Equal(Separability.Silent, reading.Separability));
        Assert.Equal(segment, Read(Pair(0.2, 116, 185.3), reader)[^1].Segment);
        WindowReading upper = Read(Tone(0.2, _ => 185.3), reader)[^1];
        Assert.Equal((Separability.OneTone, segment), (upper.Separability, upper.Segment));
        Assert.Null(upper.First);
        Assert.Equal(0, Cents.Between(185.3, upper.Second!.Value.FrequencyHz), 1.0);
        WindowReading lower = Read(Tone(0.2, _ => 116), reader)[^1];
        Assert.Equal((segment, null), (lower.Segment, lower.Second));
        Assert.Equal(0, Cents.Between(116, lower.First!.Value.FrequencyHz), 1.0);

        // 31 windows of silence are a new beginning; so is a reset.
        _ = Read(new float[Length + (31 * Hop)], reader);
        Assert.NotEqual(segment, Read(Pair(0.2, 116, 185.3), reader)[^1].Segment);
        reader.Reset();
        Assert.Equal(Read(Pair(0.2, 116, 185.3), Reader(DuetPrior.Free))[^1] with { Segment = 0 }, Read(Pair(0.2, 116, 185.3), reader)[^1] with { Segment = 0 });
    }

    /// <summary>Another prior is another exercise: the notes of the old one are not looked for.</summary>
    [Fact]
    public void A_new_prior_counts_at_once()
    {
        FrameReader reader = Reader(DuetPrior.Held(116, 185));
        IsPair(Read(Pair(0.17, 116, 185.3), reader)[0], 116, 185.3);
        reader.SetPrior(DuetPrior.Held(131, 220));
        IsPair(Read(Pair(0.17, 131, 220.4), reader)[0], 131, 220.4);
        Assert.Equal(FrequencyRange.Around(220, 120), reader.VoiceRange);
        reader.SetPrior(new DuetPrior(131, 220, SungMoves: true));
        Assert.Equal(new FrequencyRange(65, 1_050), reader.VoiceRange);
    }

    /// <summary>A voice known from a second channel is taken as it is; P is read beside it, at the octave too, but not at the unison.</summary>
    [Fact]
    public void With_a_second_channel_the_voice_is_settled()
    {
        WindowReading With(double playedHz, double sungHz, DuetPrior prior, float[]? sound = null) =>
            Read(sound ?? Pair(0.17, playedHz, sungHz), Reader(prior), _ => new PitchEstimate(sungHz, -33, 0.8))[0];
        foreach (DuetPrior prior in (DuetPrior[])[DuetPrior.Held(116, 185), DuetPrior.Free])
        {
            WindowReading reading = With(116, 185.3, prior);
            IsPair(reading, 116, 185.3, 1);
            Assert.Equal(new PitchEstimate(185.3, -33, 0.8), reading.Second);
            Assert.Equal(10 * Math.Log10(0.01 * Falling.Sum(a => a * a)), reading.First!.Value.LevelDbfs, 0.2);
            Assert.Equal(double.PositiveInfinity, reading.FirstIsPlayed);
        }

        IsPair(With(116, 232.5, DuetPrior.Held(116, 232)), 116, 232.5, 2);
        WindowReading unison = With(116, 116.5, DuetPrior.Held(116, 116.5));
        Assert.Equal((Separability.NotSeparable, null), (unison.Separability, unison.First));
        WindowReading alone = With(116, 185.3, DuetPrior.Held(116, 185), Tone(0.17, _ => 185.3));
        Assert.Equal((Separability.OneTone, null), (alone.Separability, alone.First));
        WindowReading silent = With(116, 185.3, DuetPrior.Held(116, 185), new float[Length]);
        Assert.Equal((Separability.OneTone, null, -200.0), (silent.Separability, silent.First, silent.LevelDbfs));
        Assert.Equal(185.3, silent.Second!.Value.FrequencyHz);
    }

    /// <summary>The second channel itself: one tone, its level as the sum of its partials, within its range; noise and silence are none.</summary>
    [Fact]
    public void A_contact_microphone_tells_the_voice()
    {
        ContactReader reader = new(Length, RateHz);
        FrequencyRange range = new(65, 1_050);
        float[] voice = Tone(0.17, _ => 185.3);
        for (int i = 0; i < 45; i++)
        {
            PitchEstimate told = reader.Read(voice.AsSpan(i, Length), range)!.Value;
            Assert.Equal(0, Cents.Between(185.3, told.FrequencyHz), 1.0);
            Assert.Equal(10 * Math.Log10(0.01 * Falling.Sum(a => a * a)), told.LevelDbfs, 0.2);
            Assert.InRange(told.Confidence, 0.9, 1);
        }

        // What is followed is out of another range.
        Assert.Null(reader.Read(voice.AsSpan(0, Length), new FrequencyRange(200, 300)));
        reader.Reset();
        Assert.Null(reader.Read(new float[Length], range));
        Assert.Null(reader.Read(TestTone.Noise(RateHz, 0.17, 0.1, 5).AsSpan(0, Length), range));

        // A tone that holds a fifth of the channel is not believed.
        Assert.Null(reader.Read(TestTone.Sum(Tone(0.17, _ => 185.3, 0.02), TestTone.Noise(RateHz, 0.17, 0.1, 5)).AsSpan(0, Length), range));
        Assert.NotNull(reader.Read(voice.AsSpan(0, Length), range));
    }

    /// <summary>A shorter window about the same middle: a steady pair, and one that sweeps by 400 c a second, at its middle.</summary>
    [Fact]
    public void A_brief_window_reads_the_middle()
    {
        BriefWindow brief = new(479, RateHz);
        float[] steady = Pair(0.17, 131, 210).AsSpan(0, Length).ToArray();
        (PairFit fit, FrameVerdict verdict) = brief.Read(steady, new PairFit(131.3, 209.6, 0, 0, 0, 0), false, false, false);
        Assert.Equal(Separability.Separable, verdict.Separability);
        Assert.Equal(0, Cents.Between(131, fit.PlayedHz), 0.1);
        Assert.Equal(0, Cents.Between(210, fit.SungHz), 0.1);
        float[] sweeping = TestTone.Sum(Tone(0.17, _ => 131), Tone(0.17, t => Cents.Above(210, 400 * t), seed: 1.7));
        (fit, _) = brief.Read(sweeping.AsSpan(0, Length), new PairFit(131.3, Cents.Above(210, 25), 0, 0, 0, 0), false, false, false);
        Assert.Equal(400.0 * (Length / 2) / RateHz, Cents.Between(210, fit.SungHz), 2.0);
    }

    /// <summary>From samples to frames: a window of 160 ms each 10 ms, clocks that do not depend on the blocks, two channels of one length.</summary>
    [Theory]
    [InlineData(8_000)]
    [InlineData(16_000)]
    [InlineData(44_100)]
    public void A_tracker_gives_a_frame_each_hundredth_of_a_second(int rate)
    {
        float[] sound = TestTone.Sum(TestTone.Harmonic(rate, 0.2, _ => 131, 0.2, topHz: 1_500), TestTone.Harmonic(rate, 0.2, _ => 210, 0.2, topHz: 1_500, seed: 2));
        DuetTracker tracker = new(rate, DuetPrior.Held(131, 210));
        List<AnalysisFrame> whole = [], parts = [], both = [];
        tracker.Push(sound, whole);
        Assert.InRange(whole.Count, 5, 6);
        Assert.InRange(tracker.WindowSamples, 0.155 * rate, 0.16 * rate);
        Assert.Equal(tracker.WindowSamples / 2, tracker.LatencySamples);
        for (int i = 0; i < whole.Count; i++)
        {
            Assert.Equal((i * (long)tracker.HopSamples, tracker.WindowSamples, rate), (whole[i].FirstSample, whole[i].LengthSamples, whole[i].SampleRateHz));
            Assert.Equal(0, Cents.Between(131, whole[i].Played!.Value.FrequencyHz), 0.2);
            Assert.Equal(0, Cents.Between(210, whole[i].Sung!.Value.FrequencyHz), 0.2);
        }

        tracker.Reset();
        for (int start = 0; start < sound.Length; start += 333)
        {
            tracker.Push(sound.AsSpan(start, Math.Min(333, sound.Length - start)), parts);
        }

        Assert.Equal(whole, parts);
        Assert.Equal(whole, TakeMeasurement.Frames(sound, rate, DuetPrior.Held(131, 210)));
        tracker.Reset();
        tracker.Push(sound, TestTone.Harmonic(rate, 0.2, _ => 210, 0.2, topHz: 1_500, seed: 3), both);
        Assert.Equal(whole.Count, both.Count);
        Assert.Equal(0, Cents.Between(210, both[^1].Sung!.Value.FrequencyHz), 1.0);
        Assert.NotEqual(whole[^1].Sung!.Value.Confidence, both[^1].Sung!.Value.Confidence);
        Assert.Throws<ArgumentException>(() => tracker.Push(sound, sound.AsSpan(1), both));
        tracker.Reset();
        parts.Clear();
        tracker.Push(sound, parts);
        Assert.Equal(whole, parts);
    }

    [Theory]
    [InlineData(7_999)]
    [InlineData(384_001)]
    public void A_tracker_takes_rates_between_8_and_384_kHz(int rate)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new DuetTracker(rate, DuetPrior.Free));
        Assert.Equal(rate < 8_000 ? 8_000 : 384_000, new DuetTracker(rate < 8_000 ? 8_000 : 384_000, DuetPrior.Free).SampleRateHz);
    }
}
