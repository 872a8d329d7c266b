using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Where one begins: the next step, the rooms, what is ready.</summary>
internal sealed class StartRoom : Room
{
    private const int FirstRow = 3;
    private const double AboutEverySeconds = 0.5;
    private readonly string[] _about = new string[RoomList.All.Count];
    private double _readAt;

    /// <summary>Lays out the room.</summary>
    /// <param name="stand">The stand.</param>
    public StartRoom(MusicStand stand)
        : base(stand)
    {
        ReadAbout();
    }

    /// <inheritdoc/>
    public override string Title => "START";

    /// <inheritdoc/>
    public override string Where => "Start. Nothing sounds until Enter. Numbers open rooms; q quits.";

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
        [.. RoomList.All.Select(entry => new Choice(entry.Name, () => Stand.Open(entry.Create(Stand)))), new Choice("quit", Stand.Quit)];

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        int index = RoomList.All.ToList().FindIndex(entry => entry.Number == digit);
        if (index < 0)
        {
            return false;
        }

        Mark(index);
        DoMarked();
        return true;
    }

    /// <inheritdoc/>
    public override void Entered()
    {
        Stand.Memory.Save();
        Stand.ReadPractice();
        ReadAbout();
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        if (Stand.NowSeconds - _readAt >= AboutEverySeconds)
        {
            ReadAbout();
        }
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, Stand.PlayerName, PlayerWords.Line(Stand));
        int y = FirstRow;
        for (int i = 0; i < RoomList.All.Count; i++)
        {
            RoomEntry entry = RoomList.All[i];
            if (entry.Stage.Length > 0 && i > 0)
            {
                y++;
            }

            canvas.Write(1, y, entry.Stage, Ink.Quiet);
            Ink ink = i == MarkedIndex ? Ink.Marked : Ink.Text;
            if (i == MarkedIndex)
            {
                canvas.Put(10, y, Glyphs.Marked, Ink.Marked);
            }

            canvas.Write(12, y, $"{entry.Number} {entry.Name}", ink);
            canvas.Write(28, y++, _about[i]);
        }

        if (MarkedIndex == RoomList.All.Count)
        {
            canvas.Put(10, y + 1, Glyphs.Marked, Ink.Marked);
            canvas.Write(12, y + 1, "quit", Ink.Marked);
        }
        else
        {
            canvas.Write(12, y + 1, "quit", Ink.Quiet);
        }

        if (Stand.Memory.Trouble is { } trouble)
        {
            canvas.Paragraph(1, y + 3, canvas.Width - 2, trouble);
        }

        if (Stand.Voice is { } voice)
        {
            canvas.Write(1, canvas.Height - 5, "VOICE", Ink.Quiet);
            canvas.Write(12, canvas.Height - 5, voice.Words);
        }

        canvas.Write(1, canvas.Height - 3, "Nothing sounds until Enter. Space makes silence, anywhere, at once.");
        canvas.Write(0, canvas.Height - 1, Stand.Letterset.InWords("Enter go  1-8 rooms  Space tacet  - + level  t theme  h keys  q quit", isKeyLine: true), Ink.Quiet);
    }

    private void ReadAbout()
    {
        _readAt = Stand.NowSeconds;
        for (int i = 0; i < _about.Length; i++)
        {
            _about[i] = RoomList.All[i].About(Stand);
        }
    }
}
