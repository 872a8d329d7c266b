using BrassVox.Audio;
using BrassVox.Practice.Section;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary>A section through the sound device: heard once, or as listening trials on standard input.</summary>
internal sealed class SectionLive(IAudioSystem audio, TonePresets tones)
{
    private const float Level = 0.25f;
    private const double TrialSeconds = 4;

    private SectionSound? _sound;
    private float[] _mono = [];
    private int _channels = 1;

    public async Task<int> ListenAsync(SectionReport report, double holdSeconds) => await OnLineAsync(line =>
    {
        var sound = new SectionSound(tones, report, holdSeconds, slides: true);
        Sound(line, sound, sound.Seconds);
        return 0;
    });

    public async Task<int> TrainAsync(IReadOnlyList<SectionTrial> trials) => await OnLineAsync(line =>
    {
        int right = 0;
        int answered = 0;
        foreach (SectionTrial trial in trials)
        {
            string players = string.Join("   ", trial.Report.Tones.Select(tone => $"{tone.Player} {tone.Note}"));
            Console.Out.WriteLine($"Trial {answered + 1} of {trials.Count}. One player is off. Which one?   {players}   q leaves");
            Sound(line, new SectionSound(tones, trial.Report, TrialSeconds, slides: false), TrialSeconds);
            if (Console.In.ReadLine() is not { } answer || answer.Trim() is "q" or "Q")
            {
                break;
            }

            answered++;
            bool isRight = answer.Trim() == trial.Player.ToString(System.Globalization.CultureInfo.InvariantCulture);
            right += isRight ? 1 : 0;
            Console.Out.WriteLine(FormattableString.Invariant($"{(isRight ? "Yes" : "No")}: player {trial.Player}, {trial.Cents:+0;-0} c."));
        }

        if (answered > 0)
        {
            Estimate share = Estimate.OfProportion(right, answered);
            Console.Out.WriteLine(FormattableString.Invariant(
                $"{right} of {answered} told; of all such trials likely {100 * share.Low:0} to {100 * share.High:0} per cent. Guessing gives {100.0 / trials[0].Report.Tones.Count:0}."));
        }

        return 0;
    });

    private async Task<int> OnLineAsync(Func<IAudioLine, int> action)
    {
        LineOpening opening = audio.OpenOutput(new LineRequest(), Fill);
        await using IAudioLine line = opening.Line;
        if (!opening.IsDevice)
        {
            return Failure.Say(ExitCode.SoundDevice, opening.Message ?? "no playback device could be opened.");
        }

        _channels = line.Granted.Channels;
        _mono = new float[line.Granted.PeriodSamples];
        line.Start();
        action(line);
        Volatile.Write(ref _sound, null);
        await line.StopAsync();
        return line.FaultMessage is { } fault ? Failure.Say(ExitCode.SoundDevice, fault) : ExitCode.Done;
    }

    private void Sound(IAudioLine line, SectionSound sound, double seconds)
    {
        sound.Prepare(new RenderFormat(line.Granted.SampleRateHz, line.Granted.PeriodSamples));
        Volatile.Write(ref _sound, sound);
        _ = Task.WaitAny([line.Completion], TimeSpan.FromSeconds(seconds));
    }

    private void Fill(Span<float> interleaved)
    {
        int count = interleaved.Length / _channels;
        if (Volatile.Read(ref _sound) is not { } sound || count > _mono.Length)
        {
            interleaved.Clear();
            return;
        }

        Span<float> mono = _mono.AsSpan(0, count);
        sound.Render(mono);
        for (int i = 0; i < count; i++)
        {
            interleaved.Slice(i * _channels, _channels).Fill(Level * mono[i]);
        }
    }
}
