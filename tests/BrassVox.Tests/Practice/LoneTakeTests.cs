using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Steps that ask for one tone, from what the tracker is told to what the take comes to. No outside source: the truth is what was rendered.</summary>
public sealed class LoneTakeTests
{
    /// <summary>Which tone is asked for alone, stretch by stretch: S; four beats each in turn; both throughout.</summary>
    [Theory]
    [InlineData("sing-it-back", "0 S", "S")]
    [InlineData("sing-through-the-instrument", "", "S")]
    [InlineData("alternate", "0 P, 4 S, 8 P, 12 S", "-")]
    [InlineData("open-home-pair", "", "-")]
    public void The_tracker_is_told_which_tone_is_asked_for_alone(string id, string stretches, string whole)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(id);
        DuetPrior prior = TakeAnalysis.PriorOf(resolved);
        Assert.Equal(whole, Name(prior));
        Assert.Equal(stretches, string.Join(", ", PriorTrack.Of(resolved, prior).Select(item => $"{Math.Max(0, item.Seconds):0} {Name(item.Prior)}")));
    }

    [Fact]
    public void In_every_step_of_the_overlap_P_is_alone_before_S_joins()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("overlap");
        (double Seconds, DuetPrior Prior)[] told = [.. PriorTrack.Of(resolved, TakeAnalysis.PriorOf(resolved))];
        Assert.Equal(10, told.Length);
        for (int i = 0; i < 5; i++)
        {
            Assert.Equal(("P", "-"), (Name(told[2 * i].Prior), Name(told[(2 * i) + 1].Prior)));
            Assert.Equal(resolved.StepStartSeconds(i) + 2, told[(2 * i) + 1].Seconds, 1e-6);
        }
    }

    /// <summary>A right voice alone is measured within 2 c in 95 % of the frames and never as P; 60 c and an octave off it is told as that, with a vibrato it is as asked.</summary>
    [Theory]
    [InlineData(VoiceKind.Low, 0, 0, Fault.None)]
    [InlineData(VoiceKind.High, 0, 0, Fault.None)]
    [InlineData(VoiceKind.Low, 0, 35, Fault.None)]
    [InlineData(VoiceKind.High, 60, 0, Fault.Offset)]
    [InlineData(VoiceKind.Low, 1200, 0, Fault.WrongOctave)]
    [InlineData(VoiceKind.High, -1200, 0, Fault.WrongOctave)]
    public void A_voice_alone_is_judged_by_what_it_did(VoiceKind voice, double off, double vibrato, Fault fault)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("sing-through-the-instrument", voice: voice);
        JudgedTake take = Sung(resolved, off, vibrato);
        string told = string.Join("; ", take.Result.Findings.Select(finding => $"{finding.Verdict} {finding.Text}"));
        Assert.True(take.Result.AsAsked == (fault == Fault.None), told);
        Assert.True(fault == Fault.None || take.Result.Findings.Any(finding => finding.Fault == fault), told);
        AnalysisFrame[] inside = [.. take.Frames.Where(frame => frame.CentreSeconds is > 0.3 and < 7.9)];
        Assert.All(inside, frame => Assert.Null(frame.Played));
        double hz = Cents.Above(resolved.Pair.SungHz, off);
        int near = inside.Count(frame => frame.Sung is { } sung && Math.Abs(Cents.Between(hz, sung.FrequencyHz)) < 2 + (1.2 * vibrato));
        Assert.True(near >= 0.95 * inside.Length, $"{near} of {inside.Length}");
    }

    /// <summary>Silence, and the lips in place of the voice: the voice is told as missing.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_voice_that_is_missing_is_told_as_missing(bool isPlayed)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("sing-through-the-instrument");
        float[] sound = isPlayed
            ? Rendered(resolved.Steps[0], VoiceRole.Played, PitchPath.Constant(resolved.Pair.PlayedHz), [new(0, 8)])
            : TestNoise();
        JudgedTake take = Judged(resolved, sound);
        Assert.False(take.Result.AsAsked);
        Assert.Contains(take.Result.Findings, finding => finding is { Fault: Fault.NoTone, Role: VoiceRole.Sung });
    }

    /// <summary>The added tone sung in the octave asked and beside it, low voice and high.</summary>
    [Theory]
    [InlineData(VoiceKind.Low, 0, true)]
    [InlineData(VoiceKind.Low, 1200, true)]
    [InlineData(VoiceKind.High, 1200, true)]
    [InlineData(VoiceKind.Low, 60, false)]
    public void An_added_tone_sung_back_in_any_octave_is_as_asked(VoiceKind voice, double off, bool isAsAsked)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("sing-it-back", voice: voice);
        resolved = resolved with { Steps = [resolved.Steps[0]] };
        JudgedTake take = Sung(resolved, off, 0);
        Assert.True(take.Result.AsAsked == isAsAsked, string.Join("; ", take.Result.Findings.Select(finding => finding.Text)));
        Assert.Equal(off - (1200 * Math.Round(off / 1200)), take.Result.Findings.Single(finding => finding.Criterion == "offset").Value!.Value, 2.0);
    }

    /// <summary>An octave that stands still from its beginning to its end is one tone as well: the step is not passed on it. Beats, or a moment apart, tell of two.</summary>
    [Theory]
    [InlineData(null, false, null)]
    [InlineData(0.3, false, true)]
    [InlineData(null, true, true)]
    public void A_step_of_two_tones_is_not_passed_on_one(double? beats, bool isApartFirst, bool? isAsAsked)
    {
        ResolvedExercise home = ShippedExercises.Resolve("open-home-pair");
        ResolvedExercise octave = ExerciseResolver.Resolve(home.Exercise, home.Profile, new PairChoice(Pitch.Parse("Bb2"), Pitch.Parse("Bb3"))).Resolved!;
        (double playedHz, double sungHz) = (octave.Pair.PlayedHz, octave.Pair.SungHz);
        AnalysisFrame[] frames = [.. Enumerable.Range(0, 820).Select(i => new AnalysisFrame(
            i * 480, 7680, 48000, -20, new PitchEstimate(playedHz, -20, 0.9), null, beats, Separability.NotSeparable) { BeatsBelowHz = beats is null ? 0.2 : null })];
        for (int i = 100; isApartFirst && i < 130; i++)
        {
            frames[i] = frames[i] with { Sung = new PitchEstimate(sungHz, -20, 0.9), Separability = Separability.Separable };
        }

        TakeResult result = TakeJudge.Judge(octave, frames, 0);
        Assert.True(result.AsAsked == isAsAsked, string.Join("; ", result.Findings.Select(finding => $"{finding.Verdict} {finding.Text}")));
        Assert.Equal(isAsAsked is null, result.Findings.Any(finding => finding is { Criterion: "second", Verdict: Verdict.NotTold }));
    }

    /// <summary>Another note sung than asked, coupled: told where it sounds and as another note, not as the asked one that a line of coupling falls on.</summary>
    [Theory]
    [MemberData(nameof(OtherNotes), false)]
    public void Another_sung_note_is_told_where_it_sounds(Instrument instrument, double cents, double coupling)
    {
        JudgedTake take = Coupled(instrument, cents, coupling);
        string told = string.Join("; ", take.Result.Findings.Select(finding => $"{finding.Verdict} {finding.Text}"));
        Assert.False(take.Result.AsAsked, told);
        Assert.Contains(take.Result.Findings, finding => finding is { Fault: Fault.OtherNote, Role: VoiceRole.Sung });
        Assert.True(Math.Abs(take.Result.Sung!.OffsetCents!.Value - cents) < 3, told);
        Assert.True(Math.Abs(take.Result.Played!.OffsetCents!.Value) < 3, told);
        Assert.StartsWith("Another note than asked", take.Result.Next, StringComparison.Ordinal);
    }

    /// <summary>Where two tones an octave or on one root leave it open, the take is not as asked, and no place near the asked one is told.</summary>
    [Theory]
    [MemberData(nameof(OtherNotes), true)]
    public void Another_sung_note_that_cannot_be_told_is_not_as_asked(Instrument instrument, double cents, double coupling)
    {
        JudgedTake take = Coupled(instrument, cents, coupling);
        Assert.NotEqual(true, take.Result.AsAsked);
        Assert.False(take.Result.Sung?.OffsetCents is { } offset && Math.Abs(offset) < 50, $"{take.Result.Sung?.OffsetCents} c");
    }

    /// <summary>Another note played than asked, under the right voice: told of the lips, and nothing of the voice but that it was right.</summary>
    [Theory]
    [InlineData(498.0)]
    [InlineData(386.3)]
    [InlineData(-315.6)]
    [InlineData(203.9)]
    public void Another_played_note_is_told_of_the_lips(double cents)
    {
        JudgedTake take = Coupled(Instrument.Trombone, 0, 0.2, cents);
        string told = string.Join("; ", take.Result.Findings.Select(finding => $"{finding.Verdict} {finding.Text}"));
        Assert.False(take.Result.AsAsked, told);
        Assert.DoesNotContain(take.Result.Findings, finding => finding is { Fault: Fault.OtherNote, Role: VoiceRole.Sung });
        Assert.Contains(take.Result.Findings, finding => finding is { Fault: Fault.OtherNote, Role: VoiceRole.Played } || (finding is { Fault: Fault.NoTone or Fault.TooShort, Role: VoiceRole.Played }));
        Assert.True(take.Result.Played?.OffsetCents is not { } offset || Math.Abs(offset - cents) < 3, told);
    }

    /// <summary>A whole tone over the asked fifth, a minor third under it, a third, a sixth and a tenth over it, each three times coupled; four of the thirty are not told.</summary>
    public static IEnumerable<TheoryDataRow<Instrument, double, double>> OtherNotes(bool isUntold)
    {
        (Instrument, double, double)[] untold =
        [
            (Instrument.Trombone, 386.3, 0), (Instrument.Trombone, 386.3, 0.6), (Instrument.Trombone, 1586.3, 0.3), (Instrument.Trombone, 1586.3, 0.6),
        ];
        return from instrument in new[] { Instrument.Tuba, Instrument.Trombone }
               from cents in new[] { 182.4, -315.6, 386.3, 884.4, 1586.3 }
               from coupling in new[] { 0, 0.3, 0.6 }
               where untold.Contains((instrument, cents, coupling)) == isUntold
               select new TheoryDataRow<Instrument, double, double>(instrument, cents, coupling);
    }

    private static JudgedTake Coupled(Instrument instrument, double cents, double coupling, double playedCents = 0)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair", instrument);
        PitchPath sung = PitchPath.Constant(Cents.Above(resolved.Pair.SungHz, cents));
        return Judged(resolved, OfflineEngine.RenderStep(resolved.Steps[0] with
        {
            Sounding = [new SoundingPart(VoiceRole.Played, PitchPath.Constant(Cents.Above(resolved.Pair.PlayedHz, playedCents)), [new(0, 8)]), new SoundingPart(VoiceRole.Sung, sung, [new(0, 8)])],
            CouplingDepth = coupling,
            Resultants = null,
        }));
    }

    private static string Name(DuetPrior prior) => prior.Alone switch { VoiceRole.Played => "P", VoiceRole.Sung => "S", _ => "-" };

    private static float[] TestNoise()
    {
        var random = new Random(3);
        return [.. Enumerable.Range(0, 9 * OfflineEngine.SampleRateHz).Select(_ => (float)(0.02 * ((2 * random.NextDouble()) - 1)))];
    }

    private static JudgedTake Sung(ResolvedExercise resolved, double off, double vibrato)
    {
        ExerciseStep step = resolved.Steps[0];
        AskedPart part = ((PlayTask)step.Task).Sung!;
        var tone = new SimulatedTone { OffsetCents = off, VibratoCents = vibrato };
        (double, double)[] points = [.. Enumerable.Range(0, (int)(step.DurationSeconds * 200) + 1)
            .Select(i => (i / 200.0, Cents.Above(part.Path.FrequencyHz(i / 200.0), tone.Cents(i / 200.0, step.DurationSeconds))))];
        return Judged(resolved, Rendered(step, VoiceRole.Sung, new PitchPath(points), [.. PathBuilder.Windows(part)]));
    }

    private static float[] Rendered(ExerciseStep step, VoiceRole role, PitchPath path, IReadOnlyList<Window> windows) =>
        OfflineEngine.RenderStep(step with { Sounding = [new SoundingPart(role, path, windows)], CouplingDepth = 0, Resultants = null });

    private static JudgedTake Judged(ResolvedExercise resolved, float[] sound) =>
        JudgedTake.Of(resolved, 1, new RecordedTake(sound, OfflineEngine.SampleRateHz, 0.1), (rate, prior) => new DuetTracker(rate, prior));
}
