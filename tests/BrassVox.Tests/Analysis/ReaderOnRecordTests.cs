using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Analysis.Tracking;
using BrassVox.Tests.Support;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>
/// What the reader of windows said of tones that come, leap, rest and come back, on record, with stretch and odds of the roles: its memory from
/// window to window shows here in numbers. As <see cref="TrackerOnRecordTests"/> it says nothing of what is right, and is written anew the same way.
/// </summary>
public sealed class ReaderOnRecordTests
{
    private const int RateHz = 6_000;
    private const int Length = 959;
    private const int Hop = 180;
    private const int EveryReading = 2;
    private static readonly double[] Intervals = [702, 386, 1200, 498, 204, 884, 1902, 12, 1586, 968, 316, 2400];

    // One stretch: both pitches from and to, 0 for a rest, the level of the voice beside the lips and how deep one gates the other.
    private sealed record Stretch(double Seconds, double PlayedHz, double SungHz, double Balance = 0.7, double Coupling = 0, double PlayedToHz = 0, double SungToHz = 0);

    [Theory]
    [InlineData("free", 5)]
    [InlineData("held", 6)]
    [InlineData("moves", 4)]
    [InlineData("voice", 4)]
    [InlineData("told-anew", 3)]
    [InlineData("alone", 16)]
    public void What_is_read_of_changing_tones_is_what_is_on_record(string kind, int scenes) =>
        GoldenRecord.Holds($"reader-{kind}", Enumerable.Range(0, scenes).SelectMany(scene => Told(scene, kind)));

    private static IEnumerable<string> Told(int scene, string kind)
    {
        Random random = new(100 + scene);
        double playedHz = 70 * Math.Pow(2, 1.1 * random.NextDouble());
        double sungHz = Cents.Above(playedHz, Intervals[scene % Intervals.Length] + (10 * (random.NextDouble() - 0.5)));
        double coupling = scene % 2 == 0 ? 0 : 0.25;
        double otherHz = Cents.Above(sungHz, random.Next(2) == 0 ? 300 : -400);
        Stretch pair = new(0.3, playedHz, sungHz, 0.5 + random.NextDouble(), coupling);
        Stretch[] stretches = kind switch
        {
            "held" => [pair, pair with { SungHz = 2 * sungHz }, pair, pair with { SungHz = otherHz }, pair with { PlayedHz = 2 * playedHz }, pair with { PlayedHz = 0 }, pair with { SungHz = 0 }, pair with { PlayedHz = 0.5 * playedHz }],
            "moves" => [pair, pair with { Seconds = 0.7, SungToHz = otherHz }, pair with { SungHz = 2 * otherHz }, pair with { SungHz = 0 }, pair with { SungHz = otherHz }],
            "voice" => [pair, pair with { SungHz = Cents.Above(playedHz, 5), Seconds = 0.5 }, pair with { PlayedHz = 0 }, pair, pair with { PlayedHz = sungHz, SungHz = playedHz }],
            "alone" => [pair with { SungHz = 0 }, pair with { PlayedHz = 0 }, pair with { PlayedHz = 2 * playedHz, SungHz = 0 }, pair, pair with { PlayedHz = 0, SungHz = otherHz }, pair with { PlayedHz = 0, SungHz = 0.5 * sungHz }],
            _ => [pair, pair with { Seconds = 0.15, PlayedHz = 0, SungHz = 0 }, pair, pair with { SungHz = 0 }, pair, pair with { PlayedHz = 0, SungHz = otherHz },
                pair with { Seconds = 0.5, PlayedHz = sungHz, SungHz = Cents.Above(sungHz, 702) }, pair with { Seconds = 0.9, SungHz = Cents.Above(2 * playedHz, 12) }, pair with { PlayedToHz = 0.9 * playedHz, SungToHz = otherHz }],
        };
        float[] sound = Sound(random, stretches, scene % 4 == 3 ? 0.005 : 0.0003);
        DuetPrior declared = DuetPrior.Held(Cents.Above(playedHz, 30), Cents.Above(sungHz, -20));
        DuetPrior prior = kind switch
        {
            "held" or "told-anew" => declared,
            "moves" => scene % 4 == 3
                ? new DuetPrior(playedHz, sungHz, PlayedMoves: true, PlayedLowestHz: 0.55 * playedHz, PlayedHighestHz: 2.2 * playedHz)
                : new DuetPrior(playedHz, scene % 4 == 2 ? null : sungHz, SungMoves: true, SungLowestHz: 0.6 * sungHz, SungHighestHz: 2.5 * sungHz),
            "voice" => scene % 2 == 0 ? DuetPrior.Free : declared,
            "alone" => Alone(declared, scene) with { Alone = scene % 2 == 0 ? VoiceRole.Played : VoiceRole.Sung },
            _ => DuetPrior.Free,
        };
        FrameReader reader = new(Length, RateHz, (double)Hop / RateHz, prior);
        for (int at = 0, i = 0; at + Length <= sound.Length; at += Hop, i++)
        {
            if (kind == "told-anew" && i % 17 == 16)
            {
                Tell(reader, (i / 17) % 4, declared, scene);
            }

            // A contact microphone has the voice up to a cent off, and nothing in a quarter of the windows.
            double voiceHz = Pitch(stretches, at + (Length / 2)).SungHz;
            PitchEstimate? contact = kind == "voice" && voiceHz > 0 && i % 20 < 15 ? new PitchEstimate(Cents.Above(voiceHz, (2 * random.NextDouble()) - 1), -20, 0.9) : null;
            WindowReading x = reader.Read(sound.AsSpan(at, Length), contact);
            if (i % EveryReading == 0)
            {
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{scene} {i} {x.LevelDbfs:F3} {x.Separability} {Tone(x.First)} {Tone(x.Second)} {x.BeatRateHz ?? double.NaN:F4} {x.BeatsBelowHz ?? double.NaN:F4} {x.Segment} {x.FirstIsPlayed:F4} {Tone(x.Series)}");
            }
        }
    }

