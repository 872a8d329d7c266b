using System.Globalization;
using BrassVox.Analysis.Tracking;
using BrassVox.Tests.Support;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>
/// Which tone of a declared pair is said to be another note, window by window, on record: p, s, or - where both are there; the last sign is the first
/// look after all was forgotten, always -. A hundred and twenty pairs, a tone of each 0 to 7 semitones off. It says nothing of what is right
/// (<see cref="OtherNoteTests"/> does); written anew with BRASSVOX_RECORD=1.
/// </summary>
public sealed class OtherNoteOnRecordTests
{
    private const int RateHz = 6_000;
    private const int Length = 959;
    private const int Windows = 9;
    private static readonly double[] Intervals = [702, 386, 1200, 498, 204, 884, 1902, 12, 1586, 968, 316, 2400, -498, -1200];

    [Fact]
    public void What_is_told_of_other_notes_is_what_is_on_record() => GoldenRecord.Holds("other-note", Enumerable.Range(0, 120).Select(Told));

    private static string Told(int scene)
    {
        Random random = new(500 + scene);
        double playedHz = 60 * Math.Pow(2, 1.3 * random.NextDouble());
        double sungHz = Cents.Above(playedHz, Intervals[scene % Intervals.Length] + (20 * (random.NextDouble() - 0.5)));
        double offCents = 100 * random.Next(-7, 8);
        (double declaredPlayedHz, double declaredSungHz) = scene % 3 == 0 ? (Cents.Above(playedHz, offCents), sungHz) : (playedHz, Cents.Above(sungHz, offCents));
        double coupling = (scene % 4) switch { 0 => 0, 1 => 0.15, 2 => 0.3, _ => 0.6 };
        double balance = 0.3 + (1.2 * random.NextDouble());
        float[] played = TestTone.Harmonic(RateHz, 0.22, _ => playedHz, 0.1, -4 - (6 * random.NextDouble()), topHz: 2500, seed: scene);
        float[] sung = TestTone.Harmonic(RateHz, 0.22, _ => sungHz, 0.1 * balance, -5 - (8 * random.NextDouble()), topHz: 2500, seed: scene + 1);
        float[] sound = TestTone.Sum(played, sung, [.. played.Zip(sung, (a, b) => (float)(coupling * 8 * a * b))], TestTone.Noise(RateHz, 0.22, 0.0005, scene));
        WindowSpectrum spectrum = new(Length, RateHz, Decimator.BandTopHz);
        PairSearch search = new(spectrum);
        Residual residual = new(spectrum);
        OtherNote other = new();
        char[] told = new char[Windows + 1];
        for (int i = 0; i <= Windows; i++)
        {
            if (i == Windows)
            {
                other.Clear();
            }

            spectrum.Take(sound.AsSpan(45 * (i % Windows), Length));
            VoiceRole? missing = other.Look(search, search.Acquire(declaredPlayedHz, declaredSungHz, 100), residual.BandPower(20, PairSearch.TopHz));
            told[i] = missing switch { VoiceRole.Played => 'p', VoiceRole.Sung => 's', _ => '-' };
        }

        return string.Create(CultureInfo.InvariantCulture, $"{scene} {new string(told)}");
    }
}
