using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Sound;
using BrassVox.Audio;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Set-up draws, and the words of its lines.</summary>
internal sealed partial class SetUpRoom
{
    private const double TooSoftDb = -40;
    private const double TooLoudDb = -1;
    private const int StateColumn = 17;
    private const int LastRow = 19;
    private const int WhyFrom = 34;
    private const int WhyWidth = 120;

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, PlayerWords.Line(Stand));
        Remembered now = Stand.Memory.Now;
        DrawLine(canvas, 2, SpeakerLine, "1 SPEAKER", DeviceLine(isInput: false, now.OutputDevice));
        canvas.Write(StateColumn, 3, SpeakerState(), Ink.Quiet);
        DrawLine(canvas, 4, LowTonesLine, "2 low tones", LowTones(now));
        DrawLine(canvas, 5, MicrophoneLine, "3 MICROPHONE", DeviceLine(isInput: true, now.InputDevice));
        canvas.Write(StateColumn, 6, MicrophoneState(), Ink.Quiet);
        DrawLine(canvas, 7, InputLine, "4 input", _loop.IsRunning && MarkedIndex == InputLine ? _loop.Progress : now.InputFound ?? "not tested: Enter plays nine seconds of test sounds");
        DrawLine(canvas, 8, DelayLine, "5 delay", _loop.IsRunning && MarkedIndex == DelayLine ? _loop.Progress : Delay(now));
        DrawLine(canvas, 9, PedalLine, "6 pedal", now.ArrowPedal ? "page keys   [arrows]: left, up back; right, down forward" : "[page keys]   arrows");
        string signs = $"{Glyphs.PlayedStrong} {Glyphs.PlayedWeak} {Glyphs.SungStrong} {Glyphs.SungWeak} {Glyphs.ResultantStrong} {Glyphs.ResultantWeak} {Glyphs.Beating} {Glyphs.Tie} {Glyphs.Grain} {Glyphs.Fog} {Glyphs.High} {Glyphs.Low}";
        DrawLine(canvas, 10, SignsLine, "7 signs", $"{signs}   {(Stand.ShowsAsciiOnly ? "[plain]" : now.PlainSigns ? "as drawn   [plain]" : "[as drawn]   plain")}");
        canvas.Write(StateColumn, 11, Stand.ShowsAsciiOnly ? "This terminal shows plain signs only." : "One column each and all different? If not, take plain.", Ink.Quiet);
        for (int i = 0; i < Answers.Count; i++)
        {
            string digit = FirstAnswer + i + 1 <= 9 ? string.Create(CultureInfo.InvariantCulture, $"{FirstAnswer + i + 1} ") : "  ";
            DrawLine(canvas, 13 + i, FirstAnswer + i, $"{digit}{Answers.Question(i)}", _answers.Shown(i));
        }

        DrawLine(canvas, 12, PlayersLine, "8 players", $"{(Stand.PlayerName.Length > 0 ? Stand.PlayerName + ", " : "")}range {Stand.Name(Stand.Profile.LowestSung)} to {Stand.Name(Stand.Profile.HighestSung)}; Enter: range, names, other players");
        DrawLine(canvas, 18, ClickLine, "  click", ClickWords(now.ClickChannel));
        DrawLabel(canvas, LastRow, _choices.Length - 1, "leave");
        if (canvas.Height >= WhyFrom)
        {
            canvas.Rule(LastRow + 2);
            canvas.Write(2, LastRow + 3, $"WHY   {Choices[MarkedIndex].Label}");
            canvas.Paragraph(8, LastRow + 5, Math.Min(canvas.Width, WhyWidth) - 10, Why(MarkedIndex));
        }

        // A message covers neither this nor the last line of the list.
        canvas.Write(2, Math.Max(LastRow + 1, canvas.Height - 2 - Stand.MessageRows(canvas.Width)), "Headphones keep the drone out of the microphone. One ear stays free.");
        DrawKeyLine(canvas, 0, "Up Down line  Left Right answer  Enter test  i microphone  Space tacet  h keys");
    }

    /// <summary>What a line is good for and what it changes.</summary>
    private static string Why(int index) => index switch
    {
        SpeakerLine => "Where the sound goes. Left and Right choose among the devices; Enter looks for them again, as after plugging one in. Headphones by cable are surest: they keep the drone out of the microphone and lose no time.",
        LowTonesLine => "The tone that two low notes make lies an octave and more below them: 29 Hz for a tuba's fifth. A small loudspeaker does not carry it, and turning it up hurts the speaker and the ear. The test finds the lowest tone yours carries; what lies lower can then sound in octaves above, marked 8va.",
        MicrophoneLine => "What listens while you play and sing. Left and Right choose; i turns it on here, to see its level: hold any note and move nearer or farther until it reads good. Takes never leave this machine.",
        InputLine => "Machines made for talking clean the voice of noise and echo, and a held tone is what they take for noise. The test plays nine seconds and tells whether yours does; turn that off in the system's own settings.",
        DelayLine => "How long the sound takes from the speaker back to the microphone. Over 100 ms a take no longer lies under what was asked. Without cables, as with wireless headphones, it mostly is.",
        PedalLine => "A page-turning pedal sends either page keys or arrows; choose what yours sends. Forward does what is marked. Back makes silence, and in silence marks the next choice.",
        SignsLine => "Some terminals draw a sign two columns wide or not at all, and the pictures fall apart. If the twelve signs do not stand one column each, take plain ones, of letters.",
        PlayersLine => "Several players in one studio keep their takes, plans and ranges apart. The range is what one sings with ease: exercises stay within it.",
        ClickLine => "With more than two output channels the click can have one of its own, for the ear of the one who plays; the room then hears the tones alone.",
        < FirstAnswer => "",
        FirstAnswer => "Which home notes, ranges and registers are used, and whose sound P has.",
        FirstAnswer + 1 => "Where the voice can take part: low ones meet the played tone, high ones mostly lie an octave above. Players, line 8, sets the range note by note.",
        FirstAnswer + 2 => "The pitch of the room: all tones, beats and cents are counted from it. In a cold room take the tuning note of the instrument, in Players.",
        FirstAnswer + 3 => "How notes are named on every screen and handout. B is a semitone below C in the first, a tone below it in the second.",
        FirstAnswer + 4 => "Whether handouts and ready lines name also the note that you read, where your part is written otherwise than it sounds.",
        _ => "Back to where you came from; all is kept.",
    };

    private void DrawLine(Canvas canvas, int y, int index, string label, string state)
    {
        DrawLabel(canvas, y, index, label);
        canvas.Write(StateColumn, y, state);
    }

    // A test that was left comes first: Enter goes on with it. What an earlier one found holds until it is done.
    private static string LowTones(Remembered now) => now switch
    {
        { SpeakerAnswers.Length: > 0 and var answered } => string.Create(
            CultureInfo.InvariantCulture,
            $"{answered} of {SpeakerTestRoom.Count} answered: Enter goes on{(now.SpeakerLowestHz is { } before ? $"; before: from {before:0} Hz, {(now.OctaveUp ? "8va" : "as written")}" : "")}"),
        { SpeakerLowestHz: { } hz } => string.Create(
            CultureInfo.InvariantCulture, $"carried from {hz:0} Hz; lower: {(now.OctaveUp ? "as written   [octave up, 8va]" : "[as written]   octave up, 8va")}"),
        _ => "not tested: Enter plays one after the other",
    };

    private static string Delay(Remembered now) => now.DelayMs is not { } ms
        ? "not measured: Enter plays three short tones"
        : string.Create(CultureInfo.InvariantCulture, $"{ms:0.0} ms there and back; {(ms <= 100 ? "good, under 100 ms" : "too long for takes: use a cable")}");

    private string ClickWords(int channel)
    {
        int channels = Stand.Desk.Granted?.Channels ?? 0;
        return channel == 0 ? "[mixed in]   or on an output channel of its own"
            : string.Create(CultureInfo.InvariantCulture, $"[channel {channel}]{(channels > 0 && channel > channels ? $" this output has {channels}: mixed in" : " for itself")}");
    }

    private void DrawLabel(Canvas canvas, int y, int index, string text)
    {
        bool marked = MarkedIndex == index;
        if (marked)
        {
            canvas.Put(0, y, Glyphs.Marked, Ink.Marked);
        }

        canvas.Write(2, y, text, marked ? Ink.Marked : Ink.Text);
    }

    private string DeviceLine(bool isInput, string? chosen)
    {
        if (!_listing.IsCompleted)
        {
            return "looking for devices";
        }

        AudioDevice[] fitting = Fitting(isInput);
        if (fitting.Length == 0)
        {
            return isInput ? "no input device found" : "no output device found";
        }

        AudioDevice? device = fitting.FirstOrDefault(item => item.Id == chosen);
        int number = device is null ? 0 : Array.IndexOf(fitting, device) + 1;
        return device is null
            ? string.Create(CultureInfo.InvariantCulture, $"[the system's own choice]   {fitting.Length} to choose from")
            : string.Create(CultureInfo.InvariantCulture, $"[{device.Name}]   {number} of {fitting.Length}");
    }

    private string SpeakerState()
    {
        if (Stand.Desk.IsOpening)
        {
            return "opening";
        }

        if (!Stand.Desk.HasDevice || Stand.Desk.Granted is not { } granted)
        {
            return "no sound: pictures and reading rooms work; Enter looks again";
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Stand.Desk.OutputName}, {granted.SampleRateHz} Hz, {granted.PeriodSamples} samples x {granted.Periods}, {granted.BufferMs:0} ms, {Stand.Desk.DropoutCount} dropout{(Stand.Desk.DropoutCount == 1 ? "" : "s")}");
    }

    private string MicrophoneState()
    {
        if (_listener is not { } listener)
        {
            return _listing.IsCompleted && Fitting(true).Length == 0
                ? "plug one in; Enter on line 1 looks again"
                : "off; i or Enter turns it on: then hold any note";
        }

        if (listener.Trouble is { } trouble)
        {
            return Fitting(true).Length == 0 ? "plug one in; Enter on line 1 looks again" : Stand.InThisRoom(trouble);
        }

        if (!listener.IsHearing)
        {
            return "opening";
        }

        string level = _peakDb switch
        {
            < TooSoftDb => "[too soft]   good    too loud",
            > TooLoudDb => " too soft    good   [too loud]",
            _ => " too soft   [good]   too loud",
        };
        return string.Create(CultureInfo.InvariantCulture, $"{level}   peak {Math.Max(_peakDb, -99):0} dB   {listener.SampleRateHz} Hz");
    }
}
