using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Which low tones the loudspeaker carries: each sounds plain, and the player says whether it is heard.</summary>
internal sealed class SpeakerTestRoom : Room
{
    private static readonly string[] Words = ["heard", "faint", "not heard"];
    private static readonly char[] Signs = [.. Remembered.SpeakerSigns];
    private readonly int?[] _said = new int?[Count];
    private readonly Choice[] _testing;
    private readonly Choice[] _done;
    private int _now;
    private bool _isResumed;
    private bool _isPlayed;

    /// <summary>Opens the room; nothing sounds until Enter.</summary>
    /// <param name="stand">The stand.</param>
    public SpeakerTestRoom(MusicStand stand)
        : base(stand)
    {
        _testing =
        [
            new Choice("play it", Play),
            .. Words.Select((word, i) => new Choice(word, () => Take(i))),
            new Choice("leave", stand.Back),
        ];
        _done =
        [
            new Choice("sound what lies lower an octave up, marked 8va", () => End(octaveUp: true)),
            new Choice("leave all as written", () => End(octaveUp: false)),
            new Choice("test again", Restart),
            new Choice("leave", stand.Back),
        ];
        foreach (char sign in stand.Memory.Now.SpeakerAnswers)
        {
            _said[_now++] = Array.IndexOf(Signs, sign);
            _isResumed = true;
        }

        Keys = [new("r", "play it again", ['r'], Play), new("z", "undo the last answer", ['z'], Undo)];
    }

    /// <inheritdoc/>
    public override string Title => "SPEAKER";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => IsDone ? _done : _testing;

    /// <inheritdoc/>
    public override string Phase => string.Create(CultureInfo.InvariantCulture, $"{_now}");

    /// <inheritdoc/>
    public override string Where => IsDone
        ? $"Speaker: {Verdict()} Marked: {Choices[MarkedIndex].Label}."
        : string.Create(CultureInfo.InvariantCulture, $"Speaker: {Name(_now)}, {Hz(_now):0} Hz. Marked: {Choices[MarkedIndex].Label}.");

    private bool IsDone => _now >= Count;

    /// <summary>How many tones the test has.</summary>
    public static int Count => Remembered.SpeakerTones.Count;

    /// <inheritdoc/>
    public override void Entered()
    {
        if (_isResumed)
        {
            _isResumed = false;
            Stand.Say(string.Create(CultureInfo.InvariantCulture, $"{_now} of {Count} are kept from before: it goes on at {Name(_now)}. z takes an answer back."));
        }
    }

    /// <inheritdoc/>
    public override void Left() => Stand.Memory.Save();

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (digit < 1 || digit > Choices.Count)
        {
            return false;
        }

        Mark(digit - 1);
        DoMarked();
        return true;
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, "which low tones it carries");
        canvas.Paragraph(1, 2, canvas.Width - 2, "Each tone is plain, without partials, at the level shown. Do not turn it up to hear a low one: small loudspeakers are hurt that way.", Ink.Quiet);
        for (int i = 0; i < Count; i++)
        {
            int y = 5 + i;
            bool here = i == _now;
            canvas.Write(4, y, string.Create(CultureInfo.InvariantCulture, $"{Name(i),-5} {Hz(i),4:0} Hz"), here ? Ink.Text : Ink.Quiet);
            if (here)
            {
                canvas.Put(2, y, Glyphs.InHand);
            }

            canvas.Write(20, y, _said[i] is { } word ? Words[word] : "");
        }

        for (int i = 0; i < Choices.Count; i++)
        {
            bool marked = i == MarkedIndex;
            if (marked)
            {
                canvas.Put(2, 13 + i, Glyphs.Marked, Ink.Marked);
            }

            canvas.Write(4, 13 + i, string.Create(CultureInfo.InvariantCulture, $"{i + 1} {Choices[i].Label}"), marked ? Ink.Marked : Ink.Text);
        }

        if (IsDone)
        {
            canvas.Paragraph(1, 18, canvas.Width - 2, Verdict());
        }

        DrawMarkedLine(canvas, "Up Down other  r again  z undo  Space tacet  h keys");
    }

    private static double Hz(int index) => Tuning.Equal.FrequencyHz(Pitch.Parse(Remembered.SpeakerTones[index]), 440);

    private string Name(int index) => Stand.Name(Pitch.Parse(Remembered.SpeakerTones[index]));

    /// <summary>The lowest tone down to which all were heard; null when not even the first was.</summary>
    private double? Lowest()
    {
        int heard = _said.TakeWhile(word => word is 0 or 1).Count();
        return heard == 0 ? null : Hz(heard - 1);
    }

    private string Verdict() => Lowest() is { } hz
        ? string.Create(CultureInfo.InvariantCulture, $"It carries tones from {hz:0} Hz up. Lower ones are there only through their partials.")
        : "Not even the highest of them was heard: look at the level and the device first.";

    private void Play()
    {
        if (IsDone)
        {
            Stand.Say("All tones are answered; z goes back to the last.");
            return;
        }

        if (!Stand.Desk.HasDevice)
        {
            Stand.Say("No sound device: Set-up, line 1, looks for one.");
            return;
        }

        Stand.Desk.SoundTone(Hz(_now));
        _isPlayed = true;
        Mark(1);
    }

    // Nothing can be said of a tone that has not sounded since it came up.
    private void Take(int word)
    {
        if (!_isPlayed)
        {
            Mark(0);
            Stand.Say(Stand.Desk.HasDevice ? "Play it first: this tone has not sounded yet." : "No sound device: Set-up, line 1, looks for one.");
            return;
        }

        _isPlayed = false;
        _said[_now++] = word;
        Keep();
        Mark(0);
        if (IsDone)
        {
            Stand.Desk.Stop();
            Stand.Memory.Change(now => now with { SpeakerLowestHz = Lowest() });
            Stand.Memory.Save();
        }
        else
        {
            Play();
        }
    }

    private void Undo()
    {
        if (_now == 0)
        {
            Stand.Say("Nothing to undo.");
            return;
        }

        _isPlayed = false;
        _said[--_now] = null;
        Keep();
        Stand.Desk.Stop();
        Mark(0);
    }

    private void Restart()
    {
        Array.Clear(_said);
        _isPlayed = false;
        _now = 0;
        Keep();
        Mark(0);
    }

    // Whoever leaves half way goes on there; a test that is done begins anew.
    private void Keep()
    {
        string answers = IsDone ? "" : string.Concat(_said.Take(_now).Select(word => Signs[word!.Value]));
        Stand.Memory.Change(now => now with { SpeakerAnswers = answers });
    }

    private void End(bool octaveUp)
    {
        if (octaveUp && Lowest() is null)
        {
            Stand.Say("Nothing was heard, so there is no tone to count from.");
            return;
        }

        Stand.Memory.Change(now => now with { OctaveUp = octaveUp });
        Stand.Memory.Save();
        Stand.UseProfile();
        Stand.Back();
        Stand.Say(octaveUp ? "Pairs that lie lower sound in octaves above, and the header says 8va. Beats are then twice as fast." : "All sounds as written.");
    }
}
