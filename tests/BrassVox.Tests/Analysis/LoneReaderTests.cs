using BrassVox.Analysis;
using BrassVox.Analysis.Tracking;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>One tone asked for alone, drawn at 6 kHz, window by window. No outside source: the truth is the drawing.</summary>
public sealed class LoneReaderTests
{
    private const int RateHz = 6_000;
    private const int Length = 959;
    private const int Hop = 60;

    private static List<WindowReading> Read(float[] sound, FrameReader reader)
    {
        List<WindowReading> readings = [];
        for (int start = 0; start + Length <= sound.Length; start += Hop)
        {
            readings.Add(reader.Read(sound.AsSpan(start, Length)));
        }

        return readings;
    }

    private static List<WindowReading> Read(float[] sound, DuetPrior prior) => Read(sound, new FrameReader(Length, RateHz, 0.01, prior));

    private static DuetPrior Sung(double playedHz, double sungHz) => DuetPrior.Held(playedHz, sungHz) with { Alone = VoiceRole.Sung };

    private static float[] Voice(Func<double, double> hz, double seconds = 0.5, double breath = 0.001, double dbPerOctave = -9) => TestTone.Sum(
        TestTone.Harmonic(RateHz, seconds, hz, 0.1, dbPerOctave, topHz: 2500), TestTone.Noise(RateHz, seconds, breath, 4));

    private static void IsVoice(WindowReading reading, double hz, double cents)
    {
        Assert.Equal((Separability.OneTone, null), (reading.Separability, reading.First));
        Assert.Equal(0, Cents.Between(hz, reading.Second!.Value.FrequencyHz), cents);
    }

    /// <summary>A voice alone is told where it sounds: true, 60 c off, an octave off, beside a P whose partials hold its own (twelfth, octave), low and high; 2 c as asked of the tracker.</summary>
    [Theory]
    [InlineData(116.54, 174.61, 0)]
    [InlineData(116.54, 174.61, 60)]
    [InlineData(116.54, 174.61, -1200)]
    [InlineData(116.54, 174.61, 1200)]
    [InlineData(116.54, 349.23, 0)]
    [InlineData(116.54, 349.23, -1200)]
    [InlineData(116.54, 349.23, 1200)]
    [InlineData(116.54, 233.08, 0)]
    [InlineData(233.08, 174.61, 0)]
    [InlineData(233.08, 116.54, 0)]
    [InlineData(58.27, 87.31, 0)]
    public void A_voice_alone_is_told_where_it_sounds(double playedHz, double sungHz, double off)
    {
        double hz = Cents.Above(sungHz, off);
        Assert.All(Read(Voice(_ => hz), Sung(playedHz, sungHz)), reading => IsVoice(reading, hz, 2));
    }

    /// <summary>Breath 20 dB under the voice, and humming with few partials.</summary>
    [Theory]
    [InlineData(0.01, -9)]
    [InlineData(0.003, -18)]
    public void Breath_and_humming_change_nothing(double breath, double dbPerOctave) =>
        Assert.All(Read(Voice(_ => 174.0, breath: breath, dbPerOctave: dbPerOctave), Sung(116.54, 174.61)), reading => IsVoice(reading, 174.0, 2));

    /// <summary>A vibrato of 40 and 60 c at 5.5 a second, which two series explain better than one, is one voice all the same.</summary>
    [Theory]
    [InlineData(116.54, 174.61, 40)]
    [InlineData(116.54, 349.23, 40)]
    [InlineData(116.54, 349.23, 60)]
    public void A_vibrato_is_no_second_tone(double playedHz, double sungHz, double width) =>
        Assert.All(
            Read(Voice(t => Cents.Above(sungHz, width * Math.Sin(2 * Math.PI * 5.5 * t)), seconds: 0.8), Sung(playedHz, sungHz)),
            reading => IsVoice(reading, sungHz, width + 5));