    private static DuetPrior Alone(DuetPrior declared, int scene) => scene switch
    {
        10 or 11 => declared with { SungMoves = true, SungLowestHz = 0.7 * declared.SungHz!.Value, SungHighestHz = 1.4 * declared.SungHz.Value },
        12 or 13 => declared with { PlayedMoves = true, PlayedLowestHz = 0.7 * declared.PlayedHz!.Value, PlayedHighestHz = 1.4 * declared.PlayedHz.Value },
        14 => declared with { SungHz = null },
        15 => declared with { PlayedHz = null },
        _ => scene % 3 == 2 ? DuetPrior.Free : declared,
    };

    private static void Tell(FrameReader reader, int turn, DuetPrior declared, int scene)
    {
        switch (turn)
        {
            case 0: reader.SetPrior(DuetPrior.Free); break;
            case 1: reader.SetPrior(declared with { Alone = scene % 2 == 0 ? VoiceRole.Sung : VoiceRole.Played }); break;
            case 2: reader.SetPrior(declared with { SungMoves = true, SungLowestHz = 60, SungHighestHz = 900 }); break;
            default: reader.Reset(); break;
        }
    }

    private static string Tone(PitchEstimate? tone) =>
        tone is { } x ? string.Create(CultureInfo.InvariantCulture, $"{x.FrequencyHz:F4} {x.LevelDbfs:F3} {x.Confidence:F4}") : "-";

    private static (double PlayedHz, double SungHz, Stretch Of) Pitch(Stretch[] stretches, int sample)
    {
        double seconds = (double)sample / RateHz;
        foreach (Stretch x in stretches)
        {
            if (seconds < x.Seconds)
            {
                double way = seconds / x.Seconds;
                return (Glide(x.PlayedHz, x.PlayedToHz), Glide(x.SungHz, x.SungToHz), x);

                double Glide(double from, double to) => to > 0 && from > 0 ? from * Math.Pow(to / from, way) : from;
            }

            seconds -= x.Seconds;
        }

        return (0, 0, stretches[^1]);
    }

    private static float[] Sound(Random random, Stretch[] stretches, double noise)
    {
        float[] sound = new float[(int)(stretches.Sum(x => x.Seconds) * RateHz)];
        double[] played = Partials(random, 16), sung = Partials(random, 12);
        double p = random.NextDouble(), s = random.NextDouble();
        for (int i = 0; i < sound.Length; i++)
        {
            (double playedHz, double sungHz, Stretch of) = Pitch(stretches, i);
            double a = TestTone.SeriesSample(played, p, playedHz, RateHz), b = of.Balance * TestTone.SeriesSample(sung, s, sungHz, RateHz);
            sound[i] = (float)((0.1 * (a + b + (of.Coupling * a * b))) + (noise * (random.NextDouble() - 0.5)));
            p += playedHz / RateHz;
            s += sungHz / RateHz;
        }

        return sound;
    }

    private static double[] Partials(Random random, int count)
    {
        double slope = 0.5 + (0.8 * random.NextDouble());
        return [.. Enumerable.Range(1, count).Select(n => Math.Pow(n, -slope) * (0.5 + random.NextDouble()))];
    }
}
