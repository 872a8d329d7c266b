using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Minutes become exercises, each with its reason. Rest is a line; nothing is counted from day to day.</summary>
internal sealed class PlanRoom : Room
{
    private const int MinuteColumn = 4;
    private const int WhatColumn = 8;
    private const int BecauseColumn = 40;
    private const int Step = 5;
    private Task<PlanInputs> _reading;
    private Task _minutesKept = Task.CompletedTask;
    private PlanInputs? _inputs;
    private PracticePlan? _plan;
    private int _line;
    private bool _isLineChosen;

    /// <summary>Opens the room and reads the log, elsewhere.</summary>
    /// <param name="stand">The stand.</param>
    public PlanRoom(MusicStand stand)
        : base(stand)
    {
        _reading = Read();
        Keys =
        [
            new("Up", "the line above", [PressKind.Up], () => Choose(_line - 1)),
            new("Down", "the line below", [PressKind.Down], () => Choose(_line + 1)),
            new(",", "five minutes less a day", [','], () => ChangeMinutes(-Step)),
            new(".", "five minutes more a day", ['.'], () => ChangeMinutes(Step)),
            new("z", "undo the swaps", ['z'], Undo),
        ];
    }

    /// <inheritdoc/>
    public override string Title => "PLAN";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
    [
        .. _plan is { Lines.Count: > 0 }
            ? [
                new Choice("begin", Begin),
                new Choice("next line", () => Choose((_line + 1) % _plan.Lines.Count)),
                new Choice("swap this line", Swap),
                new Choice("fewer minutes", () => ChangeMinutes(-Step)),
                new Choice("more minutes", () => ChangeMinutes(Step)),
            ]
            : Array.Empty<Choice>(),
        .. _plan?.Body is not null
            ? [
                new Choice("keep the advice", () => Decide(BodyChoice.AsAdvised)),
                new Choice("rest today", () => Decide(BodyChoice.Rest)),
                new Choice("as planned", () => Decide(BodyChoice.AsPlanned)),
            ]
            : Array.Empty<Choice>(),
        new Choice("whole curriculum in order", () => Stand.Open(new PlayMenuRoom(Stand))),
        new Choice("leave", Stand.Back),
    ];

    /// <inheritdoc/>
    public override string Where => Line is { } line ? $"Plan: {line.Minutes} minutes, {line.What(Stand.Memory.Now.Naming)}, because {line.Because}. {Choices[MarkedIndex].Label} is marked." : "Plan.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => _plan is { } plan
        ? [.. plan.Lines.Select(line => $"{line.Minutes} minutes: {line.What(Stand.Memory.Now.Naming)}, because {line.Because}."), .. plan.Body is { } body ? [body] : Array.Empty<string>()]
        : [];

    private PlanLine? Line => _plan is { } plan && _line < plan.Lines.Count ? plan.Lines[_line] : null;

    /// <inheritdoc/>
    public override void Entered()
    {
        if (_inputs is not null)
        {
            _inputs = null;
            _reading = Read();
        }
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (_plan?.Body is null || digit is < 1 or > 3)
        {
            return false;
        }

        Decide((BodyChoice)(digit - 1));
        return true;
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        if (_inputs is null && _reading.IsCompleted)
        {
            if (_reading.IsCompletedSuccessfully)
            {
                _inputs = _reading.Result;
            }
            else
            {
                Stand.Say(_reading.Exception?.GetBaseException().Message ?? "");
                _inputs = new PlanInputs(
                    Stand.Memory.Now.Player, Stand.Parts.Exercises, [], [], [], [], [], Stand.Parts.Time.GetUtcNow(), Stand.Parts.Time.LocalTimeZone, PlanInputs.UsualMinutes);
            }

            Redraw();
        }
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        if (_plan is not { } plan)
        {
            Stand.DrawHeader(canvas, Stand.PlayerName);
            canvas.Write(2, 3, "Reading the takes.");
            DrawMarkedLine(canvas, "Space tacet   Esc back   h keys");
            return;
        }

        Stand.DrawHeader(canvas, Stand.PlayerName, string.Create(CultureInfo.InvariantCulture, $"{plan.Minutes} min a day, 5 days a week"), PlayerWords.Line(Stand));
        canvas.Write(0, 2, $"TODAY  {plan.Day.DayOfWeek}");
        if (_inputs is { } read)
        {
            canvas.WriteRight(canvas.Width - 1, 2, VoiceLoad.Of(read.Spells, read.Now, read.Zone).Words);
        }

        canvas.Write(2, 4, "min   what", Ink.Quiet);
        canvas.Write(BecauseIn(canvas), 4, "because", Ink.Quiet);
        int y = 5;
        for (int i = 0; i < plan.Lines.Count; i++)
        {
            y = DrawLine(canvas, y, plan.Lines[i], i == _line);
        }

        if (plan.Lines.Count == 0)
        {
            canvas.Write(2, y++, "A day of rest.");
        }

        y = DrawWeek(canvas, y + 1, plan);
        int width = canvas.Width - 8;
        if (plan.Body is { } body)
        {
            canvas.Write(0, y, "BODY");
            y = canvas.Paragraph(7, y, width, body);
            canvas.Write(7, y++, "1 keep that   2 rest today   3 as planned");
        }

        if (plan.Order.Length > 0 && y + Canvas.RowsOf(width, plan.Order) <= canvas.Height - 2)
        {
            canvas.Write(0, y, "ORDER");
            canvas.Paragraph(7, y, width, plan.Order);
        }

        canvas.Fill(0, canvas.Height - 2, canvas.Width, ' ', Ink.Text);
        DrawMarkedLine(canvas, "Up Down line  Left Right other  , . minutes  z undo  y body  h keys");
    }

