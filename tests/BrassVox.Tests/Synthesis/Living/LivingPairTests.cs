using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Synthesis.Living;

/// <summary>What the living system does, heard from outside.</summary>
public sealed class LivingPairTests
{
    private const int Rate = 48000;

    /// <summary>A low, a middle and a high note of each instrument, at pp, mf and ff in turn.</summary>
    public static TheoryData<string, double, float> Notes()
    {
        TheoryData<string, double, float> notes = [];
        foreach (BrassBore bore in SourceUnderTest.Bores.Values)
        {
            notes.Add(bore.Id, bore.LowestHz * 1.06, 1);
            notes.Add(bore.Id, Math.Sqrt(bore.LowestHz * bore.HighestHz), 0);
            notes.Add(bore.Id, bore.HighestHz, 0.5f);
            notes.Add(bore.Id, bore.HighestHz * 0.71, 0.62f);
        }

        return notes;
    }

    [Theory]
    [MemberData(nameof(Notes))]
    public void It_plays_the_pitch_asked_for_within_three_cents(string id, double hz, float dynamic)
    {
        LivingPair pair = Make(id);
        pair.Dynamic.Target = dynamic;
        float[] sound = Play(pair, hz, null, 1.4);
        Assert.InRange(OffCents(sound.AsSpan(Rate * 8 / 10), hz), -3, 3);
    }

    // A fifth 8 cents wide of just: 3P-S lies 0.8 Hz from S, 2S-P as near to 2P, closer than the reading's window tells apart.
    [Fact]
    public void Separate_it_reads_no_resultant_where_a_harmonic_lies()
    {
        LivingPair pair = Make("tuba");
        pair.CouplingDepth.Target = 0;
        Play(pair, 58.27, 87.81, 1.0);
        Assert.All(pair.Parts, part => Assert.True(
            part.Played == 0 || part.Sung == 0 ? pair.Read(part.Index).LevelDbfs > -80 : pair.Read(part.Index).LevelDbfs == -200, part.Name));

        pair.CouplingDepth.Target = 0.6f;
        Play(pair, 58.27, 87.81, 1.0);
        Assert.All(pair.Parts, part => Assert.InRange(pair.Read(part.Index).LevelDbfs, -120, 0));
    }

    [Theory]
    [InlineData("tuba", 116.5409)]
    [InlineData("trombone", 233.0819)]
    [InlineData("trumpet", 466.1638)]
    public void A_note_speaks_within_a_quarter_of_a_second_and_then_stands(string id, double hz)
    {
        float[] sound = Play(Make(id), hz, null, 1.0);
        double late = Power(sound.AsSpan(Rate * 8 / 10));
        Assert.InRange(Power(sound.AsSpan(Rate / 4, Rate / 10)) / late, 0.6, 1.6);
        Assert.InRange(Power(sound.AsSpan(Rate / 2, Rate / 5)) / late, 0.9, 1.1);
    }

    // Without the burst of the attack: a still lip under steady pressure. The growth is the instability that linear analysis predicts (Velut et al. 2017).
    [Fact]
    public void Lips_under_steady_pressure_begin_to_swing_by_themselves()
    {
        BrassBore bore = SourceUnderTest.Bores["trombone"];
        ColumnSlot slot = bore.Slots.First(slot => slot.Number == 6);
        var reed = new LipReed(SourceUnderTest.ModesOf("trombone"), bore.Lips, bore.Air.Density, BrassBore.GridHz);
        reed.TuneLips(slot.LipHz);
        double early = 0;
        double late = 0;
        var clock = new CrossingClock(0.1 * BrassBore.GridHz);
        for (int i = 0; i < 70000; i++)
        {
            reed.Step(BlowingState.At(0.5).MouthPressurePa * Math.Min(1, i / 2000.0));
            double swing = Math.Abs(reed.Radiated);
            early = i is > 2000 and < 4000 ? Math.Max(early, swing) : early;
            late = i > 60000 ? Math.Max(late, swing) : late;
            clock.Step(reed.OpeningM);
            if (i == 50000)
            {
                clock.Restart();
            }
        }

        Assert.True(late > 5 * early, $"{early} then {late} Pa");
        Assert.InRange(1200 * Math.Log2(BrassBore.GridHz / clock.PeriodSteps / slot.SoundingHz[2]), -5, 5);
    }

    [Fact]
    public void It_is_brighter_and_louder_the_harder_it_is_blown()
    {
        LivingPair pair = Make("trombone");
        double lastCentroid = 0;
        double lastPower = 0;
        foreach (float dynamic in (ReadOnlySpan<float>)[0, 0.5f, 1])
        {
            pair.Dynamic.Target = dynamic;
            float[] sound = Play(pair, 116.5409, null, 0.9);
            double weighted = 0;
            double total = 0;
            for (int k = 1; k <= 24; k++)
            {
                double power = Math.Pow(10, Spectrum.LevelDb(sound.AsSpan(Rate / 2), Rate, k * 116.5409) / 10);
                weighted += k * 116.5409 * power;
                total += power;
            }

            Assert.True(weighted / total > lastCentroid * 1.03, $"centroid {weighted / total} Hz after {lastCentroid} Hz");
            Assert.True(total > lastPower * 2);
            (lastCentroid, lastPower) = (weighted / total, total);
        }
    }

