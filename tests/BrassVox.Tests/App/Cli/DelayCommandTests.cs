using BrassVox.App.Cli;
using BrassVox.Audio;
using Xunit;

namespace BrassVox.Tests.App.Cli;

public sealed class DelayCommandTests
{
    [Theory]
    [InlineData(700, 1, 1, "delay    14.6 ms (700.0 samples at 48000 Hz)")]
    [InlineData(2400, 2, 2, "delay    50.0 ms (2400.0 samples at 48000 Hz)")]
    public async Task The_delay_of_a_loop_is_printed(int delaySamples, int inputChannels, int outputChannels, string expected)
    {
        (int exit, string text) = await RunAsync(new LoopedSystem(delaySamples, inputChannels, outputChannels, IsDevice: true));

        Assert.Equal(0, exit);
        Assert.StartsWith(expected, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_loop_longer_than_half_a_second_is_not_believed()
    {
        (int exit, string text) = await RunAsync(new LoopedSystem(40_000, 1, 1, IsDevice: true));
        Assert.NotEqual(0, exit);
        Assert.Empty(text);
    }

    [Fact]
    public async Task Without_a_device_nothing_is_measured()
    {
        (int exit, string text) = await RunAsync(new LoopedSystem(700, 1, 1, IsDevice: false));
        Assert.NotEqual(0, exit);
        Assert.Empty(text);
    }

    private static async Task<(int Exit, string Text)> RunAsync(IAudioSystem system)
    {
        using StringWriter text = new();
        int exit = await DelayCommand.RunAsync(system, null, null, -20, text, TestContext.Current.CancellationToken);
        return (exit, text.ToString());
    }

    /// <summary>Output and input joined by a delay line; everything passes when the output starts.</summary>
    private sealed record LoopedSystem(int DelaySamples, int InputChannels, int OutputChannels, bool IsDevice) : IAudioSystem
    {
        private const int Period = 256;
        private const int Blocks = 750;
        private TakeBlock? _take;

        public string BackEnd => "loop";

        public IReadOnlyList<AudioDevice> ListDevices() => [];

        public LineOpening OpenInput(LineRequest request, TakeBlock take)
        {
            _take = take;
            return new LineOpening(new LoopedLine(new LineFormat(48_000, InputChannels, Period, 4), () => { }), IsDevice, "no input");
        }

        public LineOpening OpenOutput(LineRequest request, FillBlock fill) => new(
            new LoopedLine(new LineFormat(48_000, OutputChannels, Period, 4), () => Pass(fill)), IsDevice, "no output");

        private void Pass(FillBlock fill)
        {
            var air = new Queue<float>(new float[DelaySamples]);
            float[] sent = new float[Period * OutputChannels];
            float[] heard = new float[Period * InputChannels];
            for (int block = 0; block < Blocks; block++)
            {
                fill(sent);
                for (int i = 0; i < Period; i++)
                {
                    air.Enqueue(sent[i * OutputChannels]);
                    heard.AsSpan(i * InputChannels, InputChannels).Fill(air.Dequeue());
                }

                _take!(heard);
            }
        }
    }

    private sealed class LoopedLine(LineFormat granted, Action start) : IAudioLine
    {
        private readonly TaskCompletionSource<LineEnd> _end = new();

        public string Name => "loop";

        public LineFormat Granted => granted;

        public long DropoutCount => 0;

        public Task<LineEnd> Completion => _end.Task;

        public string? FaultMessage => null;

        public void Start() => start();

        public Task StopAsync()
        {
            _end.TrySetResult(LineEnd.Stopped);
            return Task.CompletedTask;
        }

        public ValueTask DisposeAsync() => new(StopAsync());
    }
}