    /// <summary>The room in which an exercise is done.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="exercise">The exercise.</param>
    public static Room RoomOf(MusicStand stand, ResolvedExercise exercise) =>
        exercise.Exercise.IsListening ? new ListenRoom(stand, exercise) : new PlayAlongRoom(stand, exercise);

    // A wider window widens both columns.
    private static int BecauseIn(Canvas canvas) => BecauseColumn + (Math.Max(0, canvas.Width - MusicStand.LeastWidth) / 2);

    /// <summary>What a line asks for, by short names where the full ones would be longer than that.</summary>
    /// <param name="line">The line.</param>
    /// <param name="naming">The language of note names.</param>
    /// <param name="longest">Most characters in full.</param>
    public static string Short(PlanLine line, NoteNaming naming, int longest) =>
        line.What(naming) is var what && what.Length <= longest ? what : line.InShort(naming);

    private int DrawLine(Canvas canvas, int y, PlanLine line, bool chosen)
    {
        Ink ink = chosen ? Ink.Marked : line.Kind == PlanLineKind.Rest ? Ink.Quiet : Ink.Text;
        if (chosen)
        {
            canvas.Put(0, y, Glyphs.InHand, Ink.Marked);
        }

        canvas.WriteRight(MinuteColumn, y, line.Minutes.ToString(CultureInfo.InvariantCulture), ink);
        int because = BecauseIn(canvas);
        int longest = because - WhatColumn - 2;
        canvas.Fitted(WhatColumn, y, longest, 1, Short(line, Stand.Memory.Now.Naming, longest), ink);
        return canvas.Paragraph(because, y, canvas.Width - because, line.Because, ink);
    }

    private static int DrawWeek(Canvas canvas, int y, PracticePlan plan)
    {
        canvas.Write(0, y, "WEEK");
        canvas.Write(2, y + 1, "minutes", Ink.Quiet);
        canvas.Write(2, y + 2, "done", Ink.Quiet);
        canvas.Write(2, y + 3, "singing", Ink.Quiet);
        for (int i = 0; i < plan.Week.Count; i++)
        {
            PlanDay day = plan.Week[i];
            int x = 16 + (7 * i);
            canvas.WriteRight(x, y, day.Day.DayOfWeek.ToString().AsSpan(0, 3), day.Day == plan.Day ? Ink.Marked : Ink.Quiet);
            canvas.WriteRight(x, y + 1, Minutes(day.PlannedMinutes));
            canvas.WriteRight(x, y + 2, Minutes(day.DoneMinutes));
            canvas.WriteRight(x, y + 3, Sung(day.SungMinutes));
        }

        return y + 5;
    }

    private static string Minutes(double minutes) => minutes > 0 ? Math.Ceiling(minutes).ToString("0", CultureInfo.InvariantCulture) : "-";

    // As above and everywhere: whole minutes that are full; "<1" keeps a few breaths from looking like none.
    private static string Sung(double minutes) => minutes <= 0 ? "-"
        : SungMinutes.Whole(60 * minutes) is var whole and > 0 ? whole.ToString(CultureInfo.InvariantCulture) : "<1";

