using System.CommandLine;
using System.Globalization;
using BrassVox.Analysis.RoundTrip;
using BrassVox.Audio;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox delay</c>: the round-trip delay of loudspeaker, air and microphone, by three short rising tones.</summary>
internal static class DelayCommand
{
    public static Command Build(IAudioSystem audio)
    {
        Option<string?> output = new("--output") { Description = "Device to play on; brassvox devices lists them", HelpName = "device" };
        Option<string?> input = new("--input") { Description = "Device to record from", HelpName = "device" };
        Option<double> level = CommonOptions.NumberOption("--level", "dBFS", -60, -6, -20, "Level of the tones");
        Command command = new("delay", "Play three short rising tones, hear them again, and print the round-trip delay; hold the microphone to the loudspeaker or one ear piece")
        {
            output, input, level,
        };
        command.SetAction(async (arguments, _) =>
        {
            using EndAsked ended = new();
            try
            {
                return await RunAsync(audio, arguments.GetValue(output), arguments.GetValue(input), arguments.GetValue(level), Console.Out, ended.Token);
            }
            catch (OperationCanceledException)
            {
                return Failure.Say(ended.Code, "ended before the tones were heard: nothing was measured.");
            }
        });
        return command;
    }

    internal static async Task<int> RunAsync(IAudioSystem audio, string? outputId, string? inputId, double levelDbfs, TextWriter result, CancellationToken stop)
    {
        DelayProbe? probe = null;
        LoopRecording recording = await ProbeLoop.RunAsync(audio, outputId, inputId, rateHz => (probe = new DelayProbe(rateHz, levelDbfs)).Signal, stop);
        return probe is null
            ? Failure.Say(ExitCode.SoundDevice, recording.Trouble ?? "no sound device could be opened.")
            : Report(probe.Measure(recording.Samples), recording.SampleRateHz, result, recording.Trouble);
    }

    private static int Report(DelayReading reading, int rateHz, TextWriter result, string? fault)
    {
        if (!reading.Found)
        {
            return Failure.Say(ExitCode.SoundDevice, fault ?? "the tones did not come back. Hold the microphone nearer, or raise --level a little.");
        }

        result.Write(string.Create(
            CultureInfo.InvariantCulture,
            $"delay    {1000 * reading.DelaySamples / rateHz:F1} ms ({reading.DelaySamples:F1} samples at {rateHz} Hz), the tones differ by {1000 * reading.SpreadSamples / rateHz:F2} ms, confidence {reading.Confidence:F2}\n"));
        return ExitCode.Done;
    }
}
