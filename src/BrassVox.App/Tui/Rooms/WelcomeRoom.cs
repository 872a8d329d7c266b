using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Exercises;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The first run: sound before questions, and every question answered already.</summary>
internal sealed class WelcomeRoom : Room
{
    private const int PictureFrom = 40;
    private readonly Answers _answers;
    private readonly Choice[] _choices;

    /// <summary>Opens the room; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public WelcomeRoom(MusicStand stand)
        : base(stand)
    {
        _answers = new Answers(stand);
        _choices =
        [
            new Choice("hear a fifth", Hear),
            .. Enumerable.Range(0, Answers.Count - 1).Select(i => new Choice(Answers.Question(i), () => Mark(i + 2))),
            new Choice("open Start", Finish),
        ];
        Keys =
        [
            new("Left", "the answer before", [PressKind.Left], () => Change(-1)),
            new("Right", "the answer after", [PressKind.Right], () => Change(1)),
        ];
    }

    /// <inheritdoc/>
    public override string Title => "WELCOME";

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => _choices;

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override string Where => "Welcome: Enter sounds a fifth, the arrows change five answers, Enter on the last opens Start.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Cares => [.. new[] { Caution.Voice, Caution.Pressure }.Select(caution => $"Care: {Cautions.TextOf(caution)}")];

    private PairSetting Fifth
    {
        get
        {
            Pitch played = Stand.Memory.Now.Pair.Played;
            return Stand.Memory.Now.Pair with { Sung = Pitch.FromMidi(played.MidiNumber + 7) };
        }
    }

    /// <inheritdoc/>
    public override void Left()
    {
        Stand.Memory.EndFirstRun();
        Stand.Memory.Save();
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (digit is < 1 or > Answers.Count)
        {
            return false;
        }

        Mark(digit);
        return true;
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        PairSetting fifth = Fifth;
        string played = Stand.Name(fifth.Played);
        string sung = Stand.Name(fifth.Sung);
        Stand.DrawHeader(canvas, "BrassVox: two sources, one pipe");
        DrawMark(canvas, 2, 0, 0);
        canvas.Write(2, 2, $"Enter: hear a fifth now, quietly. A brass tone plays {played}, a voice sings {sung}.", MarkedIndex == 0 ? Ink.Marked : Ink.Text);
        canvas.Write(2, 4, "Then five answers. Up/Down line, Left/Right answer. All stay changeable in");
        canvas.Write(2, 5, "Set-up, and nothing leaves this machine.");
        for (int i = 0; i < Answers.Count; i++)
        {
            DrawMark(canvas, 7 + i, 0, i + 1);
            canvas.Write(2, 7 + i, $"{i + 1} {Answers.Question(i)}", MarkedIndex == i + 1 ? Ink.Marked : Ink.Text);
            canvas.Write(18, 7 + i, _answers.Shown(i));
        }

        double difference = Math.Abs(fifth.SungHz - fifth.PlayedHz);
        double sum = fifth.SungHz + fifth.PlayedHz;
        canvas.Write(2, 13, string.Create(
            CultureInfo.InvariantCulture,
            $"PAIR    {played} played, {sung} sung: they make {Stand.NameNear(difference)} ({difference:0} Hz) and {Stand.NameNear(sum)} ({sum:0} Hz)."));
        if (difference < 65)
        {
            canvas.Write(2, 14, $"ROOM    Most small speakers lose {Stand.NameNear(difference)}; headphones help.");
        }

        int y = 16;
        canvas.Write(2, y, "CARE");
        y = canvas.Paragraph(10, y, Math.Min(76, canvas.Width) - 10, $"{Cautions.TextOf(Caution.Voice)} Dizzy: stop and sit down.");
        y = canvas.Paragraph(10, y, Math.Min(76, canvas.Width) - 10, Cautions.TextOf(Caution.Pressure));
        if (canvas.Height >= PictureFrom)
        {
            PairScale scale = PairScale.For(canvas.Width, fifth.PlayedHz, fifth.SungHz);
            PairSpectrum spectrum = Stand.Desk is { IsSounding: true, Engine: { } engine }
                ? PairView.OfEngine(engine, fifth.PlayedHz, fifth.SungHz, scale)
                : PairView.OfSilence(fifth.PlayedHz, fifth.SungHz, scale, Stand.Desk.Engine?.Parts ?? []);
            PairPicture.Draw(canvas, y + 2, scale, spectrum, Stand.NameNear);
        }

        DrawKeyLine(canvas, 0, "Enter go  arrows answer  - + level  Space tacet  Esc skip  h keys");
        if (MarkedIndex == Answers.Count)
        {
            canvas.Write(0, canvas.Height - 2, "All five have an answer already. Enter opens Start.");
        }
    }

    private void DrawMark(Canvas canvas, int y, int x, int index)
    {
        if (MarkedIndex == index)
        {
            canvas.Put(x, y, Glyphs.Marked, Ink.Marked);
        }
    }

    private void Hear()
    {
        if (Stand.Desk.Engine is null)
        {
            Stand.Say("The sound is still opening; Enter again in a moment.");
            return;
        }

        PairSetting fifth = Fifth;
        Stand.Desk.Sound(PitchPath.Constant(fifth.PlayedHz), PitchPath.Constant(fifth.SungHz), fifth.Coupling);
        Stand.Say(Stand.Desk.HasDevice
            ? "A fifth, quietly. + is louder, Space is silence."
            : "No sound device: nothing is heard, the rest works. Set-up tries again.");
        Mark(1);
    }

    private void Change(int step)
    {
        if (MarkedIndex == 0)
        {
            Stand.Say("Enter sounds the fifth; Down goes to the answers.");
            return;
        }

        _answers.Change(MarkedIndex - 1, step);
    }

    private void Finish() => Stand.Back();
}