    // Kinematics of the coupled valve: lines at |m P + n S| (Fletcher et al. 2006 part II, sum and difference tones of lips and folds).
    [Fact]
    public void A_voice_in_the_mouth_gives_sum_and_difference_tones_and_none_when_separate()
    {
        LivingPair pair = Make("trombone");
        foreach ((float depth, bool has) in (ReadOnlySpan<(float, bool)>)[(0, false), (0.6f, true)])
        {
            pair.CouplingDepth.Target = depth;
            float[] sound = Play(pair, 116.5409, 170.0, 1.6);
            ReadOnlySpan<float> end = sound.AsSpan(Rate * 6 / 10);
            double played = Spectrum.LevelDb(end, Rate, 2 * 116.5409);
            foreach (double line in (ReadOnlySpan<double>)[116.5409 + 170.0, (2 * 116.5409) + 170.0, (2 * 170.0) - 116.5409])
            {
                double level = Spectrum.LevelDb(end, Rate, line) - played;
                Assert.True(has ? level > -40 : level < -55, $"depth {depth}: {line} Hz at {level} dB");
            }
        }
    }

    [Fact]
    public void Near_unison_the_voice_catches_the_lips_and_farther_off_it_does_not()
    {
        LivingPair pair = Make("trombone");
        pair.CouplingDepth.Target = 0.7f;
        pair.BreathNoise.Target = 0;
        const double Asked = 116.5409;
        double caught = SoundingHz(pair, Asked, Asked + 0.6, 2.5);
        Assert.Equal(Asked + 0.6, caught, 0.02);
        double free = SoundingHz(pair, Asked, Asked + 5, 2.5);
        Assert.InRange(free, Asked - 1, Asked + 1.5);
        pair.CouplingDepth.Target = 0;
        Assert.Equal(Asked, SoundingHz(pair, Asked, Asked + 0.6, 2.5), 0.05);
    }

    [Fact]
    public void Bent_lips_stay_in_the_slot_and_bent_too_far_they_crack()
    {
        LivingPair pair = Make("trombone");
        const double Asked = 233.0819;
        pair.LipBendCents.Target = 40;
        double bent = OffCents(Play(pair, Asked, null, 1.2).AsSpan(Rate / 2), Asked);
        Assert.InRange(bent, 2, 25);
        pair.LipBendCents.Target = 400;
        float[] cracked = Play(pair, Asked, null, 1.2);
        double other = OffCents(cracked.AsSpan(Rate / 2), Asked);
        Assert.False(Math.Abs(other) < 100, $"still {other} cents from the note");
    }

