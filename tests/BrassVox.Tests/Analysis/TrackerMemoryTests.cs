using BrassVox.Analysis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>What a tracker keeps from window to window, and what it forgets when it is begun anew or told of other notes. No outside source: the truth is what was rendered.</summary>
public sealed class TrackerMemoryTests
{
    private const int RateHz = 16_000;
    private const double PlayedHz = 116.5409;
    private const double FifthHz = 174.614;

    /// <summary>Sounds that fill each of a tracker's memories: a pair, its octave, a note beside the declared one, beats, one tone of a pair alone, silence.</summary>
    public static TheoryData<string> Sounds => ["pair", "octave up", "other note", "beats", "one tone left", "coupled"];

    [Theory]
    [MemberData(nameof(Sounds))]
    public void Begun_anew_a_tracker_is_as_new(string before)
    {
        float[] after = Pair(1.2, 98.0, 130.81);
        foreach (DuetPrior prior in new[] { DuetPrior.Held(PlayedHz, FifthHz), DuetPrior.Held(PlayedHz, 2 * PlayedHz), DuetPrior.Free })
        {
            DuetTracker tracker = new(RateHz, prior);
            List<AnalysisFrame> forgotten = [], again = [];
            tracker.Push(Sound(before), forgotten);
            tracker.Reset();
            tracker.Push(after, again);
            Assert.Equal(TakeMeasurement.Frames(after, RateHz, prior), again);
        }
    }

    /// <summary>Told of other notes while it listens, a tracker measures them from the next whole window on, whatever it had weighed for the notes before.</summary>
    [Theory]
    [MemberData(nameof(Sounds))]
    public void Told_of_other_notes_it_measures_those(string before)
    {
        float[] first = Sound(before);
        DuetTracker tracker = new(RateHz, DuetPrior.Held(PlayedHz, before == "beats" || before == "octave up" ? 2 * PlayedHz : FifthHz));
        List<AnalysisFrame> frames = [];
        tracker.Push(first, frames);
        int earlier = frames.Count;
        tracker.SetPrior(DuetPrior.Held(98.0, 130.81));
        tracker.Push(Pair(1.5, 98.0, 130.81), frames);
        double from = ((double)first.Length / RateHz) + DuetTracker.WindowSeconds;
        AnalysisFrame[] inside = [.. frames.Skip(earlier).Where(frame => frame.CentreSeconds > from)];
        Assert.NotEmpty(inside);
        Assert.All(inside, frame =>
        {
            Assert.Equal(Separability.Separable, frame.Separability);
            Assert.InRange(Cents.Between(98.0, frame.Played!.Value.FrequencyHz), -1, 1);
            Assert.InRange(Cents.Between(130.81, frame.Sung!.Value.FrequencyHz), -1, 1);
        });
    }

    private static float[] Sound(string name) => name switch
    {
        "pair" => Pair(1.6, PlayedHz, FifthHz),
        "octave up" => Pair(1.6, PlayedHz, 2 * FifthHz),
        "other note" => Pair(1.6, PlayedHz, 146.83),
        "beats" => Pair(2.2, PlayedHz, (2 * PlayedHz) + 1.7),
        "one tone left" => [.. Pair(1.2, PlayedHz, FifthHz), .. TestTone.Harmonic(RateHz, 0.8, _ => FifthHz, 0.1, seed: 2)],
        _ => Coupled(1.6),
    };

    private static float[] Pair(double seconds, double playedHz, double sungHz) => TestTone.Sum(
        TestTone.Harmonic(RateHz, seconds, _ => playedHz, 0.15), TestTone.Harmonic(RateHz, seconds, _ => sungHz, 0.1, seed: 2), TestTone.Noise(RateHz, seconds, 0.0003, 3));

    private static float[] Coupled(double seconds)
    {
        float[] played = TestTone.Harmonic(RateHz, seconds, _ => PlayedHz, 0.15);
        float[] sung = TestTone.Harmonic(RateHz, seconds, _ => FifthHz, 0.1, seed: 2);
        return TestTone.Sum(played, sung, [.. played.Zip(sung, (p, s) => 5 * p * s)]);
    }
}
