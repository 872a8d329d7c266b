using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Log;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Where the body was noticed: one key each, of a take or of none. Lies over the room that it was called from.</summary>
internal sealed class BodyRoom : Room
{
    private const int NotedFrom = 34;
    private const int NotedRow = 20;
    private const int NotedDays = 14;
    private readonly NotedTake _take;
    private readonly Choice[] _choices;
    private readonly Task<IReadOnlyList<BodyNote>> _reading;

    /// <summary>Opens the six tags.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="take">The take that the note belongs to.</param>
    public BodyRoom(MusicStand stand, NotedTake take)
        : base(stand)
    {
        _take = take;
        PracticeLog log = stand.Log;
        string player = stand.PlayerName;
        // A note that is still being written is listed.
        Task kept = stand.Kept();
        _reading = Task.Run(async () =>
        {
            await kept.ConfigureAwait(false);
            return log.BodyNotes(new TakeFilter(player));
        });
        _choices = [.. BodyTags.All.Select(tag => new Choice(BodyTags.Name(tag), () => Note(tag))), new Choice("leave", stand.Back)];
    }

    /// <inheritdoc/>
    public override string Title => "BODY";

    /// <inheritdoc/>
    public override bool IsOverlay => true;

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => _choices;

    /// <inheritdoc/>
    public override string Where => "Body note: 1 to 6 note where you noticed your body; Esc leaves without.";

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (digit < 1 || digit > BodyTags.All.Count)
        {
            return false;
        }

        Note(BodyTags.All[digit - 1]);
        return true;
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, _take.About.Length > 0 ? _take.About : "between takes");
        canvas.Paragraph(2, 3, canvas.Width - 4, "Where did you notice your body? One key, then back to where you were.");
        for (int i = 0; i < _choices.Length; i++)
        {
            bool marked = i == MarkedIndex;
            if (marked)
            {
                canvas.Put(4, 5 + i, Glyphs.Marked, Ink.Marked);
            }

            canvas.Write(6, 5 + i, i < BodyTags.All.Count ? $"{i + 1} {_choices[i].Label}" : $"  {_choices[i].Label}", marked ? Ink.Marked : Ink.Text);
        }

        canvas.Paragraph(2, 14, canvas.Width - 4, "It is an observation, never a grade. The plan takes notice: throat twice in four days makes a day of listening.");
        canvas.Paragraph(2, 17, canvas.Width - 4, "Pain, scratch or lost high notes: stop for today. Hoarse for weeks: see a laryngologist. Dizzy: sit down.");
        if (canvas.Height >= NotedFrom && _reading.IsCompletedSuccessfully)
        {
            DrawNoted(canvas, NotedRow, _reading.Result);
        }

        DrawMarkedLine(canvas, "1-6 note it   Up Down mark   Esc leave   h keys");
    }

    /// <summary>The days of the last two weeks on which something was noticed, the newest first: what comes back is worth a rest, or a word with a teacher.</summary>
    private void DrawNoted(Canvas canvas, int y, IReadOnlyList<BodyNote> notes)
    {
        DateTimeOffset now = Stand.Parts.Time.GetUtcNow();
        TimeZoneInfo zone = Stand.Parts.Time.LocalTimeZone;
        canvas.Rule(y);
        canvas.Write(2, y + 1, "NOTED   in the last fourteen days");
        IGrouping<DateOnly, BodyNote>[] days =
        [
            .. notes.Where(note => (now - note.At).TotalDays <= NotedDays)
                .GroupBy(note => WeekTrend.DayOf(note.At, zone)).OrderByDescending(day => day.Key),
        ];
        if (days.Length == 0)
        {
            canvas.Write(2, y + 3, "nothing yet");
        }

        for (int i = 0; i < days.Length && y + 3 + i < canvas.Height - 2; i++)
        {
            string tags = string.Join(", ", days[i].GroupBy(note => note.Tag)
                .Select(tag => tag.Count() == 1 ? BodyTags.Name(tag.Key) : $"{BodyTags.Name(tag.Key)} {tag.Count()} times"));
            canvas.Write(2, y + 3 + i, $"{days[i].Key.DayOfWeek.ToString()[..3]} {days[i].Key:yyyy-MM-dd}   {tags}");
        }
    }

    private void Note(BodyTag tag)
    {
        var note = new BodyNote(Stand.Parts.Time.GetUtcNow(), Stand.PlayerName, tag, null, Stand.IsSimulated);
        PracticeLog log = Stand.Log;
        Task<string?> id = _take.Id;
        Stand.Await("The body note", Task.Run(async () => log.Add(note with { TakeId = await id.ConfigureAwait(false) })));
        Stand.Back();
        if (id.IsCompleted)
        {
            Stand.Noted(tag, id.IsCompletedSuccessfully ? id.Result : null);
        }

        Stand.Say(_take.About.Length > 0 ? $"Noted: {BodyTags.Name(tag)}." : $"Noted: {BodyTags.Name(tag)}, between takes; Takes lists it under its day.");
    }
}
