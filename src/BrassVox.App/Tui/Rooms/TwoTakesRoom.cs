using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Two kept takes laid over one another, the later on top: two traces of each tone against what was asked, and what changed between them.</summary>
internal sealed class TwoTakesRoom : Room
{
    private const int LaneLeft = 14;
    private const int LaneRight = 6;
    private const int LaneRows = 5;
    private const int SungTop = 9;
    private const int AxisRow = 15;
    private const int WordsRow = 17;
    private const int TableRow = 5;
    private const int EarlierColumn = 22;
    private const int LaterColumn = 36;
    private const int ChangeColumn = 50;
    private const int LabelWidth = 9;

    // Changes under these are what two measurements of one playing may differ by: ours, to be tried with players.
    private const double LeastCents = 2;
    private const double LeastBeats = 0.2;

    private readonly TakeStore _store;
    private readonly TakeRecord _later;
    private readonly TakeRecord _earlier;
    private readonly Task<(JudgedTake? Later, JudgedTake? Earlier)> _reading;
    private readonly Task<(double? Later, double? Earlier)> _centres;

    /// <summary>Opens two takes; their frames are read elsewhere.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="store">The store.</param>
    /// <param name="one">One take.</param>
    /// <param name="other">The other; whichever is older is drawn in dots.</param>
    public TwoTakesRoom(MusicStand stand, TakeStore store, TakeRecord one, TakeRecord other)
        : base(stand)
    {
        (_store, _later, _earlier) = one.MadeAt >= other.MadeAt ? (store, one, other) : (store, other, one);
        (TakeRecord later, TakeRecord earlier) = (_later, _earlier);
        _reading = Task.Run(() => (TakeReading.Whole(store, later, stand.Parts.Exercises, stand.Parts.DataFolder), TakeReading.Whole(store, earlier, stand.Parts.Exercises, stand.Parts.DataFolder)));
        _centres = Task.Run(() => (CentresOf(stand, later), CentresOf(stand, earlier)));
        Choices = [new Choice("replay the later", ReplayLater), new Choice("replay the earlier", ReplayEarlier), new Choice("leave", stand.Back)];
        Keys = [new("r", "replay the later one", ['r'], ReplayLater)];
    }

    /// <inheritdoc/>
    public override string Title => "TWO TAKES";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices { get; }

    /// <inheritdoc/>
    public override string Where => $"Two takes: {TakeWords.When(_later)} over {TakeWords.When(_earlier)}. Enter does {Choices[MarkedIndex].Label}.";

