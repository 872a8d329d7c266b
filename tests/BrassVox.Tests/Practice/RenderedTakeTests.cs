using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Synthesised takes of known truth through the real engine, the real tracker and the judge.</summary>
public sealed class RenderedTakeTests
{
    [Theory]
    [InlineData(8, 0, 0)]
    [InlineData(-22, 0, 0)]
    [InlineData(0, -40, 0)]
    [InlineData(0, 0, 12)]
    public void A_synthesised_take_of_the_home_pair_is_measured_right(double offset, double drift, double spread)
    {
        ResolvedExercise resolved = Short(ShippedExercises.Resolve("open-home-pair"), 5);
        SimulatedTone sung = new() { OffsetCents = offset, DriftCents = drift, SpreadCents = spread };
        TakeResult result = Take(resolved, new SimulatedTone(), sung);

        Assert.Equal(0, result.Played!.OffsetCents!.Value, 2.0);
        Assert.Equal(offset, result.Sung!.OffsetCents!.Value, 2.0);
        Assert.InRange(result.Sung.DriftCents!.Value, drift - Math.Max(3, 0.15 * Math.Abs(drift)) - (0.5 * spread), drift + Math.Max(3, 0.15 * Math.Abs(drift)) + (0.5 * spread));
        Assert.InRange(result.Sung.SpreadCents!.Value, 0.85 * spread, Math.Max(2, 1.15 * spread));
        Assert.Equal(0, result.Sung.OnsetSeconds!.Value, 0.060);
    }

    /// <summary>The truth is what was rendered. Sung vibrato lies at 5 to 7 Hz (common range, from memory); a measured sound is read by the same rule.</summary>
    [Theory]
    [InlineData(5.5, 6)]
    [InlineData(5.5, 12)]
    [InlineData(5.0, 30)]
    [InlineData(6.5, 30)]
    [InlineData(5.5, 45)]
    [InlineData(5.5, 60)]
    public void Vibrato_is_judged_as_wide_as_it_is_and_as_it_is_measured(double rate, double width)
    {
        ResolvedExercise resolved = Short(ShippedExercises.Resolve("open-home-pair"), 5);
        JudgedTake take = Judged(resolved, new SimulatedTone(), new SimulatedTone { VibratoHz = rate, VibratoCents = width });
        JudgedTone sung = take.Result.Sung!;
        string told = $"{sung.VibratoCents:0.0} c at {sung.VibratoPerSecond:0.00} Hz, wander {sung.SpreadCents:0.0} c";
        Assert.True(sung.VibratoPerSecond is { } hz && Math.Abs(hz - rate) < 0.05 * rate, told);
        Assert.True(Math.Abs(sung.VibratoCents!.Value - width) < Math.Max(1, (width > 40 ? 0.11 : 0.06) * width), told);
        var measured = ToneReport.Of(take.Recorded.Samples, take.Frames, VoiceRole.Sung, resolved.Pair.SungHz);
        Assert.Equal(measured!.Vibrato!.Value.WidthCents, sung.VibratoCents.Value, Math.Max(0.5, 0.05 * width));

        // What the windows bend of a wide swing is left as wander in both.
        Assert.Equal(measured.SpreadCents, sung.SpreadCents!.Value, 1.0);
        Assert.True(sung.SpreadCents < Math.Max(1.5, 0.35 * width), told);
    }

