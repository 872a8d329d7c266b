using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Analysis.RoundTrip;
using BrassVox.Audio;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox delay</c>: the round-trip delay of loudspeaker, air and microphone, by three short rising tones.</summary>
internal static class DelayCommand
{
    public static Command Build(IAudioSystem audio)
    {
        var devices = new DeviceOptions();
        Option<bool> json = CommonOptions.Json();
        Option<double> level = CommonOptions.NumberOption("--level", "dBFS", -60, -6, -20, "Level of the tones");
        Command command = new("delay", "Play three short rising tones, hear them again, and print the round-trip delay; hold the microphone to the loudspeaker or one ear piece")
        {
            level, json,
        };
        devices.AddTo(command);
        command.SetAction(async (arguments, _) =>
        {
            using EndAsked ended = new();
            try
            {
                return await RunAsync(devices.On(audio, arguments), arguments.GetValue(level), arguments.GetValue(json), Console.Out, ended.Token);
            }
            catch (OperationCanceledException)
            {
                return Failure.Say(ended.Code, "ended before the tones were heard: nothing was measured.");
            }
        });
        return command;
    }

    internal static async Task<int> RunAsync(IAudioSystem audio, double levelDbfs, bool asJson, TextWriter result, CancellationToken stop)
    {
        DelayProbe? probe = null;
        LoopRecording recording = await ProbeLoop.RunAsync(audio, null, null, rateHz => (probe = new DelayProbe(rateHz, levelDbfs)).Signal, stop);
        return probe is null
            ? Failure.Say(ExitCode.SoundDevice, recording.Trouble ?? "no sound device could be opened.")
            : Report(probe.Measure(recording.Samples), recording.SampleRateHz, asJson, result, recording.Trouble);
    }

    private static int Report(DelayReading reading, int rateHz, bool asJson, TextWriter result, string? fault)
    {
        if (!reading.Found)
        {
            return Failure.Say(ExitCode.SoundDevice, fault ?? "the tones did not come back. Hold the microphone nearer, or raise --level a little.");
        }

        if (asJson)
        {
            result.Write(JsonSerializer.Serialize(DelayReport.Of(reading, rateHz), DelayReportJson.Default.DelayReport) + "\n");
            return ExitCode.Done;
        }

        result.Write(string.Create(
            CultureInfo.InvariantCulture,
            $"delay    {1000 * reading.DelaySamples / rateHz:F1} ms ({reading.DelaySamples:F1} samples at {rateHz} Hz), the tones differ by {1000 * reading.SpreadSamples / rateHz:F2} ms, confidence {reading.Confidence:F2}\n"));
        return ExitCode.Done;
    }
}

/// <summary>What <c>delay --json</c> prints.</summary>
internal sealed record DelayReport(double DelayMs, double DelaySamples, int SampleRateHz, double SpreadMs, double Confidence)
{
    public static DelayReport Of(DelayReading reading, int rateHz) => new(
        Math.Round(1000 * reading.DelaySamples / rateHz, 3), Math.Round(reading.DelaySamples, 1), rateHz, Math.Round(1000 * reading.SpreadSamples / rateHz, 3), Math.Round(reading.Confidence, 3));
}

/// <summary>How it is written.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, NewLine = "\n")]
[JsonSerializable(typeof(DelayReport))]
internal sealed partial class DelayReportJson : JsonSerializerContext;