    /// <summary>At the resting tone's place it is that one, unless the asked one lies there in another octave; at any other place it is the asked one.</summary>
    [Fact]
    public void A_lone_tone_is_the_resting_one_at_its_place_only()
    {
        WindowReading lips = Read(Voice(_ => 117.0), Sung(116.54, 174.61))[^1];
        Assert.Equal((Separability.OneTone, null), (lips.Separability, lips.Second));
        Assert.Equal(0, Cents.Between(117.0, lips.First!.Value.FrequencyHz), 2.0);
        WindowReading voice = Read(Voice(_ => 174.0), Sung(116.54, 174.61) with { Alone = VoiceRole.Played })[^1];
        Assert.Equal((null, true), (voice.First, voice.Second is not null));
        IsVoice(Read(Voice(_ => 117.0), Sung(116.54, 233.08))[^1], 117.0, 2);
        IsVoice(Read(Voice(_ => 131.0), Sung(116.54, 174.61))[^1], 131.0, 2);
        IsVoice(Read(Voice(_ => 117.0), Sung(116.54, 174.61) with { SungMoves = true, SungLowestHz = 100, SungHighestHz = 200 })[^1], 117.0, 2);
    }

    [Fact]
    public void Silence_and_noise_hold_no_tone_of_one() => Assert.All(
        [.. Read(TestTone.Noise(RateHz, 0.5, 0.05, 3), Sung(116.54, 174.61)), .. Read(new float[2 * Length], Sung(116.54, 174.61))],
        reading => Assert.Equal((Separability.Silent, null, null), (reading.Separability, reading.First, reading.Second)));

    /// <summary>The resting tone beside the asked one is told: both, once they are looked for, a tenth of a second apart.</summary>
    [Theory]
    [InlineData(116.54, 174.0, 0.1)]
    [InlineData(116.54, 174.0, 0.03)]
    [InlineData(116.54, 147.2, 0.1)]
    public void A_resting_tone_that_sounds_is_told(double playedHz, double sungHz, double scale)
    {
        float[] sound = TestTone.Sum(Voice(_ => sungHz), TestTone.Harmonic(RateHz, 0.5, _ => playedHz, scale, topHz: 2500, seed: 2));
        List<WindowReading> readings = Read(sound, Sung(playedHz, sungHz));
        WindowReading[] both = [.. readings.Where(reading => reading.Separability == Separability.Separable)];
        Assert.True(both.Length > 0.9 * readings.Count, $"{both.Length} of {readings.Count}");
        Assert.All(both, reading =>
        {
            Assert.Equal(0, Cents.Between(playedHz, reading.First!.Value.FrequencyHz), 2.0);
            Assert.Equal(0, Cents.Between(sungHz, reading.Second!.Value.FrequencyHz), 2.0);
        });
    }

    /// <summary>From one asked tone to the other to both: each as its time comes, and a voice that leaps is followed within a tenth of a second.</summary>
    [Fact]
    public void What_is_asked_changes_on_the_way()
    {
        FrameReader reader = new(Length, RateHz, 0.01, Sung(116.54, 174.61));
        WindowReading[] leap = [.. Read(Voice(t => t < 0.5 ? 174.61 : 130.8, seconds: 1.0), reader)];
        IsVoice(leap[20], 174.61, 2);
        Assert.All(leap[^30..], reading => IsVoice(reading, 130.8, 2));
        reader.SetPrior(Sung(116.54, 174.61) with { Alone = VoiceRole.Played });
        Assert.Null(Read(Voice(_ => 116.0), reader)[^1].Second);
        reader.SetPrior(DuetPrior.Held(116.54, 174.61));
        WindowReading pair = Read(TestTone.Sum(Voice(_ => 174.0), TestTone.Harmonic(RateHz, 0.5, _ => 116.54, 0.1, topHz: 2500, seed: 2)), reader)[^1];
        Assert.Equal(Separability.Separable, pair.Separability);
        Assert.Equal(0, Cents.Between(174.0, pair.Second!.Value.FrequencyHz), 2.0);
        reader.Reset();
        Assert.Equal(Separability.OneTone, Read(Voice(_ => 174.0), reader)[0].Separability);
    }
}