    [Fact]
    public void A_synthesised_glide_about_the_fifth_is_as_asked()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("voice-glides-about-the-fifth");
        TakeResult result = Take(resolved, new SimulatedTone(), new SimulatedTone());
        Assert.True(result.AsAsked, string.Join("; ", result.Findings.Select(finding => finding.Text)));
    }

    /// <summary>3 cents over Bb2 beat 0.2 times a second, 40 cents 2.7 times (exact arithmetic): the first is a landing, the second is not. One that stood still from its beginning may be one tone alone.</summary>
    [Theory]
    [InlineData(3, true, Verdict.Met)]
    [InlineData(3, false, Verdict.NotTold)]
    [InlineData(40, true, Verdict.Missed)]
    [InlineData(40, false, Verdict.Missed)]
    public void A_synthesised_unison_lands_when_it_comes_to_beat_slower_than_once_a_second(double offset, bool sinks, Verdict verdict)
    {
        ResolvedExercise land = ShippedExercises.Resolve("land-on-the-unison");
        ResolvedExercise resolved = sinks ? land : Short(land, 5);
        TakeResult result = Take(resolved, new SimulatedTone(), new SimulatedTone { OffsetCents = offset });
        Finding landing = result.Findings.Single(finding => finding.Criterion == "landing");
        Assert.True(landing.Verdict == verdict, landing.Text);
    }

    /// <summary>Bb1 and F3, 3:1 within 2 cents; S sung an octave lower is 3:2 and can be told apart. An octave higher, 6:1, it lies on a line of P as the asked one does, and stands as still there as P alone: not judged. The truth is what was rendered.</summary>
    [Theory]
    [InlineData(-1200, true)]
    [InlineData(1200, false)]
    [InlineData(0, false)]
    public void A_twelfth_sung_an_octave_low_is_told_as_that(double octave, bool isTold)
    {
        ResolvedExercise home = Short(ShippedExercises.Resolve("open-home-pair"), 3);
        ResolvedExercise resolved = ExerciseResolver.Resolve(home.Exercise, home.Profile, new PairChoice(Pitch.Parse("Bb1"), Pitch.Parse("F3"))).Resolved!;
        Assert.Equal(3.0, resolved.Pair.SungHz / resolved.Pair.PlayedHz, 0.01);
        TakeResult result = Take(resolved, new SimulatedTone(), new SimulatedTone { OffsetCents = octave });
        string told = string.Join("; ", result.Findings.Select(finding => $"{finding.Verdict} {finding.Fault} {finding.Text}"));
        Assert.True(result.Findings.Any(finding => finding is { Fault: Fault.WrongOctave, Role: VoiceRole.Sung }) == isTold, told);
        Assert.DoesNotContain(result.Findings, finding => finding.Fault == Fault.Late);
        Assert.True(result.AsAsked == (isTold ? false : null), told);
        if (!isTold)
        {
            Finding untold = Assert.Single(result.Findings, finding => finding.Criterion == "octave");
            Assert.Equal((Verdict.NotTold, VoiceRole.Sung), (untold.Verdict, untold.Role));
            Assert.True(result.IsOctaveUntold);
        }
    }

    /// <summary>Five pairs in a row, begun 0.9 s after the count: late, and S 20 c high all the same.</summary>
    [Theory]
    [InlineData(0.9)]
    [InlineData(-0.7)]
    public void Who_is_off_the_clock_is_told_so_and_judged_by_pitch_all_the_same(double late)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("twelve-intervals");
        resolved = resolved with { Steps = [.. resolved.Steps.Take(5)] };
        var sound = new List<float>(new float[2 * OfflineEngine.SampleRateHz]);
        for (int i = 0; i < resolved.Steps.Count; i++)
        {
            int at = (int)((2 + resolved.StepStartSeconds(i)) * OfflineEngine.SampleRateHz);
            sound.AddRange(new float[Math.Max(0, at - sound.Count)]);
            ExerciseStep step = resolved.Steps[i];
            sound.AddRange(OfflineEngine.RenderStep(MadeStep(step, new SimulatedTone(), new SimulatedTone { OffsetCents = 20 }))
                .Skip(OfflineEngine.SampleRateHz / 10).Take((int)(step.DurationSeconds * OfflineEngine.SampleRateHz)));
        }

        JudgedTake take = JudgedTake.Of(resolved, 1, new RecordedTake([.. sound, .. new float[OfflineEngine.SampleRateHz]], OfflineEngine.SampleRateHz, 2 - late), (rate, prior) => new DuetTracker(rate, prior));
        string told = string.Join("; ", take.Result.Findings.Select(finding => $"{finding.Fault} {finding.Text}"));
        Assert.True(take.Result.Findings[0] is { Fault: Fault.Late, Criterion: "clock" }, told);
        Assert.Equal(late, take.Result.Findings[0].Value!.Value, 0.15);
        Assert.Contains(late > 0 ? "s late" : "s early", take.Result.Findings[0].Text, StringComparison.Ordinal);
        Assert.True(Math.Abs(take.Result.Sung!.OffsetCents!.Value - 20) < 4, told);
        Assert.False(take.Result.AsAsked);
    }

    /// <summary>What a player does is rendered as drawn paths through the same script that plays an exercise's model.</summary>
    private static TakeResult Take(ResolvedExercise resolved, SimulatedTone played, SimulatedTone sung) => Judged(resolved, played, sung).Result;

    private static JudgedTake Judged(ResolvedExercise resolved, SimulatedTone played, SimulatedTone sung)
    {
        ExerciseStep step = resolved.Steps[0];
        ExerciseStep made = MadeStep(step, played, sung);
        float[] sound = OfflineEngine.RenderStep(made);
        var recorded = new RecordedTake(sound, OfflineEngine.SampleRateHz, 0.1);
        return JudgedTake.Of(resolved, 1, recorded, (rate, prior) => new DuetTracker(rate, prior));
    }

    private static ExerciseStep MadeStep(ExerciseStep step, SimulatedTone played, SimulatedTone sung)
    {
        var task = (PlayTask)step.Task;
        return step with
        {
            Sounding =
            [
                new SoundingPart(VoiceRole.Played, Made(task.Played!, played, step.DurationSeconds), [.. PathBuilder.Windows(task.Played!)]),
                new SoundingPart(VoiceRole.Sung, Made(task.Sung!, sung, step.DurationSeconds), [.. PathBuilder.Windows(task.Sung!)]),
            ],
            CouplingDepth = 0,
        };
    }

    private static PitchPath Made(AskedPart part, SimulatedTone tone, double seconds)
    {
        // Close enough that straight lines between them take under a hundredth off a vibrato.
        double perSecond = tone.VibratoCents > 0 ? 200 : 50;
        (double, double)[] points = [.. Enumerable.Range(0, (int)(seconds * perSecond) + 1)
            .Select(i => (i / perSecond, Cents.Above(part.Path.FrequencyHz(i / perSecond), tone.Cents(i / perSecond, seconds))))];
        return new PitchPath(points);
    }

    /// <summary>The same exercise with shorter holds, so that the suite stays quick.</summary>
    private static ResolvedExercise Short(ResolvedExercise resolved, double seconds)
    {
        Exercise exercise = resolved.Exercise;
        StepPlan step = exercise.PlayAlong!.Steps[0];
        Motion[] hold = [new Motion(Move.Hold, Seconds: seconds)];
        return ExerciseResolver.Resolve(
            exercise with { PlayAlong = exercise.PlayAlong with { Steps = [step with { Played = hold, Sung = hold, Drone = [] }] } }, resolved.Profile).Resolved!;
    }
}
