using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Planning;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Where one begins: the next step, the rooms, what is ready.</summary>
internal sealed class StartRoom : Room
{
    private const int NextRow = 3;
    private const int FirstRow = 5;
    private const int FullHeight = 24;
    private const int LongestNext = 40;
    private const int TodayFromWidth = 160;
    private const int TodayColumn = 96;
    private const int WhatColumn = 8;
    private const int BecauseColumn = 56;
    private const int PictureFromHeight = 44;
    private const int PictureTop = 28;
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
    public override string Where => $"Start. Nothing sounds until Enter. Next: {NextWords}. Numbers open rooms; q quits.";

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
        [new Choice("next", DoNext), .. RoomList.All.Select(entry => new Choice(entry.Name, () => Stand.Open(entry.Create(Stand)))), new Choice("quit", Stand.Quit)];

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        int index = RoomList.All.ToList().FindIndex(entry => entry.Number == digit);
        if (index < 0)
        {
            return false;
        }

        Mark(index + 1);
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
        bool nextMarked = MarkedIndex == 0;
        canvas.Write(1, NextRow, "NEXT", Ink.Quiet);
        if (nextMarked)
        {
            canvas.Put(10, NextRow, Glyphs.Marked, Ink.Marked);
        }

        canvas.Fitted(12, NextRow, canvas.Width - 13, 1, NextWords, nextMarked ? Ink.Marked : Ink.Text);
        // Where troubles want the rows, the blocks move together: so many that no message covers one of them.
        int spare = canvas.Height - FullHeight;
        IReadOnlyList<string> troubles = Stand.Troubles;
        bool isAiry = troubles.Count < 2 || spare >= 2 * troubles.Count;
        int y = FirstRow;
        for (int i = 0; i < RoomList.All.Count; i++)
        {
            RoomEntry entry = RoomList.All[i];
            if (entry.Stage.Length > 0 && i > 0 && isAiry)
            {
                y++;
            }

            canvas.Write(1, y, entry.Stage, Ink.Quiet);
            Ink ink = i + 1 == MarkedIndex ? Ink.Marked : Ink.Text;
            if (i + 1 == MarkedIndex)
            {
                canvas.Put(10, y, Glyphs.Marked, Ink.Marked);
            }

            canvas.Write(12, y, $"{entry.Number} {entry.Name}", ink);
            canvas.Fitted(28, y++, canvas.Width - 29, 1, _about[i]);
        }

        DrawToday(canvas);

        // Taller windows part the blocks; the usual one has a row for each and none to spare.
        y += spare > 0 ? 1 : 0;
        bool quitMarked = MarkedIndex == RoomList.All.Count + 1;
        if (quitMarked)
        {
            canvas.Put(10, y, Glyphs.Marked, Ink.Marked);
        }

        canvas.Write(12, y++, "quit", quitMarked ? Ink.Marked : Ink.Quiet);
        y += spare > 1 ? 1 : 0;
        if (Stand.Voice is { } voice)
        {
            canvas.Write(1, y, "VOICE", Ink.Quiet);
            canvas.Write(12, y, voice.Words);
        }

        y += spare > 2 ? 2 : 1;
        if (troubles.Count == 0)
        {
            canvas.Write(1, canvas.Height - 3, "Nothing sounds until Enter. Space makes silence, anywhere, at once.");
        }

        // A message covers none of them: what it takes is theirs no longer while it stands. Where few rows are left it keeps to one.
        int end = canvas.Height - 1 - Stand.MessageRows(canvas.Width);
        for (int i = 0; i < troubles.Count && y < end; i++)
        {
            // Each has its share of the rows that are left, the last all of them.
            int rows = Math.Max(1, (end - y) / (troubles.Count - i));
            canvas.Write(1, y, "TROUBLE", Ink.Quiet);
            y = canvas.Fitted(12, y, canvas.Width - 13, rows, troubles[i]);
        }

        DrawKeyLine(canvas, 0, "Enter go  1-8 rooms  Space tacet  - + level  t theme  h keys  q quit");
    }

    // Wide windows have room for what lies ahead today, tall ones for the pair as it was left.
    private void DrawToday(Canvas canvas)
    {
        if (canvas.Width < TodayFromWidth)
        {
            return;
        }

        if (Stand.Today is { } today)
        {
            canvas.Write(TodayColumn, FirstRow, $"TODAY  {today.Day.DayOfWeek}", Ink.Quiet);
            int y = FirstRow + 1;
            foreach (PlanLine line in today.Lines)
            {
                canvas.WriteRight(TodayColumn + 5, y, string.Create(CultureInfo.InvariantCulture, $"{line.Minutes} min"), Ink.Quiet);
                canvas.Fitted(TodayColumn + WhatColumn, y, BecauseColumn - WhatColumn - 2, 1, PlanRoom.Short(line, Stand.Memory.Now.Naming, BecauseColumn - WhatColumn - 2));
                canvas.Fitted(TodayColumn + BecauseColumn, y++, canvas.Width - TodayColumn - BecauseColumn - 1, 1, line.Because, Ink.Quiet);
            }

            if (today.Lines.Count == 0)
            {
                canvas.Write(TodayColumn, y, "A day of rest.");
            }
        }

        if (canvas.Height >= PictureFromHeight)
        {
            PairSetting pair = Stand.Memory.Now.Pair with { A4Hz = Stand.Profile.A4Hz };
            PairScale scale = PairScale.For(canvas.Width, pair.PlayedHz, pair.SungHz);
            canvas.Write(1, PictureTop - 2, $"AS YOU LEFT IT  {pair.Described(VoiceRole.Played, Stand.Name)} played, {pair.Described(VoiceRole.Sung, Stand.Name)} sung; 1 opens it", Ink.Quiet);
            PairPicture.Draw(canvas, PictureTop, scale, PairView.OfSilence(pair.PlayedHz, pair.SungHz, scale, Stand.Desk.Engine?.Parts ?? []), Stand.NameNear);
        }
    }

    private string NextWords => Stand switch
    {
        { IsPracticeRead: false } => "reading what was practised",
        { Next: { } next } => $"{PlanRoom.Short(next, Stand.Memory.Now.Naming, LongestNext)}: {next.Because}",
        _ => "today's plan is done; rest, or look back in Takes",
    };

    private void DoNext()
    {
        if (Stand.Next is { Exercises: [{ } exercise, ..] })
        {
            Stand.Open(PlanRoom.RoomOf(Stand, exercise));
        }
        else
        {
            Stand.Say(Stand.IsPracticeRead ? "Nothing is left of today's plan. Digits open any room." : "What was practised is being read; again in a moment.");
        }
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
