using System.CommandLine;
using System.Text.Json;
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

    [Fact]
    public async Task For_machines_it_is_json_with_its_units()
    {
        (int exit, string text) = await RunAsync(new LoopedSystem(700, 1, 1, IsDevice: true), asJson: true);
        Assert.Equal(0, exit);
        using JsonDocument json = JsonDocument.Parse(text);
        Assert.Equal((14.583, 700.0, 48000), (json.RootElement.GetProperty("delayMs").GetDouble(), json.RootElement.GetProperty("delaySamples").GetDouble(), json.RootElement.GetProperty("sampleRateHz").GetInt32()));
    }

    /// <summary>The devices that the command line names are asked for; without a name the system's own.</summary>
    [Theory]
    [InlineData("", null, null)]
    [InlineData("--output-device hall", "hall", null)]
    [InlineData("--input-device usb:1 --output-device hall", "hall", "usb:1")]
    public void Named_devices_are_asked_for(string line, string? output, string? input)
    {
        List<(string Way, string? Id)> asked = [];
        var system = new LoopedSystem(700, 1, 1, IsDevice: false) { Asked = (way, id) => asked.Add((way, id)) };
        var devices = new DeviceOptions();
        Command command = new("any");
        devices.AddTo(command);
        IAudioSystem named = devices.On(system, command.Parse(line));
        named.OpenOutput(new LineRequest(), _ => { });
        named.OpenInput(new LineRequest(Channels: 1), _ => { });
        named.OpenOutput(new LineRequest("its own"), _ => { });
        Assert.Equal([("out", output), ("in", input), ("out", "its own")], asked);
        Assert.Equal("loop", named.BackEnd);
        Assert.Empty(named.ListDevices());
    }

    private static async Task<(int Exit, string Text)> RunAsync(IAudioSystem system, bool asJson = false)
    {
        using StringWriter text = new();
        int exit = await DelayCommand.RunAsync(system, -20, asJson, text, TestContext.Current.CancellationToken);
        return (exit, text.ToString());
    }

    /// <summary>Output and input joined by a delay line; everything passes when the output starts.</summary>
    private sealed record LoopedSystem(int DelaySamples, int InputChannels, int OutputChannels, bool IsDevice) : IAudioSystem
    {
        private const int Period = 256;
        private const int Blocks = 750;
        private TakeBlock? _take;

        public Action<string, string?> Asked { get; init; } = (_, _) => { };

        public string BackEnd => "loop";

        public IReadOnlyList<AudioDevice> ListDevices() => [];

        public LineOpening OpenInput(LineRequest request, TakeBlock take)
        {
            _take = take;
            Asked("in", request.DeviceId);
            return new LineOpening(new LoopedLine(new LineFormat(48_000, InputChannels, Period, 4), () => { }), IsDevice, "no input");
        }

        public LineOpening OpenOutput(LineRequest request, FillBlock fill)
        {
            Asked("out", request.DeviceId);
            return new LineOpening(new LoopedLine(new LineFormat(48_000, OutputChannels, Period, 4), () => Pass(fill)), IsDevice, "no output");
        }

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
