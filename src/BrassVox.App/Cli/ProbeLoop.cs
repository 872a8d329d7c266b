using BrassVox.Audio;

namespace BrassVox.App.Cli;

/// <summary>
/// Plays a signal once and records from the block in which it starts. It starts only when both lines have run for a while:
/// a line's first blocks say nothing of when the next ones will come. The callbacks allocate nothing.
/// </summary>
internal sealed class ProbeLoop
{
    private const double LeadSeconds = 0.5;
    private const double TailSeconds = 0.6;
    private const int PauseMs = 20;

    // A line that grants a rate but never calls back must not keep the player waiting.
    private const double PatienceSeconds = 8;
    private ReadOnlyMemory<float> _signal;
    private float[] _recorded = [];
    private int _inputChannels = 1;
    private int _outputChannels = 1;
    private int _lead;
    private int _played;
    private int _hasHeard;
    private int _hasBegun;
    private int _written;

    /// <summary>True once the signal and its tail are recorded. Any thread.</summary>
    public bool IsFull => _recorded.Length > 0 && Volatile.Read(ref _written) >= _recorded.Length;

    /// <summary>What was recorded, from the block in which the signal started; after the lines have stopped.</summary>
    public ReadOnlySpan<float> Recorded => _recorded.AsSpan(0, _written);

    /// <summary>Plays a signal on one device and records it on another.</summary>
    /// <param name="audio">The machine's sound.</param>
    /// <param name="outputId">Device to play on, or null for the system's choice.</param>
    /// <param name="inputId">Device to record from, or null for the system's choice.</param>
    /// <param name="signal">Makes the signal for the rate that both were granted; not called when there is no sound.</param>
    /// <param name="stop">Breaks it off.</param>
    public static async Task<LoopRecording> RunAsync(
        IAudioSystem audio, string? outputId, string? inputId, Func<int, ReadOnlyMemory<float>> signal, CancellationToken stop)
    {
        var loop = new ProbeLoop();
        LineOpening input = audio.OpenInput(new LineRequest(inputId, Channels: 1), loop.Take);
        await using IAudioLine inputLine = input.Line;
        LineOpening output = audio.OpenOutput(new LineRequest(outputId, inputLine.Granted.SampleRateHz, Channels: 1, IsRateFixed: true), loop.Fill);
        await using IAudioLine outputLine = output.Line;
        int rateHz = inputLine.Granted.SampleRateHz;
        if (!input.IsDevice || !output.IsDevice)
        {
            return new LoopRecording([], rateHz, (input.IsDevice ? output.Message : input.Message) ?? "no sound device could be opened.");
        }

        if (outputLine.Granted.SampleRateHz != rateHz)
        {
            return new LoopRecording([], rateHz, $"{output.Line.Name} plays at {outputLine.Granted.SampleRateHz} Hz and {input.Line.Name} records at {rateHz} Hz; one rate is needed to measure.");
        }

        ReadOnlyMemory<float> played = signal(rateHz);
        loop.Prepare(played, (int)(LeadSeconds * rateHz), (int)(TailSeconds * rateHz), inputLine.Granted.Channels, outputLine.Granted.Channels);
        inputLine.Start();
        outputLine.Start();
        double patience = PatienceSeconds + ((double)played.Length / rateHz);
        for (double waited = 0; !loop.IsFull && waited < patience && !inputLine.Completion.IsCompleted && !outputLine.Completion.IsCompleted; waited += PauseMs / 1000.0)
        {
            await Task.Delay(PauseMs, stop).ConfigureAwait(false);
        }

        await outputLine.StopAsync().ConfigureAwait(false);
        await inputLine.StopAsync().ConfigureAwait(false);
        return new LoopRecording(loop.Recorded.ToArray(), rateHz, inputLine.FaultMessage ?? outputLine.FaultMessage);
    }

    /// <summary>Before the lines are started.</summary>
    public void Prepare(ReadOnlyMemory<float> signal, int leadSamples, int tailSamples, int inputChannels, int outputChannels)
    {
        _lead = leadSamples;
        _signal = signal;
        _recorded = new float[signal.Length + tailSamples];
        _inputChannels = inputChannels;
        _outputChannels = outputChannels;
    }

    /// <summary>On the output's sound thread.</summary>
    public void Fill(Span<float> interleaved)
    {
        if (_lead > 0 || Volatile.Read(ref _hasHeard) == 0)
        {
            _lead -= interleaved.Length / _outputChannels;
            interleaved.Clear();
            return;
        }

        Volatile.Write(ref _hasBegun, 1);
        ReadOnlySpan<float> signal = _signal.Span;
        for (int i = 0; i + _outputChannels <= interleaved.Length; i += _outputChannels)
        {
            interleaved.Slice(i, _outputChannels).Fill(_played < signal.Length ? signal[_played++] : 0f);
        }
    }

    /// <summary>On the input's sound thread.</summary>
    public void Take(ReadOnlySpan<float> interleaved)
    {
        Volatile.Write(ref _hasHeard, 1);
        if (Volatile.Read(ref _hasBegun) == 0)
        {
            return;
        }

        int written = _written;
        for (int i = 0; i + _inputChannels <= interleaved.Length && written < _recorded.Length; i += _inputChannels)
        {
            float sum = 0;
            for (int channel = 0; channel < _inputChannels; channel++)
            {
                sum += interleaved[i + channel];
            }

            _recorded[written++] = sum / _inputChannels;
        }

        Volatile.Write(ref _written, written);
    }
}
