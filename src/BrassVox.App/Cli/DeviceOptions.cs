using System.CommandLine;
using BrassVox.Audio;

namespace BrassVox.App.Cli;

/// <summary>The options that name sound devices.</summary>
internal sealed class DeviceOptions
{
    private readonly Option<string?> _output = Device("--output-device", "Device to play on");
    private readonly Option<string?> _input = Device("--input-device", "Device to record from");

    /// <summary>Adds the options.</summary>
    /// <param name="command">The command.</param>
    /// <param name="withInput">False for a command that only plays.</param>
    public void AddTo(Command command, bool withInput = true)
    {
        command.Add(_output);
        if (withInput)
        {
            command.Add(_input);
        }
    }

    /// <summary>The machine's sound, in which the named devices stand for the system's own.</summary>
    /// <param name="audio">The machine's sound.</param>
    /// <param name="arguments">The command line.</param>
    public IAudioSystem On(IAudioSystem audio, ParseResult arguments) => new Named(audio, arguments.GetValue(_output), arguments.GetValue(_input));

    private static Option<string?> Device(string name, string description) =>
        new(name) { Description = $"{description}, by its id; brassvox devices lists them (the system's own unless given)", HelpName = "device" };

    private sealed class Named(IAudioSystem audio, string? outputId, string? inputId) : IAudioSystem
    {
        public string BackEnd => audio.BackEnd;

        public IReadOnlyList<AudioDevice> ListDevices() => audio.ListDevices();

        public LineOpening OpenOutput(LineRequest request, FillBlock fill) => audio.OpenOutput(request with { DeviceId = request.DeviceId ?? outputId }, fill);

        public LineOpening OpenInput(LineRequest request, TakeBlock take) => audio.OpenInput(request with { DeviceId = request.DeviceId ?? inputId }, take);
    }
}
