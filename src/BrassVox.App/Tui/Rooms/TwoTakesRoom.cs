using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>One kept take laid over another: two traces of each tone against what was asked, and what changed between them.</summary>
internal sealed class TwoTakesRoom : Room
{
    private const int LaneLeft = 14;
    private const int LaneRight = 6;
    private const int LaneRows = 5;
    private const int SungTop = 9;
    private const int AxisRow = 15;
    private const int WordsRow = 17;
    private const int WordsRowUndrawn = 6;

    // Changes under these are what two measurements of one playing may differ by: ours, to be tried with players.
    private const double LeastCents = 2;
    private const double LeastBeats = 0.2;

    private readonly TakeStore _store;
    private readonly TakeRecord _over;
    private readonly TakeRecord _under;
    private readonly Task<(JudgedTake? Over, JudgedTake? Under)> _reading;

    /// <summary>Opens two takes; their frames are read elsewhere.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="store">The store.</param>
    /// <param name="over">The take drawn in lines.</param>
    /// <param name="under">The take drawn in dots.</param>
    public TwoTakesRoom(MusicStand stand, TakeStore store, TakeRecord over, TakeRecord under)
        : base(stand)
    {
        (_store, _over, _under) = (store, over, under);
        _reading = Task.Run(() => (TakeReading.Whole(store, over, stand.Parts.Exercises, stand.Parts.DataFolder), TakeReading.Whole(store, under, stand.Parts.Exercises, stand.Parts.DataFolder)));
        Choices = [new Choice("replay the one over", ReplayOver), new Choice("replay the one under", ReplayUnder), new Choice("leave", stand.Back)];
        Keys = [new("r", "replay the one over", ['r'], ReplayOver)];
    }

    /// <inheritdoc/>
    public override string Title => "TWO TAKES";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices { get; }

    /// <inheritdoc/>
    public override string Where => $"Two takes: {TakeWords.When(_over)} over {TakeWords.When(_under)}. Enter does {Choices[MarkedIndex].Label}.";

    /// <inheritdoc/>
    public override (string? Id, string About) NotedTake => (_over.Id, TakeWords.When(_over));

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => [.. Changes()];

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, "one laid over the other", Stand.IsSimulated || !(_over.IsSimulated || _under.IsSimulated) ? "" : "SIMULATED");
        if (!_reading.IsCompleted)
        {
            canvas.Write(2, 3, "Reading the takes.");
        }
        else if (_reading is { IsCompletedSuccessfully: true, Result: { Over: { } over, Under: { } under } })
        {
            DrawBoth(canvas, over, under);
        }
        else
        {
            canvas.Paragraph(2, 3, canvas.Width - 4, "One of the two has figures only and no course to draw. What changed:");
        }

        bool isDrawn = _reading is { IsCompletedSuccessfully: true, Result: { Over: not null, Under: not null } };
        int y = isDrawn ? WordsRow : WordsRowUndrawn;
        int last = canvas.Height - 2;
        y = canvas.Fitted(0, y, canvas.Width - 1, 1, $"OVER   {(isDrawn ? "in lines: " : "")}{Named(_over)}");
        y = canvas.Fitted(0, y, canvas.Width - 1, 1, $"UNDER  {(isDrawn ? "in dots: " : "")}{Named(_under)}");
        foreach (string line in Changes())
        {
            int rows = Canvas.RowsOf(canvas.Width - 1, line);
            if (y + rows <= last)
            {
                y = canvas.Paragraph(0, y, canvas.Width - 1, line);
            }
        }

        DrawMarkedLine(canvas, "Up Down other  r replay over  y body note  Space tacet  Esc leave  h keys");
    }

    private static void DrawBoth(Canvas canvas, JudgedTake over, JudgedTake under)
    {
        int columns = canvas.Width - LaneLeft - LaneRight;
        double seconds = Math.Max(over.Exercise.TakeSeconds, under.Exercise.TakeSeconds);
        BreathLine top = RevealView.Line(over, columns, seconds);
        BreathLine below = RevealView.Line(under, columns, seconds);
        DrawTone(canvas, 2, VoiceRole.Played, over.Result.Played, under.Result.Played, top, below, columns);
        DrawTone(canvas, SungTop, VoiceRole.Sung, over.Result.Sung, under.Result.Sung, top, below, columns);
        RevealView.DrawAxis(canvas, LaneLeft, AxisRow, top, columns, seconds);
        canvas.Rule(AxisRow + 1);
    }

    private static void DrawTone(
        Canvas canvas, int y, VoiceRole role, JudgedTone? over, JudgedTone? under, BreathLine top, BreathLine below, int columns)
    {
        bool played = role == VoiceRole.Played;
        canvas.Write(0, y, played ? "PLAYED" : "SUNG", played ? Ink.Played : Ink.Sung);
        canvas.Write(2, y + 2, "over");
        canvas.Write(4, y + 3, Offset(over));
        canvas.Write(2, y + 4, "under");
        canvas.Write(4, y + 5, Offset(under));
        BreathPanel.DrawLane(canvas, LaneLeft, y + 1, LaneRows, columns, top, role, below);
        BreathPanel.DrawLimits(canvas, y + 1, LaneRows);
    }

    private static string Offset(JudgedTone? tone) => tone?.OffsetCents is { } cents
        ? string.Create(CultureInfo.InvariantCulture, $"{cents:+0;-0;0} c")
        : "not told";

    private string Named(TakeRecord take) => $"{TakeWords.When(take)}, {take.Heading}, {Stand.Name(take.Played)} + {Stand.Name(take.Sung)}";

    private IEnumerable<string> Changes()
    {
        if (_over.ExerciseId != _under.ExerciseId || _over.Played != _under.Played || _over.Sung != _under.Sung)
        {
            yield return "Not the same task: each lies against its own path.";
        }

        yield return Change("P", _over.Result.Played, _under.Result.Played);
        yield return Change("S", _over.Result.Sung, _under.Result.Sung);
        if ((_over.Result.Pair.MedianBeatsPerSecond, _under.Result.Pair.MedianBeatsPerSecond) is ({ } now, { } then))
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"BEATS  {then:0.0} /s under, {now:0.0} /s over{(Math.Abs(now - then) < LeastBeats ? ": the same" : now < then ? ": slower" : ": faster")}");
        }
    }

    private static string Change(string name, JudgedTone? over, JudgedTone? under)
    {
        if ((over, under) is not ({ OffsetCents: { } now, SpreadCents: { } wanderNow, DriftCents: { } driftNow }, { OffsetCents: { } then, SpreadCents: { } wanderThen, DriftCents: { } driftThen }))
        {
            return $"{name}  not told in both";
        }

        double nearer = Math.Abs(then) - Math.Abs(now);
        string place = Math.Abs(nearer) < LeastCents ? "as near" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(nearer):0} c {(nearer > 0 ? "nearer" : "farther")}");
        return string.Create(CultureInfo.InvariantCulture,
            $"{name}  {then:+0;-0;0} c under, {now:+0;-0;0} c over: {place}; wander {wanderThen:0} and {wanderNow:0} c; drift {driftThen:+0;-0;0} and {driftNow:+0;-0;0} c");
    }

    private void ReplayOver() => TakeWords.Replay(Stand, _store, _over);

    private void ReplayUnder() => TakeWords.Replay(Stand, _store, _under);
}
