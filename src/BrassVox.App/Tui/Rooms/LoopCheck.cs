using System.Globalization;
using BrassVox.Analysis.RoundTrip;
using BrassVox.App.Cli;
using BrassVox.App.Tui.Sound;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Test sounds from the loudspeaker through the air to the microphone: the delay, and whether something turns the gain or removes noise.</summary>
/// <param name="stand">The stand.</param>
internal sealed class LoopCheck(MusicStand stand)
{
    private const double LevelDbfs = -20;
    private const double DelaySeconds = 2.25;
    private Action? _breakOff;
    private bool _isBrokenOff;
    private Task<LoopRecording>? _running;
    private Func<LoopRecording, string>? _read;
    private double _lengthSeconds;
    private double _since;

    /// <summary>True while test sounds run.</summary>
    public bool IsRunning => _running is not null;

    /// <summary>How far it is, in words.</summary>
    public string Progress => string.Create(
        CultureInfo.InvariantCulture, $"test sounds, {Math.Min(_lengthSeconds, stand.NowSeconds - _since):0} s of {_lengthSeconds:0}; Space breaks off");

    /// <summary>Measures the delay there and back.</summary>
    public void MeasureDelay()
    {
        DelayProbe? probe = null;
        Begin(DelaySeconds, rate => (probe = new DelayProbe(rate, LevelDbfs)).Signal, recording =>
        {
            DelayReading reading = probe!.Measure(recording.Samples);
            if (!reading.Found)
            {
                return "The tones did not come back: hold the microphone nearer, or raise the level of the device a little.";
            }

            double ms = 1000 * reading.DelaySamples / recording.SampleRateHz;
            stand.Memory.Change(now => now with { DelayMs = Math.Round(ms, 1) });
            return string.Create(CultureInfo.InvariantCulture, $"Delay {ms:0.0} ms there and back{(ms <= 100 ? "" : ": over 100 ms, as wireless headphones are; use a cable for takes")}.");
        });
    }

    /// <summary>Looks for automatic gain and for a noise remover.</summary>
    public void LookForProcessing()
    {
        InputProcessingProbe? probe = null;
        Begin(InputProcessingProbe.LengthSeconds, rate => (probe = new InputProcessingProbe(rate, LevelDbfs)).Signal, recording =>
        {
            InputProcessingReading reading = probe!.Measure(recording.Samples);
            if (!reading.Heard)
            {
                return "The sounds did not come back: hold the microphone nearer to the loudspeaker.";
            }

            string found = (reading.IsGainTurned, reading.IsNoiseRemoved) switch
            {
                (false, false) => string.Create(CultureInfo.InvariantCulture, $"steady to {Math.Max(Math.Abs(reading.LoudDriftDb), Math.Abs(reading.SoftChangeDb)):0.0} dB: nothing turns the gain, nothing removes noise"),
                (true, false) => "something turns the gain: switch automatic gain off in the system",
                (false, true) => "something removes steady sound: switch noise reduction off in the system",
                _ => "gain is turned and steady sound removed: switch both off in the system",
            };
            stand.Memory.Change(now => now with { InputFound = found });
            return $"{char.ToUpperInvariant(found[0])}{found[1..]}.";
        });
    }

    /// <summary>Breaks off what runs.</summary>
    public void Stop()
    {
        _isBrokenOff = IsRunning;
        _breakOff?.Invoke();
        stand.Desk.SoundsElsewhere = false;
    }

    /// <summary>Takes what has ended; called at every tick.</summary>
    public void Poll()
    {
        if (_running is not { IsCompleted: true } ended)
        {
            return;
        }

        _running = null;
        stand.Desk.SoundsElsewhere = false;
        _breakOff = null;
        if (_isBrokenOff)
        {
            stand.Say("Broken off; nothing is changed.");
        }
        else if (!ended.IsCompletedSuccessfully)
        {
            stand.Say($"The test could not run: {ended.Exception?.GetBaseException().Message}");
        }
        else
        {
            stand.Say(ended.Result.Samples.Length == 0 ? ended.Result.Trouble ?? "Nothing was recorded." : _read!(ended.Result));
            stand.Memory.Save();
        }
    }

    private void Begin(double lengthSeconds, Func<int, ReadOnlyMemory<float>> signal, Func<LoopRecording, string> read)
    {
        if (IsRunning)
        {
            stand.Say($"Still running: {Progress}.");
            return;
        }

        _lengthSeconds = lengthSeconds;
        _since = stand.NowSeconds;
        _read = read;
        _isBrokenOff = false;
        var source = new CancellationTokenSource();
        _breakOff = source.Cancel;
        CancellationToken stop = source.Token;
        Remembered now = stand.Memory.Now;
        _running = Task.Run(() => ProbeLoop.RunAsync(stand.Parts.Audio, now.OutputDevice, now.InputDevice, signal, stop), CancellationToken.None);
        stand.Desk.SoundsElsewhere = true;
    }
}
