using BrassVox.Audio;

namespace BrassVox.Tests.Audio;

/// <summary>A back end whose devices a test makes up.</summary>
internal sealed class ScriptedBackEnd(Func<LineDirection, LineRequest, PcmOpening> open) : IBackEnd
{
    internal Func<IReadOnlyList<AudioDevice>> Devices { get; init; } = () => [];

    public string Name => "scripted";

    public IReadOnlyList<AudioDevice> ListDevices() => Devices();

    public PcmOpening Open(LineDirection direction, LineRequest request) => open(direction, request);
}
