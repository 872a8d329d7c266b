using BrassVox.Audio;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>A line that moves only when a test says so.</summary>
internal sealed class HandLine(LineFormat format, FillBlock? fill, TakeBlock? take) : IAudioLine
{
    private readonly TaskCompletionSource<LineEnd> _completion = new();
    private readonly float[] _block = new float[format.PeriodSamples * format.Channels];

    public string Name => "hand";

    public LineFormat Granted => format;

    public long DropoutCount { get; set; }

    public Task<LineEnd> Completion => _completion.Task;

    public string? FaultMessage { get; private set; }

    public bool IsRunning { get; private set; }

    public void Start() => IsRunning = true;

    public Task StopAsync()
    {
        End(LineEnd.Stopped, null);
        return Task.CompletedTask;
    }

    public ValueTask DisposeAsync() => new(StopAsync());

    /// <summary>The device goes away.</summary>
    public void End(LineEnd end, string? message)
    {
        IsRunning = false;
        FaultMessage = message;
        _completion.TrySetResult(end);
    }

    /// <summary>One block out; its mono samples.</summary>
    public float[] Pull()
    {
        Assert.NotNull(fill);
        _block.AsSpan().Fill(float.NaN);
        fill(_block);
        return [.. Enumerable.Range(0, format.PeriodSamples).Select(i => _block[i * format.Channels])];
    }

    /// <summary>One block in.</summary>
    public void Give(ReadOnlySpan<float> mono)
    {
        Assert.NotNull(take);
        for (int i = 0; i < format.PeriodSamples; i++)
        {
            _block.AsSpan(i * format.Channels, format.Channels).Fill(i < mono.Length ? mono[i] : 0);
        }

        take(_block);
    }
}
