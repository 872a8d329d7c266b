using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Sessions on the sample clock of a real engine, rendered at once: no device and no waiting.</summary>
public sealed class SessionTests
{
    [Fact]
    public void A_listening_session_sounds_asks_and_tells()
    {
        var offline = new OfflineEngine();
        var session = new ListeningSession(ShippedExercises.Resolve("separate-or-coupled"), offline.Engine, OfflineEngine.SampleRateHz, 5);
        for (int trial = 1; trial <= session.TrialCount; trial++)
        {
            Assert.Equal(trial, session.TrialNumber + (session.Phase == ListeningPhase.Answered ? 1 : 0));
            session.Next();
            Assert.Equal(ListeningPhase.Sounding, session.Phase);
            float[] sound = offline.Render(session.TrialLengthSeconds + 0.5, session.Poll);
            Assert.Equal(ListeningPhase.Asking, session.Phase);
            Assert.True(sound.Max(Math.Abs) > 0.01f, "nothing sounded");
            session.Answer(trial <= 9 ? session.Trial.CorrectOption!.Value : 1 - session.Trial.CorrectOption!.Value);
            Assert.Equal(trial <= 9, session.LastResult!.Right);
        }

        session.Next();
        Assert.Equal(ListeningPhase.Finished, session.Phase);
        ListeningResult result = session.Result;
        Assert.Equal(0.9, result.Right!.Value.Value, 1e-12);
        Assert.Equal(0.5, result.ChanceShare);
        Assert.Equal(10, result.ByDifficulty.Sum(level => level.Of));
        Assert.Contains("9 of 10", result.Says, StringComparison.Ordinal);
    }

    [Fact]
    public void Taps_become_beats_per_second()
    {
        var offline = new OfflineEngine();
        var session = new ListeningSession(ShippedExercises.Resolve("count-the-beats"), offline.Engine, OfflineEngine.SampleRateHz, 5);
        session.Next();
        double rate = session.Trial.TrueBeatsPerSecond!.Value;
        double next = 0.3;
        offline.Render(session.TrialLengthSeconds + 0.5, () =>
        {
            session.Poll();
            if (session.Phase == ListeningPhase.Sounding && session.TrialSeconds >= next)
            {
                session.Tap();
                next += 1 / rate;
            }
        });
        Assert.Equal(rate, session.TappedPerSecond!.Value, 0.03 * rate);
        session.AnswerRate(session.TappedPerSecond.Value);
        Assert.True(session.LastResult!.Right);
        Assert.Equal(0, session.LastResult.ErrorPercent!.Value, 3.0);
    }

    [Fact]
    public void A_trial_answered_while_it_sounds_does_not_hold_up_the_next()
    {
        var offline = new OfflineEngine();
        var session = new ListeningSession(ShippedExercises.Resolve("separate-or-coupled"), offline.Engine, OfflineEngine.SampleRateHz, 5);
        session.Next();
        offline.Render(0.5, session.Poll);
        session.Answer(0);
        session.Next();
        offline.Render(session.TrialLengthSeconds - 0.2, session.Poll);

        // What is left of the first trial would have ended 0.5 s before the second.
        float[] end = offline.Render(0.2, session.Poll);
        Assert.True(end.Max(Math.Abs) > 0.01f, "the second trial was not heard to its end");
    }

    [Fact]
    public void Tacet_silences_a_trial_for_good()
    {
        var offline = new OfflineEngine();
        var session = new ListeningSession(ShippedExercises.Resolve("find-the-added-tone"), offline.Engine, OfflineEngine.SampleRateHz, 5);
        session.Next();
        offline.Render(1.0, session.Poll);
        session.Tacet();
        offline.Render(0.05, session.Poll);
        float[] after = offline.Render(7, session.Poll);
        Assert.True(after.Max(Math.Abs) < 1e-4f, $"{after.Max(Math.Abs)} after tacet");
        Assert.Equal(ListeningPhase.Asking, session.Phase);
    }

