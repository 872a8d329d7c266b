using BrassVox.Analysis;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Audio;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Trust the room: what sounds, what listens, what the signs look like, who plays.</summary>
internal sealed partial class SetUpRoom : Room
{
    private const double PeakHeldSeconds = 2;
    private const int SpeakerLine = 0;
    private const int LowTonesLine = 1;
    private const int MicrophoneLine = 2;
    private const int InputLine = 3;
    private const int DelayLine = 4;
    private const int PedalLine = 5;
    private const int SignsLine = 6;
    private const int PlayersLine = 7;
    private const int FirstAnswer = 8;
    private const int ClickLine = FirstAnswer + Answers.Count;
    private const int MostClickChannels = 8;
    private readonly Answers _answers;
    private readonly LoopCheck _loop;
    private readonly Choice[] _choices;
    private Task<IReadOnlyList<AudioDevice>> _listing;
    private IReadOnlyList<AudioDevice> _devices = [];
    private Listener? _listener;
    private double _peakDb = -200;
    private double _peakAt;

    /// <summary>Opens the room and lists devices; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public SetUpRoom(MusicStand stand)
        : base(stand)
    {
        _answers = new Answers(stand);
        _loop = new LoopCheck(stand);
        _listing = Task.Run(stand.Parts.Audio.ListDevices);
        _choices =
        [
            new Choice("speaker", Rescan),
            new Choice("low tones", () => stand.Open(new SpeakerTestRoom(stand))),
            new Choice("microphone", ToggleMicrophone),
            new Choice("input", LookForProcessing),
            new Choice("delay", MeasureDelay),
            new Choice("pedal", () => Change(1)),
            new Choice("signs", () => Change(1)),
            new Choice("players and range", () => stand.Open(new PlayersRoom(stand))),
            .. Enumerable.Range(0, Answers.Count).Select(i => new Choice(Answers.Question(i), () => Change(1))),
            new Choice("click", () => Change(1)),
            new Choice("leave", stand.Back),
        ];
        Keys =
        [
            new("Left", "the answer before", [PressKind.Left], () => Change(-1)),
            new("Right", "the answer after", [PressKind.Right], () => Change(1)),
            new("i", "microphone on, off", ['i'], ToggleMicrophone),
        ];
    }

    /// <inheritdoc/>
    public override string Title => "SET-UP";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => _choices;

    /// <inheritdoc/>
    public override string Where => $"Set-up: {Choices[MarkedIndex].Label} is marked. Left and Right change it.";

    /// <inheritdoc/>
    public override void Left()
    {
        _loop.Stop();
        CloseMicrophone();
        Stand.Memory.Save();
    }

    /// <inheritdoc/>
    public override void Silenced() => _loop.Stop();

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (digit < 1 || digit >= _choices.Length)
        {
            return false;
        }

        Mark(digit - 1);
        return true;
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        _loop.Poll();
        if (_listing.IsCompletedSuccessfully)
        {
            _devices = _listing.Result;
        }

