using BrassVox.Audio;

namespace BrassVox.Tests.App.Tui;

/// <summary>A sound system whose lines move only when a test says so; without devices when so made.</summary>
internal sealed class HandAudio(bool hasOutput = true, bool hasInput = true) : IAudioSystem
{
    public const int RateHz = 48000;
    public const int PeriodSamples = 256;

    public string BackEnd => "hand";

    public bool HasOutput { get; set; } = hasOutput;

    public HandLine? Output { get; private set; }

    public string? LastOutputId { get; private set; }

    public HandLine? Input { get; private set; }

    public IReadOnlyList<AudioDevice> ListDevices() =>
        HasOutput ? [new AudioDevice("hand", "Hand line", hasInput, true, true)] : [];

    public LineOpening OpenOutput(LineRequest request, FillBlock fill)
    {
        LastOutputId = request.DeviceId;
        Output = new HandLine(new LineFormat(RateHz, 2, PeriodSamples, request.Periods), fill, null);
        return new LineOpening(Output, HasOutput, HasOutput ? null : "no playback device could be opened");
    }

    public LineOpening OpenInput(LineRequest request, TakeBlock take)
    {
        Input = new HandLine(new LineFormat(RateHz, 1, PeriodSamples, 4), null, take);
        return new LineOpening(Input, hasInput, hasInput ? null : "no recording device could be opened");
    }
}