    /// <summary>A microphone that went away in the cue has heard nothing of the take, and the cue is not judged for it.</summary>
    [Fact]
    public async Task Without_a_sample_of_the_take_there_is_nothing_to_judge()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        var offline = new OfflineEngine();
        var session = new PlayAlongSession(resolved, offline.Engine, (rate, prior) => new ScriptedTracker(rate, resolved), new PlayAlongOptions(OfflineEngine.SampleRateHz, 44100, 0.03));
        session.Begin();
        float[] block = new float[441];
        Array.Fill(block, 0.01f);
        double cue = 0.15 + session.CueSeconds;
        int heard = 0;
        offline.Render(cue + 1, () =>
        {
            if (++heard * 0.01 < cue - 0.5)
            {
                session.Hear(block);
            }

            session.Poll();
        });
        Assert.Equal(PlayAlongPhase.Dark, session.Phase);
        session.End();
        RecordedTake recorded = session.Recorded!;
        Assert.True(recorded.Samples.Length > 44100);
        Assert.Equal(((double)recorded.Samples.Length / 44100) + 0.03, recorded.StartSeconds, 0.001);
        JudgedTake judged = await session.Measuring!;
        Assert.Null(judged.Result.AsAsked);
    }

    [Fact]
    public void A_take_goes_from_cue_through_the_dark_and_the_sentence_to_the_reveal()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        var offline = new OfflineEngine();
        var session = new PlayAlongSession(resolved, offline.Engine, (rate, prior) => new ScriptedTracker(rate, resolved), new PlayAlongOptions(OfflineEngine.SampleRateHz, 44100, 0.03));
        session.Begin();
        Assert.Equal(PlayAlongPhase.Cue, session.Phase);

        float[] block = new float[441];
        Array.Fill(block, 0.01f);
        bool askedBoth = false;
        bool droneFirst = false;
        bool droneLate = false;
        float cuePeak = 0;
        float[] output = offline.Render(session.CueSeconds + resolved.TakeSeconds + 1, () =>
        {
            session.Hear(block);
            session.Poll();
            if (session.Phase == PlayAlongPhase.Dark)
            {
                askedBoth |= session.IsAskedNow(VoiceRole.Played) && session.IsAskedNow(VoiceRole.Sung);
                droneFirst |= session.TakeSeconds is > 1 and < 3 && session.IsDroneNow(VoiceRole.Played);
                droneLate |= session.TakeSeconds > 4.5 && session.IsDroneNow(VoiceRole.Played);
            }
        });
        cuePeak = output.Take((int)(session.CueSeconds * 48000)).Max(Math.Abs);
        Assert.True(askedBoth && droneFirst && !droneLate);
        Assert.True(cuePeak > 0.01f, "the cue was not heard");
        Assert.Equal(PlayAlongPhase.SayIt, session.Phase);
        Assert.Null(session.Judged);

        // The drone leaves at four seconds and the last four are silent.
        int go = (int)((0.15 + session.CueSeconds) * 48000);
        Assert.True(output.AsSpan(go + 48000, 48000).ToArray().Max(Math.Abs) > 0.01f);
        Assert.True(output.AsSpan(go + (int)(4.3 * 48000), 48000).ToArray().Max(Math.Abs) < 1e-4f);

        session.Say(new Saying(SaidPitch.True, SaidPitch.High, SaidPair.Beat, SaidLine.Held, Sureness.Certain));
        SpinWait.SpinUntil(() =>
        {
            session.Poll();
            return session.Phase == PlayAlongPhase.Reveal;
        });
        JudgedTake judged = session.Judged!;
        Assert.Equal(1, judged.Number);

        // The take begins where the engine rendered its first sample, plus the round trip, on the input's clock.
        Assert.Equal(0.15 + session.CueSeconds + 0.03, judged.Recorded.StartSeconds, 0.02);
        Assert.True(judged.Recorded.Samples.Length > 44100 * resolved.TakeSeconds);
        IReadOnlyList<SayingCheck> checks = Sayings.Compare(session.Said!, judged.Result);
        Assert.Equal([true, true], checks.Take(2).Select(check => check.IsRight));
    }

    [Fact]
    public void A_muted_microphone_is_neither_passed_nor_failed_and_its_cure_is_named()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        float[] samples = new float[48000 * 10];
        JudgedTake Take() => JudgedTake.Of(resolved, 1, new RecordedTake(samples, 48000, 0.5), (rate, prior) => new DuetTracker(rate, prior));
        TakeResult muted = Take().Result;
        Assert.Null(muted.AsAsked);
        Assert.Contains("Nothing reached the microphone", muted.Next, StringComparison.Ordinal);
        Assert.Contains("Set-up", muted.Next, StringComparison.Ordinal);
        Assert.DoesNotContain(muted.Findings, finding => finding.Verdict == Verdict.Missed);
        samples[48000] = 1e-3f;
        TakeResult missed = Take().Result;
        Assert.False(missed.AsAsked);
        Assert.DoesNotContain("microphone", missed.Next, StringComparison.Ordinal);
    }

    [Fact]
    public void Ending_in_the_cue_keeps_nothing()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        var offline = new OfflineEngine();
        var session = new PlayAlongSession(resolved, offline.Engine, (rate, prior) => new ScriptedTracker(rate, resolved), new PlayAlongOptions(48000, 48000));
        session.Begin();
        offline.Render(1.0, session.Poll);
        session.End();
        Assert.Equal(PlayAlongPhase.Ready, session.Phase);
        Assert.Equal(0, session.TakeNumber);
        float[] after = offline.Render(12, session.Poll);
        Assert.True(after.AsSpan(4800).ToArray().Max(Math.Abs) < 1e-4f, "something sounded after the end");
    }
}