    private Task<PlanInputs> Read()
    {
        PracticeLog log = Stand.Log;
        Practice.Profiles.Player player = Stand.Memory.Now.Player;
        ExerciseLibrary exercises = Stand.Parts.Exercises;
        TimeProvider time = Stand.Parts.Time;
        // What is still being written, the day's minutes among it, is read too.
        Task kept = Stand.Kept();
        return Task.Run(async () =>
        {
            await kept.ConfigureAwait(false);
            return PlanInputs.Read(log, player, exercises, time);
        });
    }

    /// <summary>Draws the plan anew from what is known.</summary>
    private void Redraw()
    {
        if (_inputs is not { } inputs)
        {
            return;
        }

        _plan = Planner.Plan(Stand.Planned.On(inputs));
        if (!_isLineChosen)
        {
            // The first line that nothing was done of today.
            _line = inputs.FirstUndone(_plan) is { } first ? _plan.Lines.ToList().IndexOf(first) : 0;
        }

        _line = Math.Clamp(_line, 0, Math.Max(0, _plan.Lines.Count - 1));
    }

    private void Choose(int line)
    {
        if (_plan is not { Lines.Count: > 0 } plan)
        {
            Stand.Say(_plan is null ? "The takes are being read; again in a moment." : "Nothing is planned today.");
            return;
        }

        _isLineChosen = true;
        if (line < 0 || line >= plan.Lines.Count)
        {
            Stand.Say(line < 0 ? "This is the first line." : "This is the last line.");
            return;
        }

        _line = line;
    }

    private void Begin()
    {
        switch (Line)
        {
            case { Kind: PlanLineKind.Rest }:
                Stand.Say("Rest lips and voice for five minutes; walk, drink some water. Down goes on.");
                break;
            case { Kind: PlanLineKind.Review }:
                Stand.Open(new TakesRoom(Stand));
                break;
            case { Exercises: [{ } exercise, ..] }:
                _isLineChosen = false;
                Stand.Open(RoomOf(Stand, exercise));
                break;
            case { } line:
                Stand.Say($"Nothing to begin: {line.Because}.");
                break;
        }
    }

    private void Swap()
    {
        if (Line is not { Exercises: [{ } exercise, ..], Kind: PlanLineKind.Hearing or PlanLineKind.Playing })
        {
            Stand.Say("This line stays: it is what makes the others possible.");
            return;
        }

        Stand.Planned = Stand.Planned with { Swapped = Stand.Planned.Swapped.Add(exercise.Exercise.Id) };
        _isLineChosen = true;
        Redraw();
        Stand.Say($"{exercise.Exercise.Number} {exercise.Exercise.Name} waits for another day. z brings it back.");
    }

    private void Undo()
    {
        if (Stand.Planned.Swapped.Count == 0)
        {
            Stand.Say("Nothing to undo.");
            return;
        }

        Stand.Planned = Stand.Planned with { Swapped = [] };
        Redraw();
        Stand.Say("The plan is as it was.");
    }

    private void Decide(BodyChoice choice)
    {
        Stand.Planned = Stand.Planned with { Choice = choice };
        Redraw();
        Stand.Say(choice switch
        {
            BodyChoice.Rest => "Today is a day of rest.",
            BodyChoice.AsPlanned => "As planned: you know your body best. Stop at pain, scratch or lost high notes.",
            _ => "Listening only today.",
        });
    }

    private void ChangeMinutes(int step)
    {
        if (_inputs is not { } inputs)
        {
            Stand.Say("The takes are being read; again in a moment.");
            return;
        }

        int minutes = Math.Clamp(inputs.Minutes + step, DayDose.Fewest, DayDose.Most);
        if (minutes == inputs.Minutes)
        {
            Stand.Say(string.Create(CultureInfo.InvariantCulture, $"A plan has {DayDose.Fewest} to {DayDose.Most} minutes."));
            return;
        }

        _inputs = inputs with { Minutes = minutes };
        PracticeLog log = Stand.Log;
        string player = Stand.PlayerName;

        // One after the other: of two writers at once the earlier may win.
        _minutesKept = _minutesKept.ContinueWith(_ => log.SetPlanMinutes(player, minutes), TaskScheduler.Default);
        Stand.Await("The minutes of the plan", _minutesKept);
        Redraw();
    }
}