    /// <inheritdoc/>
    public override NotedTake NotedTake => NotedTake.Of(_later.Id, TakeWords.When(_later));

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => [.. Changes()];

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, "the later over the earlier", Stand.IsSimulated || !(_later.IsSimulated || _earlier.IsSimulated) ? "" : "SIMULATED");
        bool isDrawn = IsDrawn;
        if (isDrawn)
        {
            DrawBoth(canvas, _reading.Result.Later!, _reading.Result.Earlier!);
        }

        int y = isDrawn ? WordsRow : 2;
        y = canvas.Fitted(0, y, canvas.Width - 1, 1, $"LATER    {(isDrawn ? "in lines: " : "")}{Named(_later)}");
        y = canvas.Fitted(0, y, canvas.Width - 1, 1, $"EARLIER  {(isDrawn ? "in dots: " : "")}{Named(_earlier)}");
        y = isDrawn ? Lines(canvas, y, Changes()) : DrawTable(canvas, TableRow);
        DrawWords(canvas, y);
        DrawMarkedLine(canvas, "Up Down other  r replay the later  y body note  Space tacet  Esc leave  h keys");
    }

    private bool IsDrawn => _reading is { IsCompletedSuccessfully: true, Result: { Later: not null, Earlier: not null } };

    // As many lines as there is room for, each whole or not at all.
    private static int Lines(Canvas canvas, int y, IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            int rows = Canvas.RowsOf(canvas.Width - 1, line);
            if (y + rows <= canvas.Height - 2)
            {
                y = canvas.Paragraph(0, y, canvas.Width - 1, line);
            }
        }

        return y;
    }

    // What was found in each, and what to do next: a window with room left tells it.
    private void DrawWords(Canvas canvas, int y)
    {
        y++;
        if (!IsDrawn)
        {
            y = Lines(canvas, y, [_reading.IsCompleted ? "Of one of the two only figures were kept: there is no course to draw." : "Reading the takes."]);
        }

        foreach ((string label, string text) in (IEnumerable<(string, string)>)[("NEXT", _later.Result.Next), .. Found("LATER", _later), .. Found("EARLIER", _earlier)])
        {
            int rows = Canvas.RowsOf(canvas.Width - LabelWidth - 1, text);
            if (y + rows <= canvas.Height - 2)
            {
                canvas.Write(0, y, label);
                y = canvas.Paragraph(LabelWidth, y, canvas.Width - LabelWidth - 1, text);
            }
        }
    }

    private static IEnumerable<(string Label, string Text)> Found(string which, TakeRecord take) => take.Result.Findings
        .OrderBy(finding => finding.Verdict == Verdict.Met)
        .Select((finding, i) => (i == 0 ? which : "", finding.Text));

    /// <summary>Figure by figure, where there are no traces to look at.</summary>
    private int DrawTable(Canvas canvas, int y)
    {
        canvas.Write(EarlierColumn, y, "earlier", Ink.Quiet);
        canvas.Write(LaterColumn, y, "later", Ink.Quiet);
        canvas.Write(ChangeColumn, y++, "what changed", Ink.Quiet);
        foreach ((string name, JudgedTone? earlier, JudgedTone? later) in new[] { ("P", _earlier.Result.Played, _later.Result.Played), ("S", _earlier.Result.Sung, _later.Result.Sung) })
        {
            y = DrawRow(canvas, y, $"{name} offset", earlier?.OffsetCents, later?.OffsetCents, LeastCents, ("nearer", "farther"));
            y = DrawRow(canvas, y, "  wander", earlier?.SpreadCents, later?.SpreadCents, LeastCents, ("steadier", "less steady"));
            y = DrawRow(canvas, y, "  drift", earlier?.DriftCents, later?.DriftCents, LeastCents, ("less", "more")) + 1;
        }

        (double? laterCentres, double? earlierCentres) = Centres;
        if (laterCentres is not null && earlierCentres is not null)
        {
            y = DrawRow(canvas, y, "BEATS  at centres", earlierCentres, laterCentres, LeastBeats, ("slower", "faster"));
        }

        return DrawRow(canvas, y, "BEATS  half the time", _earlier.Result.Pair.MedianBeatsPerSecond, _later.Result.Pair.MedianBeatsPerSecond, LeastBeats, ("slower", "faster"));
    }

    private static int DrawRow(Canvas canvas, int y, string name, double? earlier, double? later, double least, (string Less, string More) words)
    {
        bool isRate = least < 1;
        string Text(double? value) => value is { } known
            ? isRate ? $"{(name.EndsWith("time", StringComparison.Ordinal) ? "over " : "")}{PairPicture.Rate(known)} /s" : string.Create(CultureInfo.InvariantCulture, $"{known.ToString(name.EndsWith("wander", StringComparison.Ordinal) ? "0" : "+0;-0;0", CultureInfo.InvariantCulture)} c")
            : "not told";
        canvas.Write(0, y, name);
        canvas.Write(EarlierColumn, y, Text(earlier));
        canvas.Write(LaterColumn, y, Text(later));
        if (earlier is { } then && later is { } now)
        {
            double change = Math.Abs(now) - Math.Abs(then);
            canvas.Write(ChangeColumn, y, Math.Abs(change) < least ? "the same"
                : $"{(isRate ? $"{PairPicture.Rate(Math.Abs(change))} /s" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(change):0} c"))} {(change < 0 ? words.Less : words.More)}");
        }

        return y + 1;
    }

    private (double? Later, double? Earlier) Centres => _centres.IsCompletedSuccessfully ? _centres.Result : (null, null);

    private static double? CentresOf(MusicStand stand, TakeRecord take) =>
        TakeTask.Of(take, stand.Parts.Exercises, stand.Parts.DataFolder) is { } asked ? PairBeats.OfCentres(asked, take.Result) : null;

    private static void DrawBoth(Canvas canvas, JudgedTake later, JudgedTake earlier)
    {
        int columns = canvas.Width - LaneLeft - LaneRight;
        double seconds = Math.Max(later.Exercise.TakeSeconds, earlier.Exercise.TakeSeconds);
        BreathLine top = RevealView.Line(later, columns, seconds);
        BreathLine below = RevealView.Line(earlier, columns, seconds);
        columns = Math.Min(columns, (int)Math.Ceiling(seconds * top.ColumnsPerSecond));
        DrawTone(canvas, 2, VoiceRole.Played, later.Result.Played, earlier.Result.Played, top, below, columns);
        DrawTone(canvas, SungTop, VoiceRole.Sung, later.Result.Sung, earlier.Result.Sung, top, below, columns);
        RevealView.DrawAxis(canvas, LaneLeft, AxisRow, top, columns, seconds);
        canvas.Rule(AxisRow + 1);
    }

    private static void DrawTone(
        Canvas canvas, int y, VoiceRole role, JudgedTone? later, JudgedTone? earlier, BreathLine top, BreathLine below, int columns)
    {
        bool played = role == VoiceRole.Played;
        canvas.Write(0, y, played ? "PLAYED" : "SUNG", played ? Ink.Played : Ink.Sung);
        canvas.Write(2, y + 2, "later");
        canvas.Write(4, y + 3, Offset(later));
        canvas.Write(2, y + 4, "earlier");
        canvas.Write(4, y + 5, Offset(earlier));
        BreathPanel.DrawLane(canvas, LaneLeft, y + 1, LaneRows, columns, top, role, below);
        BreathPanel.DrawLimits(canvas, y + 1, LaneRows);
        canvas.WriteRight(canvas.Width - 1, y + 3, "asked", Ink.Quiet);
    }

    private static string Offset(JudgedTone? tone) => tone?.OffsetCents is { } cents
        ? string.Create(CultureInfo.InvariantCulture, $"{cents:+0;-0;0} c")
        : "not told";

    private string Named(TakeRecord take) => $"{TakeWords.When(take)}, {take.Heading}, {Stand.Name(take.Played)} + {Stand.Name(take.Sung)}";

    private IEnumerable<string> Changes()
    {
        if (_later.ExerciseId != _earlier.ExerciseId || _later.Played != _earlier.Played || _later.Sung != _earlier.Sung)
        {
            yield return "Not the same task: each lies against its own path.";
        }

        yield return Change("P", _later.Result.Played, _earlier.Result.Played);
        yield return Change("S", _later.Result.Sung, _earlier.Result.Sung);
        if ((_later.Result.Pair.MedianBeatsPerSecond, _earlier.Result.Pair.MedianBeatsPerSecond) is ({ } now, { } then))
        {
            string centres = Centres is ({ } laterCentres, { } earlierCentres)
                ? $"at the centres {PairPicture.Rate(earlierCentres)}, then {PairPicture.Rate(laterCentres)} /s; "
                : "";
            yield return
                $"BEATS  {centres}half the time over {PairPicture.Rate(then)}, then {PairPicture.Rate(now)} /s{(Math.Abs(now - then) < LeastBeats ? ": the same" : now < then ? ": slower" : ": faster")}";
        }
    }

    private static string Change(string name, JudgedTone? later, JudgedTone? earlier)
    {
        if ((later, earlier) is not ({ OffsetCents: { } now, SpreadCents: { } wanderNow, DriftCents: { } driftNow }, { OffsetCents: { } then, SpreadCents: { } wanderThen, DriftCents: { } driftThen }))
        {
            return $"{name}  not told in both";
        }

        double nearer = Math.Abs(then) - Math.Abs(now);
        string place = Math.Abs(nearer) < LeastCents ? "as near" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(nearer):0} c {(nearer > 0 ? "nearer" : "farther")}");
        return string.Create(CultureInfo.InvariantCulture,
            $"{name}  {then:+0;-0;0} c, then {now:+0;-0;0} c: {place}; wander {wanderThen:0}, then {wanderNow:0} c; drift {driftThen:+0;-0;0}, then {driftNow:+0;-0;0} c");
    }

    private void ReplayLater() => TakeWords.Replay(Stand, _store, _later);

    private void ReplayEarlier() => TakeWords.Replay(Stand, _store, _earlier);
}
