using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>A kept take, looked at again: the reveal, with the take's own sound to be heard.</summary>
internal sealed class TakeRoom : Room
{
    private readonly TakeStore _store;
    private readonly TakeRecord _take;
    private readonly TakeHandout _handout;
    private readonly Task<JudgedTake?> _reading;
    private readonly List<BodyTag> _tags;

    /// <summary>Opens a take; its frames are read elsewhere.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="store">The store.</param>
    /// <param name="logged">The take, and what was noted of it.</param>
    public TakeRoom(MusicStand stand, TakeStore store, LoggedTake logged)
        : base(stand)
    {
        TakeRecord take = logged.Take;
        _store = store;
        _take = take;
        _tags = [.. logged.Body];
        _reading = Task.Run(() => TakeReading.Whole(store, take, stand.Parts.Exercises, stand.Parts.DataFolder));
        _handout = new TakeHandout(stand);
        Choices =
        [
            new Choice("replay", Replay),
            new Choice("handout", () => _handout.Write(take, null, withSound: false)),
            new Choice("handout with sound", () => _handout.Write(take, null, withSound: true)),
            new Choice("leave", stand.Back),
        ];
        Keys = [new("r", "replay its sound", ['r'], Replay), new("n", "name a file for a handout of it", ['n'], () => _handout.Name(take))];
    }

    /// <inheritdoc/>
    public override string Title => "TAKE";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices { get; }

    /// <inheritdoc/>
    public override string Where => $"A kept take: {TakeWords.When(_take)}, {_take.ExerciseName}. Enter does {Choices[MarkedIndex].Label}.";

    /// <inheritdoc/>
    public override NotedTake NotedTake => NotedTake.Of(_take.Id, TakeWords.When(_take));

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings =>
        _take.Said is { } said ? [.. Sayings.Compare(said, _take.Result).Select(check => $"you said {check.Said}: {check.Measured}."), $"next: {_take.Result.Next}"] : [$"next: {_take.Result.Next}"];

    /// <inheritdoc/>
    public override void Tick() => _handout.Tick();

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, TakeWords.When(_take), _take.IsSimulated && !Stand.IsSimulated ? "SIMULATED" : "", _take.Heading, $"{Stand.Name(_take.Played)} + {Stand.Name(_take.Sung)}", _take.Tuning);
        if (!_reading.IsCompleted)
        {
            canvas.Write(2, 3, "Reading the take.");
        }
        else if (_reading is { IsCompletedSuccessfully: true, Result: { } judged })
        {
            RevealView.Draw(canvas, Stand, judged, _take.Said, body: Body);
        }
        else
        {
            canvas.Paragraph(2, 3, canvas.Width - 4, _take.IsSimulated
                ? "This simulated take has figures only: no sound, and no course of the tones to draw."
                : "The files of this take are not here any more; its figures are.");
            int y = _tags.Count > 0 ? canvas.Paragraph(2, 6, canvas.Width - 4, Body) : 6;
            foreach (Finding finding in _take.Result.Findings.OrderBy(finding => finding.Verdict == Verdict.Met))
            {
                if (y < canvas.Height - 4)
                {
                    y = canvas.Paragraph(2, y, canvas.Width - 4, finding.Text);
                }
            }
        }

        DrawMarkedLine(canvas, "r replay   n handout   y body note   Space tacet   Esc leave   h keys");
    }

    /// <summary>Takes up what has just been noted of this take.</summary>
    /// <param name="tag">Where the body was noticed.</param>
    /// <param name="takeId">The take it is noted of.</param>
    public void Noted(BodyTag tag, string takeId)
    {
        if (takeId == _take.Id && !_tags.Contains(tag))
        {
            _tags.Add(tag);
        }
    }

    private string Body => _tags.Count > 0 ? $"BODY  {string.Join(", ", _tags.Select(BodyTags.Name))}" : "";

    private void Replay() => TakeWords.Replay(Stand, _store, _take);
}