    [Fact]
    public void A_slur_reaches_the_next_slot_and_its_pitch()
    {
        LivingPair pair = Make("trombone");
        Play(pair, 116.5409, null, 0.7);
        Assert.Equal(2, pair.SlotNumber);
        Assert.True(pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(174.6141))));
        float[] sound = Take(pair, 1.0);
        Assert.Equal(3, pair.SlotNumber);
        Assert.InRange(OffCents(sound.AsSpan(Rate / 2), 174.6141), -3, 3);
    }

    [Fact]
    public void A_glide_is_followed_like_a_slide()
    {
        LivingPair pair = Make("trombone");
        Play(pair, 116.5409, null, 0.5);
        Assert.True(pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Glide(116.5409, 103.8262, 0.5))));
        float[] sound = Take(pair, 1.0);
        Assert.InRange(OffCents(sound.AsSpan(Rate * 6 / 10), 103.8262), -3, 3);
    }

    [Fact]
    public void When_its_numbers_run_away_it_stays_finite_and_begins_the_note_again()
    {
        LivingPair pair = Make("trombone");
        float[] before = Play(pair, 116.5409, null, 0.6);
        pair.Sound.Reed.Step(double.NaN);
        float[] sound = Take(pair, 1.0);
        Assert.All(sound, sample => Assert.InRange(sample, -0.9f, 0.9f));
        Assert.Equal(1, pair.Sound.RecoveryCount);
        Assert.InRange(Power(sound.AsSpan(Rate / 2)) / Power(before.AsSpan(Rate / 2)), 0.8, 1.25);

        // No click: the largest step between samples is no larger than in the steady note.
        Assert.InRange(LargestStep(sound), 0, 1.5 * LargestStep(before));
    }

    // A jump of a control is smoothed: no step between samples is larger than those of the tones before and after it by more than a half.
    [Theory]
    [InlineData("couplingDepth", 0, 1)]
    [InlineData("levelDb", 0, -30)]
    [InlineData("playedDetuneCents", 0, 90)]
    [InlineData("sungDetuneHz", 0, 20)]
    [InlineData("dynamic", 0.2, 0.9)]
    [InlineData("vowel", 0, 4)]
    public void A_control_that_jumps_does_not_click(string id, double from, double to)
    {
        LivingPair pair = Make("trombone");
        Parameter control = pair.Parameters.First(parameter => parameter.Spec.Id == id);
        control.Target = (float)from;
        double before = LargestStep(Play(pair, 116.5409, 175, 0.6).AsSpan(Rate / 4));
        control.Target = (float)to;
        double during = LargestStep(Take(pair, 0.3));
        double after = LargestStep(Take(pair, 0.4));
        Assert.True(during < 1.5 * Math.Max(before, after), $"{during} between {before} and {after}");
    }

    [Fact]
    public void Readings_show_what_sounds()
    {
        LivingPair pair = Make("trombone");
        pair.BreathNoise.Target = 0;
        float[] sound = Play(pair, 116.5409, 170.0, 1.2);
        Assert.Equal(116.5409, pair.Read(0).FrequencyHz, 0.05);
        Assert.Equal(170.0, pair.Read(1).FrequencyHz, 1e-6);
        PairPart sum = pair.Parts.First(part => part.Name == "P+S");
        Assert.Equal(286.5409, pair.Read(sum.Index).FrequencyHz, 0.05);
        double expected = Spectrum.LevelDb(sound.AsSpan(Rate * 9 / 10), Rate, 3 * 116.5409);
        Assert.Equal(expected, pair.PartialLevelDbfs(VoiceRole.Played, 3), 1.0);
        Assert.True(pair.Sound.RecoveryCount == 0);
    }

    private static LivingPair Make(string id)
    {
        LivingPair pair = new(SourceUnderTest.Bores[id], SourceUnderTest.Presets.VoiceById("tenor"), 3, SourceUnderTest.ModesOf(id));
        pair.Prepare(new RenderFormat(Rate, 256));
        return pair;
    }

    // From the start of the note; without a sung pitch the voice is silent.
    private static float[] Play(LivingPair pair, double playedHz, double? sungHz, double seconds)
    {
        pair.Reset();
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(playedHz)));
        pair.TryPost(sungHz is { } hz ? PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(hz)) : PairEvent.Gain(1, -80));
        pair.TryPost(PairEvent.Start());
        return Take(pair, seconds);
    }

    private static double SoundingHz(LivingPair pair, double playedHz, double sungHz, double seconds)
    {
        Play(pair, playedHz, sungHz, seconds);
        return pair.Read(0).FrequencyHz;
    }

    private static float[] Take(LivingPair pair, double seconds)
    {
        float[] sound = new float[(int)(seconds * Rate)];
        for (int at = 0; at < sound.Length; at += 256)
        {
            pair.Render(sound.AsSpan(at, Math.Min(256, sound.Length - at)));
        }

        return sound;
    }

    // Cents between a steady tone and a pitch: the lag at which it best repeats, found coarsely near one period and finely near twelve.
    private static double OffCents(ReadOnlySpan<float> sound, double hz)
    {
        double period = Rate / hz;
        double found = BestLag(sound, period * 0.8, period * 1.25);
        double many = Math.Min(12, Math.Floor(0.4 * sound.Length / found));
        found = BestLag(sound, (many * found) - (0.4 * found), (many * found) + (0.4 * found)) / many;
        return 1200 * Math.Log2(period / found);
    }

    private static double BestLag(ReadOnlySpan<float> sound, double from, double to)
    {
        int low = (int)from;
        int high = (int)to + 2;
        Span<double> match = new double[high - low + 1];
        int length = sound.Length - high;
        for (int lag = low; lag <= high; lag++)
        {
            double difference = 0;
            for (int i = 0; i < length; i++)
            {
                double d = sound[i] - sound[i + lag];
                difference += d * d;
            }

            match[lag - low] = difference;
        }

        int best = 1;
        for (int i = 1; i < match.Length - 1; i++)
        {
            best = match[i] < match[best] ? i : best;
        }

        (double before, double now, double after) = (match[best - 1], match[best], match[best + 1]);
        return low + best + (0.5 * (before - after) / (before - (2 * now) + after));
    }

    private static double Power(ReadOnlySpan<float> sound)
    {
        double sum = 0;
        foreach (float sample in sound)
        {
            sum += (double)sample * sample;
        }

        return sum / sound.Length;
    }

    private static double LargestStep(ReadOnlySpan<float> sound)
    {
        double largest = 0;
        for (int i = 1; i < sound.Length; i++)
        {
            largest = Math.Max(largest, Math.Abs(sound[i] - sound[i - 1]));
        }

        return largest;
    }
}
