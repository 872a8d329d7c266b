using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Tests.Support;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>
/// What the tracker said of drawn pairs, held and moving, near and off the just intervals, coupled or not, on record: a change of the
/// tracker shows here in numbers, wanted or not. It says nothing of what is right; the other tests do. After a change that is meant,
/// BRASSVOX_RECORD=1 with this class writes the record anew, and the difference is read like code.
/// </summary>
public sealed class TrackerOnRecordTests
{
    private const int RateHz = 16_000;
    private const double Seconds = 0.4;
    private const int EveryFrame = 5;

    private static readonly double[] Intervals = [-500, -204, -31, 12, 96, 204, 316, 386, 470, 498, 590, 702, 715, 814, 884, 996, 1088, 1188, 1212, 1300, 1404, 1586, 1702, 1902, 1915, 2100, 2400];

    [Theory]
    [InlineData("held", 24)]
    [InlineData("moves", 24)]
    [InlineData("octave", 16)]
    [InlineData("free", 12)]
    public void What_is_told_of_drawn_pairs_is_what_is_on_record(string kind, int scenes) =>
        GoldenRecord.Holds($"tracker-{kind}", Enumerable.Range(0, scenes).SelectMany(i => Told(i, kind)));

    private static IEnumerable<string> Told(int scene, string kind)
    {
        Random random = new(scene);
        double playedHz = 50 * Math.Pow(2, 2.2 * random.NextDouble());
        double sungHz = Cents.Above(playedHz, Intervals[scene % Intervals.Length] + (8 * (random.NextDouble() - 0.5)));
        float[] sound = Sound(random, playedHz, sungHz, scene);
        double said = playedHz * Math.Pow(2, (random.NextDouble() - 0.5) / 40);
        DuetPrior prior = kind switch
        {
            "held" => DuetPrior.Held(said, sungHz),
            "moves" => new DuetPrior(said, null, SungMoves: true, SungLowestHz: 0.6 * sungHz, SungHighestHz: 1.6 * sungHz),
            "octave" => scene % 2 == 0 ? DuetPrior.Held(said, 2 * sungHz) : DuetPrior.Held(0.5 * said, sungHz),
            _ => DuetPrior.Free,
        };
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, prior);
        for (int i = 0; i < frames.Count; i += EveryFrame)
        {
            AnalysisFrame x = frames[i];
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{scene} {i} {x.Separability} {Tone(x.Played)} {Tone(x.Sung)} {x.BeatRateHz ?? double.NaN:F5} {x.BeatsBelowHz ?? double.NaN:F4} {Tone(x.RolesOpen?.Lower)} {Tone(x.RolesOpen?.Upper)} {Tone(x.OneSeries)}");
        }
    }

    private static string Tone(PitchEstimate? tone) =>
        tone is { } x ? string.Create(CultureInfo.InvariantCulture, $"{x.FrequencyHz:F5} {x.LevelDbfs:F4} {x.Confidence:F5}") : "-";

    // Two series of falling partials with a formant each, some coupled, some with vibrato, some beginning late, some alone, in noise.
    private static float[] Sound(Random random, double playedHz, double sungHz, int scene)
    {
        float[] sound = new float[(int)(Seconds * RateHz)];
        double[] played = Partials(random, 24), sung = Partials(random, 16);
        double balance = Math.Pow(10, ((18 * random.NextDouble()) - 12) / 20);
        double coupling = scene % 3 == 0 ? 0.15 : 0;
        double vibrato = scene % 4 == 1 ? 0.012 : 0;
        double noise = scene % 5 == 2 ? 0.02 : 0.0005;
        int lateFrom = scene % 7 == 3 ? sound.Length / 3 : 0;
        bool isPlayed = scene % 13 != 6, isSung = scene % 11 != 5;
        double p = random.NextDouble(), s = random.NextDouble();
        for (int i = 0; i < sound.Length; i++)
        {
            double a = isPlayed ? TestTone.SeriesSample(played, p, playedHz, RateHz) : 0;
            double b = isSung && i >= lateFrom ? balance * TestTone.SeriesSample(sung, s, sungHz, RateHz) : 0;
            sound[i] = (float)((0.2 * (a + b + (coupling * a * b * 8))) + (noise * (random.NextDouble() - 0.5)));
            p += playedHz / RateHz;
            s += sungHz * (1 + (vibrato * Math.Sin(2 * Math.PI * 5.5 * i / RateHz))) / RateHz;
        }

        return sound;
    }

    private static double[] Partials(Random random, int count)
    {
        double slope = 0.6 + random.NextDouble(), formant = 1 + (6 * random.NextDouble());
        return [.. Enumerable.Range(1, count).Select(n => (Math.Pow(n, -slope) * (0.5 + random.NextDouble())) + (0.5 * Math.Exp(-Math.Pow(n - formant, 2) / 2)))];
    }
}
