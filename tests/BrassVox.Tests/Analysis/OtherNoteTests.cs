using BrassVox.Analysis;
using BrassVox.Analysis.Tracking;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Pairs of which one note is another than declared, drawn at 6 kHz with their product, window by window. No outside source: the truth is the drawing.</summary>
public sealed class OtherNoteTests
{
    private const int RateHz = 6_000;
    private const int Length = 959;
    private const int Hop = 60;

    private static List<WindowReading> Read(double playedHz, double sungHz, DuetPrior prior, double coupling, double seconds = 1.0)
    {
        float[] played = TestTone.Harmonic(RateHz, seconds, _ => playedHz, 0.1, -6, topHz: 2500, seed: 1);
        float[] sung = TestTone.Harmonic(RateHz, seconds, _ => sungHz, 0.08, -9, topHz: 2500, seed: 2);
        float[] sound = TestTone.Sum(played, sung, TestTone.Noise(RateHz, seconds, 0.0005, 3));
        for (int i = 0; i < sound.Length; i++)
        {
            sound[i] += (float)(coupling * 4.0 * played[i] * sung[i]);
        }

        var reader = new FrameReader(Length, RateHz, 0.01, prior);
        List<WindowReading> readings = [];
        for (int start = 0; start + Length <= sound.Length; start += Hop)
        {
            readings.Add(reader.Read(sound.AsSpan(start, Length)));
        }

        // An attack is no note yet: three windows are not doubted.
        return readings[3..];
    }

    /// <summary>A voice on another note is not told as the declared one, with a strong product and without; the played tone stands. Just intervals, where lines at mP+nS fall on the declared note, among them: a tenth, fifteen to four, nine to two.</summary>
    [Theory]
    [InlineData(116.54, 218.5)]
    [InlineData(116.54, 145.7)]
    [InlineData(116.54, 262.2)]
    [InlineData(116.54, 207.65)]
    [InlineData(58.27, 145.7, 87.41)]
    [InlineData(58.27, 262.2, 87.41)]
    [InlineData(58.27, 174.8, 87.41)]
    [InlineData(58.27, 218.5, 87.41)]
    public void Another_sung_note_is_not_told_as_the_declared_one(double playedHz, double sungHz, double declaredHz = 174.81)
    {
        foreach (double coupling in new[] { 0.0, 0.5 })
        {
            List<WindowReading> readings = Read(playedHz, sungHz, DuetPrior.Held(playedHz, declaredHz), coupling);
            Assert.All(readings, reading => Assert.False(
                reading.Second is { } told && Math.Abs(Cents.Between(declaredHz, told.FrequencyHz)) < 150,
                $"coupling {coupling}: told {reading.Second?.FrequencyHz:0.0} Hz"));
            Assert.All(readings, reading => Assert.False(reading.First is { } told && Math.Abs(Cents.Between(playedHz, told.FrequencyHz)) > 150));
            Assert.Contains(readings, reading => reading.First is { } told && Math.Abs(Cents.Between(playedHz, told.FrequencyHz)) < 10);
        }
    }

    /// <summary>The declared pair itself, as much coupled, keeps both its tones.</summary>
    [Theory]
    [InlineData(116.54, 174.81)]
    [InlineData(116.54, 145.7)]
    [InlineData(116.54, 218.5)]
    [InlineData(116.54, 262.2)]
    [InlineData(58.27, 87.41)]
    [InlineData(58.27, 145.7)]
    [InlineData(174.81, 116.54)]
    public void The_declared_pair_keeps_both(double playedHz, double sungHz)
    {
        foreach (double coupling in new[] { 0.0, 0.5, 1.0 })
        {
            List<WindowReading> readings = Read(playedHz, sungHz, DuetPrior.Held(playedHz, sungHz), coupling);
            Assert.True(readings.All(reading => reading.Separability == Separability.Separable), $"coupling {coupling}: both in {readings.Count(reading => reading.Separability == Separability.Separable)} of {readings.Count}");
        }
    }

    /// <summary>A vibrato of 40 cents to either side, whose lines the longer window does not hold, is no other note.</summary>
    [Theory]
    [InlineData(116.54, 174.81)]
    [InlineData(116.54, 218.5)]
    public void A_declared_pair_with_vibrato_keeps_both(double playedHz, double sungHz)
    {
        float[] played = TestTone.Harmonic(RateHz, 2.0, _ => playedHz, 0.1, -6, topHz: 2500, seed: 1);
        float[] sung = TestTone.Harmonic(RateHz, 2.0, t => Cents.Above(sungHz, 40.0 * Math.Sin(2.0 * Math.PI * 5.0 * t)), 0.08, -9, topHz: 2500, seed: 2);
        float[] sound = TestTone.Sum(played, sung, TestTone.Noise(RateHz, 2.0, 0.0005, 3));
        var reader = new FrameReader(Length, RateHz, 0.01, DuetPrior.Held(playedHz, sungHz));
        int both = 0, windows = 0;
        for (int start = 0; start + Length <= sound.Length; start += Hop, windows++)
        {
            both += reader.Read(sound.AsSpan(start, Length)).Separability == Separability.Separable ? 1 : 0;
        }

        Assert.True(both > 0.9 * windows, $"{both} of {windows}");
    }

    /// <summary>A played note other than declared, under the right voice.</summary>
    [Theory]
    [InlineData(87.31, 116.54, 220.0)]
    [InlineData(174.61, 116.54, 220.0)]
    [InlineData(233.08, 116.54, 207.65)]
    public void Another_played_note_is_not_told_as_the_declared_one(double playedHz, double declaredHz, double sungHz)
    {
        foreach (double coupling in new[] { 0.0, 0.5 })
        {
            Assert.All(Read(playedHz, sungHz, DuetPrior.Held(declaredHz, sungHz), coupling), reading => Assert.False(
                reading.First is { } told && Math.Abs(Cents.Between(declaredHz, told.FrequencyHz)) < 150));
        }
    }

    /// <summary>What was doubted of one pair is forgotten with it.</summary>
    [Fact]
    public void A_new_declaration_is_looked_at_anew()
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 1, _ => 116.54, 0.1, -6, topHz: 2500, seed: 1), TestTone.Harmonic(RateHz, 1, _ => 218.5, 0.08, -9, topHz: 2500, seed: 2), TestTone.Noise(RateHz, 1, 0.0005, 3));
        var reader = new FrameReader(Length, RateHz, 0.01, DuetPrior.Held(116.54, 174.81));
        List<Separability> before = [];
        for (int start = 0; start + Length <= sound.Length; start += Hop)
        {
            before.Add(reader.Read(sound.AsSpan(start, Length)).Separability);
        }

        Assert.Equal(Separability.OneTone, before[^1]);
        reader.SetPrior(DuetPrior.Held(116.54, 218.5));
        Assert.Equal(Separability.Separable, reader.Read(sound.AsSpan(0, Length)).Separability);
    }
}
