using BrassVox.Practice.Section;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Section;

/// <summary>Exact arithmetic of tempered and just chords (ratios 4:5:6; a tempered major third is 13.686 cents wide, a fifth 1.955 narrow: handbook values).</summary>
public sealed class SectionTests
{
    private static SectionReport Of(params string[] notes) => SectionReport.Of([.. notes.Select(note => (Pitch.Parse(note), 0.0))], Tuning.Equal, 440);

    [Fact]
    public void A_tempered_major_chord_beats_as_the_handbooks_say_and_two_players_still_it()
    {
        SectionReport report = Of("Bb2", "D3", "F3");
        SectionPair third = report.Pairs.Single(pair => (pair.Lower, pair.Upper) == (1, 2));
        Assert.Equal(13.686, third.OffCents, 1e-3);
        Assert.Equal("5:4", third.Just.ToString());
        Assert.Equal((4 * 146.83238) - (5 * 116.54094), third.BeatsPerSecond, 1e-4);
        Assert.Equal(-1.955, report.Pairs.Single(pair => (pair.Lower, pair.Upper) == (1, 3)).OffCents, 1e-3);
        Assert.Equal(0, report.BeatsAfter, 1e-9);
        double[] hz = [.. report.Moves.Select(move => move.ToHz)];
        Assert.Equal(5.0 / 4, hz[1] / hz[0], 1e-12);
        Assert.Equal(6.0 / 4, hz[2] / hz[0], 1e-12);
        Assert.Equal(0, report.Moves[report.Standing - 1].Cents, 1e-12);
    }

    [Fact]
    public void The_player_who_is_off_is_the_one_who_moves()
    {
        double third = 1200 * Math.Log2(5.0 / 4);
        double fifth = 1200 * Math.Log2(3.0 / 2);
        SectionReport report = SectionReport.Of(
            [(Pitch.Parse("Bb2"), 0), (Pitch.Parse("D3"), third - 400), (Pitch.Parse("F3"), fifth - 700 + 17), (Pitch.Parse("Bb3"), 0)], Tuning.Equal, 442);
        Assert.Equal(-17, report.Moves[2].Cents, 1e-6);
        Assert.All(report.Moves.Where(move => move.Player != 3), move => Assert.Equal(0, move.Cents, 1e-6));
        Assert.Equal(0, report.BeatsAfter, 1e-6);
    }

    [Fact]
    public void Difference_and_sum_are_those_of_the_two_tones()
    {
        SectionPair pair = Of("Bb1", "F2").Pairs.Single();
        Assert.Equal(87.3071 - 58.2705, pair.DifferenceHz, 1e-4);
        Assert.Equal(87.3071 + 58.2705, pair.SumHz, 1e-4);
    }

    [Fact]
    public void One_or_six_players_are_no_section()
    {
        Assert.Throws<ArgumentException>(() => Of("Bb2"));
        Assert.Throws<ArgumentException>(() => Of("Bb2", "C3", "D3", "E3", "F3", "G3"));
    }

    /// <summary>A unison 30 cents apart on Bb2 beats 2.04 times a second (116.54 Hz x (2^(30/1200) - 1)); afterwards it stands.</summary>
    [Fact]
    public void What_is_heard_beats_first_and_then_stands_still()
    {
        SectionReport report = SectionReport.Of([(Pitch.Parse("Bb2"), 0), (Pitch.Parse("Bb2"), 30)], Tuning.Equal, 440);
        var sound = new SectionSound(TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones")), report, 4, slides: true);
        sound.Prepare(new RenderFormat(48000, 480));
        float[] samples = new float[(int)(sound.Seconds * 48000)];
        for (int at = 0; at < samples.Length; at += 480)
        {
            sound.Render(samples.AsSpan(at, Math.Min(480, samples.Length - at)));
        }

        Assert.True(samples.All(float.IsFinite));
        Assert.True(Swing(samples.AsSpan(48000, 3 * 48000)) > 10, "the beats are not heard");
        Assert.True(Swing(samples.AsSpan((int)(6.5 * 48000), 3 * 48000)) < 3, "it does not stand still");
        sound.Reset();
        float[] again = new float[48000];
        for (int at = 0; at < again.Length; at += 480)
        {
            sound.Render(again.AsSpan(at, 480));
        }

        Assert.Equal(samples[..48000], again);
    }

    [Fact]
    public void A_trial_has_one_player_off_a_still_section()
    {
        SectionReport still = Of("Bb2", "D3", "F3");
        foreach (SectionTrial trial in SectionTrial.Build(still, 40, 20, 3))
        {
            for (int i = 0; i < 3; i++)
            {
                double off = Cents.Between(still.Moves[i].ToHz, trial.Report.Tones[i].FrequencyHz);
                Assert.Equal(i + 1 == trial.Player ? trial.Cents : 0, off, 1e-9);
            }
        }
    }

    // The fundamental alone (higher harmonics beat as many times faster): loudest over softest tenth of a second, in dB.
    private static double Swing(ReadOnlySpan<float> samples)
    {
        List<double> levels = [];
        for (int at = 0; at + 4800 <= samples.Length; at += 4800)
        {
            (double re, double im) = (0, 0);
            for (int i = 0; i < 4800; i++)
            {
                double turn = 2 * Math.PI * 117.55 * (at + i) / 48000;
                re += samples[at + i] * Math.Cos(turn);
                im += samples[at + i] * Math.Sin(turn);
            }

            levels.Add(10 * Math.Log10((re * re) + (im * im) + 1e-12));
        }

        return levels.Max() - levels.Min();
    }
}
