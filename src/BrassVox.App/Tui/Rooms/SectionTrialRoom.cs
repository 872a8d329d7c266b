using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Section;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Listening trials for a section: everybody stands still but one. Which one?</summary>
internal sealed class SectionTrialRoom : Room
{
    private const int Trials = 8;
    private const int PicturesFrom = 40;
    private const int KnowledgeRows = 11;
    private static readonly double[] Offs = [40, 20, 10, 5];
    private readonly SectionReport _still;
    private IReadOnlyList<SectionTrial> _trials = [];
    private int _off = 1;
    private int _at;
    private int _right;
    private int? _answer;
    private bool _isHeard;

    // A set with a trial that nobody could hear is not counted.
    private bool _isUnheard;

    /// <summary>Makes a set; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="still">The section whose moves still it.</param>
    public SectionTrialRoom(MusicStand stand, SectionReport still)
        : base(stand)
    {
        _still = still;
        Keys =
        [
            new("r", "hear it again", ['r'], Hear),
            new(",", "less off, a new set: 40, 20, 10, 5 c", [','], () => ChangeOff(1)),
            new(".", "more off, a new set", ['.'], () => ChangeOff(-1)),
        ];
        Begin();
    }

    /// <inheritdoc/>
    public override string Title => "SECTION, WHO IS OFF";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => this switch
    {
        { IsOver: true } => [new Choice("another set", Begin), Leave],
        { _answer: not null } => [new Choice(_at + 1 < Trials ? "next trial" : "end of the set", Next), new Choice("hear again", Hear), Leave],
        { _isHeard: false } => [new Choice("hear it", Hear), Leave],
        _ => [.. _still.Tones.Select(tone => new Choice($"player {tone.Player}, {Stand.Name(tone.Note)}", () => Answer(tone.Player))), new Choice("hear again", Hear), Leave],
    };

    /// <inheritdoc/>
    public override string Where => IsOver
        ? $"Section trials: the set is done. {Told}"
        : $"Section trials: trial {_at + 1} of {Trials}, one player is {Offs[_off]:0} cents off. {Choices[MarkedIndex].Label} is marked.";

    /// <inheritdoc/>
    public override string Phase => $"{_at} {_isHeard} {_answer}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => _answer is not null ? [Truth, Told] : IsOver ? [Told] : [];

    private Choice Leave => new("leave", Stand.Back);

    private bool IsOver => _at >= Trials;

    private int Answered => _at + (_answer is null ? 0 : 1);

    private string Truth => _trials[_at] is var trial && _answer == trial.Player
        ? string.Create(CultureInfo.InvariantCulture, $"Yes: player {trial.Player}, {trial.Cents:+0;-0} c.")
        : string.Create(CultureInfo.InvariantCulture, $"No: it was player {trial.Player}, {trial.Cents:+0;-0} c; you said {_answer}.");

    private string Told
    {
        get
        {
            if (_isUnheard || (Answered == 0 && Stand.IsUnheard))
            {
                return "This set is not counted: there is no sound device, so nothing can be heard.";
            }

            if (Answered == 0)
            {
                return "Six trials give a first estimate.";
            }

            Estimate share = Estimate.OfProportion(_right, Answered);
            return string.Create(CultureInfo.InvariantCulture,
                $"{_right} of {Answered} told; of all such trials likely {100 * share.Low:0} to {100 * share.High:0} per cent. Guessing gives {100.0 / _still.Tones.Count:0}.");
        }
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (IsOver || _answer is not null || !_isHeard || digit < 1 || digit > _still.Tones.Count)
        {
            return false;
        }

        Answer(digit);
        return true;
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(
            canvas, IsOver ? "set done" : string.Create(CultureInfo.InvariantCulture, $"trial {_at + 1} of {Trials}"),
            string.Create(CultureInfo.InvariantCulture, $"{Offs[_off]:0} c off"));
        int width = canvas.Width - 4;
        int y = canvas.Paragraph(2, 3, width, "All but one stand still. One player is off. Which one?") + 1;
        if (!IsOver && _answer is null && _isHeard)
        {
            for (int i = 0; i < _still.Tones.Count; i++)
            {
                SectionTone tone = _still.Tones[i];
                bool marked = i == MarkedIndex;
                canvas.Put(4, y, marked ? Glyphs.Marked : ' ', Ink.Marked);
                canvas.Write(6, y++, $"{tone.Player} {Stand.Name(tone.Note)}", marked ? Ink.Marked : Ink.Text);
            }
        }
        else if (IsOver)
        {
            y = canvas.Paragraph(2, y, width, "The set is done.");
        }
        else if (_answer is not null)
        {
            y = canvas.Paragraph(2, y, width, Truth);
            if (canvas.Height >= PicturesFrom)
            {
                // Whose partials beat, now that it is answered; above what one can tell.
                SectionRoom.DrawPictures(canvas, y + 1, _trials[_at].Report, Stand.NameNear, canvas.Height - KnowledgeRows);
            }
        }
        else
        {
            y = canvas.Paragraph(2, y, width, "Nothing sounds until Enter. Listen for: whose tone the beats belong to.");
        }

        canvas.Rule(Math.Max(y + 1, canvas.Height - 10));
        canvas.Write(0, Math.Max(y + 2, canvas.Height - 9), "WHAT YOU CAN TELL");
        canvas.Paragraph(2, Math.Max(y + 4, canvas.Height - 7), width, Told);
        DrawMarkedLine(canvas, "Up Down other  r again  , . less off, more  Space tacet  h keys");
    }

    private void Begin()
    {
        _trials = SectionTrial.Build(_still, Trials, Offs[_off], Stand.Seed());
        (_at, _right, _answer, _isHeard, _isUnheard) = (0, 0, null, false, false);
        Mark(0);
    }

    private void ChangeOff(int by)
    {
        int next = _off + by;
        if (next < 0 || next >= Offs.Length)
        {
            Stand.Say(string.Create(CultureInfo.InvariantCulture, $"From {Offs[^1]:0} to {Offs[0]:0} c."));
            return;
        }

        _off = next;
        Stand.Desk.Stop();
        Begin();
        Stand.Say(string.Create(CultureInfo.InvariantCulture, $"A new set: one player is {Offs[_off]:0} c off."));
    }

    private void Hear()
    {
        if (IsOver)
        {
            Stand.Say("The set is done; Enter begins another.");
            return;
        }

        if (Stand.Parts.CreateSection is not { } create)
        {
            Stand.Say("No tones were found to sound it with.");
            return;
        }

        SectionReport report = _trials[_at].Report;
        if (Stand.Desk.TryReplay(() => SectionRoom.Rendered(create(report, false))))
        {
            _isHeard = true;
            _isUnheard |= Stand.IsUnheard;
            Mark(0);
            Stand.Say(Stand.Heard(""));
        }
        else
        {
            Stand.Say("The sound is still opening; again in a moment.");
        }
    }

    private void Answer(int player)
    {
        _answer = player;
        _right += player == _trials[_at].Player ? 1 : 0;
        Mark(0);
    }

    private void Next()
    {
        Stand.Desk.Stop();
        (_at, _answer, _isHeard) = (_at + 1, null, false);
        Mark(0);
    }
}