        if (_listener is { IsHearing: true } listener)
        {
            double peak = listener.TakePeakDbfs();
            listener.Collect([]);
            if (peak > _peakDb || Stand.NowSeconds - _peakAt > PeakHeldSeconds)
            {
                _peakDb = peak;
                _peakAt = Stand.NowSeconds;
            }
        }
    }

    private void LookForProcessing()
    {
        CloseMicrophone();
        _loop.LookForProcessing();
    }

    private void MeasureDelay()
    {
        CloseMicrophone();
        _loop.MeasureDelay();
    }

    private AudioDevice[] Fitting(bool isInput) => [.. _devices.Where(device => isInput ? device.IsInput : device.IsOutput)];

    private void Change(int step)
    {
        if (MarkedIndex is >= FirstAnswer and < FirstAnswer + Answers.Count)
        {
            _answers.Change(MarkedIndex - FirstAnswer, step);
            return;
        }

        switch (MarkedIndex)
        {
            case SpeakerLine or MicrophoneLine:
                ChangeDevice(step);
                break;
            case LowTonesLine when Stand.Memory.Now.SpeakerLowestHz is not null:
                Stand.Memory.Change(now => now with { OctaveUp = !now.OctaveUp });
                Stand.UseProfile();
                Stand.Say(Stand.Memory.Now.OctaveUp ? "Pairs that lie lower sound in octaves above, and the header says 8va." : "All sounds as written.");
                break;
            case PedalLine:
                Stand.Memory.Change(now => now with { ArrowPedal = !now.ArrowPedal });
                Stand.Say(Stand.Memory.Now.ArrowPedal ? "Arrows are the pedal now: j l move 5 c in Explore, u d a semitone, Tab marks." : "PgUp and PgDn are the pedal.");
                break;
            case SignsLine:
                Stand.Memory.Change(now => now with { PlainSigns = !now.PlainSigns });
                Stand.Say(Stand.ShowsAsciiOnly ? "This terminal shows plain signs only." : Stand.Memory.Now.PlainSigns ? "Plain signs, from now on." : "Signs as drawn.");
                break;
            case ClickLine:
                Stand.Memory.Change(now => now with { ClickChannel = (now.ClickChannel + step + MostClickChannels + 1) % (MostClickChannels + 1) });
                Stand.UseProfile();
                if (Stand.Memory.Now.ClickChannel > (Stand.Desk.Granted?.Channels ?? 2))
                {
                    Stand.Desk.OpenAgain();
                }

                Stand.SayMeanwhile(Stand.Memory.Now.ClickChannel == 0 ? "The click is mixed in." : "The click has that channel for itself, where the device has it; the tones leave it free while a click runs.");
                break;
            case InputLine or DelayLine or LowTonesLine:
                Stand.Say("Enter tests it.");
                break;
            case PlayersLine:
                Stand.Say("Enter opens it.");
                break;
            default:
                Stand.Say("Enter leaves.");
                break;
        }
    }

    private void ChangeDevice(int step)
    {
        bool isInput = MarkedIndex == MicrophoneLine;
        AudioDevice[] fitting = Fitting(isInput);
        if (fitting.Length == 0)
        {
            Stand.Say(_listing.IsCompleted ? "No other device to choose." : "Looking for devices; again in a moment.");
            return;
        }

        string? chosen = isInput ? Stand.Memory.Now.InputDevice : Stand.Memory.Now.OutputDevice;
        int index = Array.FindIndex(fitting, device => device.Id == chosen);
        int next = (index + 1 + step + fitting.Length + 1) % (fitting.Length + 1);
        string? id = next == 0 ? null : fitting[next - 1].Id;
        _loop.Stop();
        string wasTested = "";
        if (isInput)
        {
            Stand.Memory.Change(now => now with { InputDevice = id, InputFound = null, DelayMs = null });
            CloseMicrophone();
        }
        else
        {
            // What was heard from one loudspeaker says nothing of another, and the delay is that of both devices.
            wasTested = Stand.Memory.Now is { SpeakerLowestHz: null, SpeakerAnswers: "" } ? "" : ". The low tones were those of the other: line 2 tests this one.";
            Stand.Memory.Change(now => now with { OutputDevice = id, DelayMs = null, SpeakerLowestHz = null, SpeakerAnswers = "", OctaveUp = false });
            Stand.UseProfile();
        }

        Stand.Say(DeviceLine(isInput, id) + wasTested);
    }

    private void Rescan()
    {
        _listing = Task.Run(Stand.Parts.Audio.ListDevices);
        Stand.UseProfile();
        Stand.Desk.OpenAgain();
        Stand.SayMeanwhile("Looking for devices and opening the sound again.");
    }

    private void ToggleMicrophone()
    {
        if (_listener is not null)
        {
            CloseMicrophone();
            Stand.Say("Microphone off.");
            return;
        }

        _listener = new Listener(Stand.Parts.Audio, Stand.Parts.CreateTracker, Stand.Memory.Now.InputDevice, DuetPrior.Free);
        Stand.Say("Microphone opening: hold any note.");
    }

    private void CloseMicrophone()
    {
        if (_listener is { } listener)
        {
            listener.Close();
        }

        _listener = null;
        _peakDb = -200;
    }
}
