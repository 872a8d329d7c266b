using BrassVox.Audio;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox exercise run ID</c> with sound: listening as questions line by line, playing along with the microphone.</summary>
internal sealed class ExerciseLive(IAudioSystem audio, Func<TonePresets> loadTones, TakeStore store)
{
    private const int PauseMs = 20;

    /// <summary>Runs a listening exercise on standard input and output.</summary>
    public async Task<int> ListenAsync(ResolvedExercise resolved, int seed, bool asJson, bool findsThreshold = false)
    {
        await using PracticeSound sound = PracticeSound.Open(audio, loadTones(), resolved.Profile);
        if (!sound.Opening.IsDevice)
        {
            return Failure.Say(ExitCode.SoundDevice, sound.Opening.Message ?? "no playback device could be opened.");
        }

        // With --json the conversation goes to standard error, so that standard output is one JSON text.
        TextWriter talk = asJson ? Console.Error : Console.Out;
        var session = new ListeningSession(resolved, sound.Engine, sound.Opening.Line.Granted.SampleRateHz, seed, findsThreshold);
        ListeningResult result = new ListeningPrompts(session, Console.In, talk, () => WaitWhile(sound.Opening.Line)).Run();
        Console.Out.Write(asJson ? ExerciseReportJson.Text(ListeningReport.Of(result)) : ExerciseText.Result(result));
        if (store.Keep(result) is { } trouble)
        {
            return Failure.Say(ExitCode.CannotStore, trouble);
        }

        return sound.Opening.Line.FaultMessage is { } fault ? Failure.Say(ExitCode.SoundDevice, fault) : ExitCode.Done;
    }

    /// <summary>Runs one take with the microphone, keeps it, and prints what it came to.</summary>
    /// <param name="resolved">The exercise.</param>
    /// <param name="live">Delay, click, repetitions.</param>
    /// <param name="asJson">True prints JSON.</param>
    public async Task<int> PlayAsync(ResolvedExercise resolved, LiveTake live, bool asJson)
    {
        await using PracticeSound sound = PracticeSound.Open(audio, loadTones(), resolved.Profile, Math.Max(2, live.ClickChannel));
        var microphone = new MicrophoneFeed();
        LineOpening input = audio.OpenInput(new LineRequest(Channels: 1), microphone.Take);
        await using IAudioLine inputLine = input.Line;
        if (!sound.Opening.IsDevice || !input.IsDevice)
        {
            return Failure.Say(ExitCode.SoundDevice, (sound.Opening.IsDevice ? input.Message : sound.Opening.Message) ?? "no sound device could be opened.");
        }

        LineFormat playing = sound.Opening.Line.Granted;
        LineFormat hearing = inputLine.Granted;
        var session = new PlayAlongSession(resolved, sound.Engine, ExerciseRun.MakeTracker, new PlayAlongOptions(
            playing.SampleRateHz, hearing.SampleRateHz, (live.DelayMs > 0 ? live.DelayMs : playing.BufferMs + (1000.0 * hearing.PeriodSamples / hearing.SampleRateHz)) / 1000, Click: live.Click));
        if (live.ClickChannel > playing.Channels)
        {
            return Failure.Say(ExitCode.SoundDevice, $"the output has {playing.Channels} channels, so there is no channel {live.ClickChannel} for the click; take a smaller --click-channel, or 0.");
        }

        microphone.Connect(session, hearing.Channels, hearing.PeriodSamples);
        inputLine.Start();
        foreach (string line in resolved.Notes.Concat(resolved.Steps.Select(step => step.Prompt)))
        {
            Console.Error.WriteLine(line);
        }

        Console.Error.WriteLine(FormattableString.Invariant($"The cue takes {session.CueSeconds:0} s, the take {resolved.TakeSeconds:0} s. Use headphones: a loudspeaker bleeds into the take."));
        sound.Tap(session.HearSent);
        sound.Click(live.Click == ClickUse.Off ? null : session.RenderClick, live.ClickChannel);
        int code = ExitCode.Done;
        for (int take = 0; take < live.Takes && code == ExitCode.Done; take++)
        {
            code = await TakeAsync(session, live.Expected ?? AskExpected(session), sound, inputLine, asJson);
        }

        await inputLine.StopAsync();
        return code;
    }

    private async Task<int> TakeAsync(PlayAlongSession session, Prediction? expected, PracticeSound sound, IAudioLine inputLine, bool asJson)
    {
        session.Begin(expected);
        bool isRunning = true;
        while (session.Phase is PlayAlongPhase.Cue or PlayAlongPhase.Dark && isRunning)
        {
            isRunning = WaitWhile(sound.Opening.Line) && !inputLine.Completion.IsCompleted;
            session.Poll();
        }

        session.End();
        if (session.Measuring is not { } measuring)
        {
            return Failure.Say(ExitCode.SoundDevice, inputLine.FaultMessage ?? sound.Opening.Line.FaultMessage ?? "the microphone ended before the take began.");
        }

        JudgedTake take = await measuring;
        session.Leave();
        if (take.Drone is { Bleeds: true } drone)
        {
            Console.Error.WriteLine($"brassvox: {drone.Words(take.HasDrone)}");
        }

        return ExerciseRun.Report(take, "", false, store, asJson);
    }

    // Before the cue, so that the number is a prediction. An empty line or the end of the input takes the take without one.
    private static Prediction? AskExpected(PlayAlongSession session)
    {
        while (session.Predicts is { } figure)
        {
            Console.Error.Write($"{Predictions.Question(figure)} (empty: no number): ");
            if (Console.In.ReadLine()?.Trim() is not { Length: > 0 } text)
            {
                return null;
            }

            (Prediction? prediction, string? problem) = Predictions.Read(figure, text);
            if (prediction is not null)
            {
                return prediction;
            }

            Console.Error.WriteLine(problem);
        }

        return null;
    }

    // False once the line has ended: the clock of what sounds stands still then, and nothing would end by itself.
    private static bool WaitWhile(IAudioLine line)
    {
        Thread.Sleep(PauseMs);
        return !line.Completion.IsCompleted;
    }
}
