using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Chooses an exercise: a list at the left, what it is for below.</summary>
internal abstract class ExerciseMenuRoom : Room
{
    private readonly Exercise[] _exercises;
    private const int SoFarFrom = 130;
    private const int SoFarColumn = 78;
    private readonly Choice[] _choices;
    private Task<IReadOnlyDictionary<string, string>>? _reading;
    private int _first;
    private int _lastDigit;

    /// <summary>Lists exercises.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="wanted">Which of them.</param>
    protected ExerciseMenuRoom(MusicStand stand, Func<Exercise, bool> wanted)
        : base(stand)
    {
        _exercises = [.. stand.Parts.Exercises.Exercises.Where(wanted)];
        _choices =
        [
            .. _exercises.Select(exercise => new Choice($"{exercise.Number} {exercise.Name}", () => Begin(exercise))),
            .. More,
            new Choice("leave", stand.Back),
        ];
    }

    /// <inheritdoc/>
    public override void Entered() => _reading = ReadSoFarAsync();

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => _choices;

    /// <inheritdoc/>
    public override string Where => MarkedIndex < _exercises.Length
        ? $"{Title[0]}{Title[1..].ToLowerInvariant()}: {_exercises[MarkedIndex].Number} {_exercises[MarkedIndex].Name} is marked; Enter begins it."
        : $"{_choices[MarkedIndex].Label}: Enter does it.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Cares => MarkedIndex < _exercises.Length ? CaresOf(_exercises[MarkedIndex]) : [];

    /// <summary>The cautions of an exercise, a line each.</summary>
    /// <param name="exercise">The exercise.</param>
    internal static string[] CaresOf(Exercise exercise) => [.. exercise.Cautions.Select(caution => $"Care: {Cautions.TextOf(caution)}")];

    /// <summary>What else can be begun here, after the exercises.</summary>
    protected virtual IReadOnlyList<Choice> More => [];

    /// <summary>One line under the title.</summary>
    protected abstract string About { get; }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        int two = (10 * _lastDigit) + digit;
        _lastDigit = digit;
        int index = Array.FindIndex(_exercises, exercise => exercise.Number == two);
        index = index >= 0 ? index : Array.FindIndex(_exercises, exercise => exercise.Number == digit);
        index = index >= 0 ? index : Array.FindIndex(_exercises, exercise => exercise.Number / 10 == digit);
        if (index < 0)
        {
            return false;
        }

        Mark(index);
        return true;
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, About);
        if (_exercises.Length == 0)
        {
            canvas.Paragraph(2, 3, canvas.Width - 4, "No exercises were found beside the program. Put exercise files into its folder presets/exercises.");
        }

        int rows = Math.Max(4, canvas.Height - 16);
        _first = Math.Clamp(_first, Math.Max(0, MarkedIndex - rows + 1), Math.Min(MarkedIndex, Math.Max(0, _choices.Length - rows)));
        for (int i = 0; i < rows && _first + i < _choices.Length; i++)
        {
            DrawLine(canvas, 3 + i, _first + i);
        }

        int detail = 4 + rows;
        canvas.Rule(detail);
        int below = _choices.Length - (_first + rows);
        if (below > 0 || _first > 0)
        {
            string more = (_first > 0, below > 0) switch { (true, true) => "above and below", (true, _) => "above", _ => "below" };
            canvas.WriteRight(canvas.Width - 2, detail, $" more {more} ", Ink.Quiet);
        }

        if (MarkedIndex < _exercises.Length)
        {
            DrawDetail(canvas, detail + 1, _exercises[MarkedIndex]);
        }

        DrawKeyLine(canvas, 0, "Enter go  Up Down mark  digits mark by number  Esc back  Space tacet  h keys");
    }

    /// <summary>Begins an exercise.</summary>
    /// <param name="exercise">The exercise with what this player plays and sings in it.</param>
    protected abstract void Begin(ResolvedExercise exercise);

    private void Begin(Exercise exercise)
    {
        Resolution resolution = ExerciseResolver.Resolve(exercise, Stand.Profile);
        if (resolution.Resolved is { } resolved)
        {
            Begin(resolved);
        }
        else
        {
            Stand.Say(resolution.WhyNot ?? "This exercise does not fit the player.");
        }
    }

    private void DrawLine(Canvas canvas, int y, int index)
    {
        bool marked = index == MarkedIndex;
        Ink ink = marked ? Ink.Marked : Ink.Text;
        if (marked)
        {
            canvas.Put(1, y, Glyphs.Marked, Ink.Marked);
        }

        if (index >= _exercises.Length)
        {
            canvas.Write(6, y, _choices[index].Label, ink);
            return;
        }

        Exercise exercise = _exercises[index];
        canvas.WriteRight(4, y, exercise.Number.ToString(CultureInfo.InvariantCulture), ink);
        canvas.Write(6, y, exercise.Name, ink);
        if (canvas.Width >= SoFarFrom && _reading is { IsCompletedSuccessfully: true, Result: { } soFar })
        {
            canvas.Write(SoFarColumn, y, soFar.GetValueOrDefault(exercise.Id, "not yet"), Ink.Quiet);
        }

        canvas.WriteRight(canvas.Width - 2, y, string.Create(CultureInfo.InvariantCulture, $"{exercise.Dose.Minutes:0.#} min"), Ink.Quiet);
    }

    private static string NotJudged(IEnumerable<LoggedTake> takes) => takes.Count(take => take.WhyNotJudged is not null) switch
    {
        0 => "",
        int count => string.Create(CultureInfo.InvariantCulture, $", {count} not judged"),
    };

    // What this player did of each so far; a log that cannot be read tells nothing.
    private async Task<IReadOnlyDictionary<string, string>> ReadSoFarAsync()
    {
        TakeFilter player = new(Stand.PlayerName);
        TakeStore store = Stand.Store();
        await Stand.Kept().ConfigureAwait(false);
        return await Task.Run(() => SoFar(store, player)).ConfigureAwait(false);
    }

    private static Dictionary<string, string> SoFar(TakeStore store, TakeFilter player)
    {
        Dictionary<string, string> soFar = store.List(player).Takes.GroupBy(take => take.Take.ExerciseId, StringComparer.Ordinal).ToDictionary(
            takes => takes.Key,
            takes => string.Create(
                CultureInfo.InvariantCulture,
                $"{takes.Count()} {(takes.Count() == 1 ? "take" : "takes")}, {takes.Count(take => take.Take.Result.AsAsked == true)} as asked{NotJudged(takes)}; last {Day(takes.Max(take => take.Take.MadeAt))}"),
            StringComparer.Ordinal);
        foreach (IGrouping<string, ListeningEntry> sets in store.Log.Listening(player).GroupBy(set => set.ExerciseId))
        {
            ListeningEntry last = sets.MaxBy(set => set.At)!;
            soFar[sets.Key] = string.Create(
                CultureInfo.InvariantCulture, $"{sets.Count()} {(sets.Count() == 1 ? "set" : "sets")}; last {Day(last.At)}: {last.Right} of {last.Trials} right");
        }

        return soFar;
    }

    private static string Day(DateTimeOffset at) => at.ToLocalTime().ToString("ddd yyyy-MM-dd", CultureInfo.InvariantCulture);

    private void DrawDetail(Canvas canvas, int y, Exercise exercise)
    {
        int width = canvas.Width - 2;
        Resolution resolution = ExerciseResolver.Resolve(exercise, Stand.Profile);
        if (resolution.Resolved is { } resolved)
        {
            canvas.Write(1, y++, $"{Stand.Name(resolved.Pair.Played)} played, {Stand.Name(resolved.Pair.Sung)} sung   {resolved.Pair.Tuning.Name}", Ink.Quiet);
            foreach (string note in resolved.Notes)
            {
                y = canvas.Paragraph(1, y, width, NoteNames.Respelled(note, Stand.Memory.Now.Naming));
            }
        }
        else
        {
            y = canvas.Paragraph(1, y, width, resolution.WhyNot ?? "");
        }

        string[] about = [exercise.About, $"Listen for: {exercise.ListenFor}"];
        string[] cares = CaresOf(exercise);
        int rows = about.Concat(cares).Sum(text => Canvas.RowsOf(width, text));
        if (y + rows > canvas.Height - 2 && cares.Length > 0)
        {
            // None of the cautions may fall off: where they do not fit, each is said in a few words, before all else.
            y = canvas.Paragraph(1, y, width, $"Care: {string.Join("; ", exercise.Cautions.Select(Cautions.ShortOf))}.", Ink.Quiet);
            cares = [];
        }

        foreach (string text in about)
        {
            y = canvas.Paragraph(1, y, width, text);
        }

        foreach (string care in cares)
        {
            y = canvas.Paragraph(1, y, width, care, Ink.Quiet);
        }

        canvas.Fill(0, canvas.Height - 2, canvas.Width, ' ', Ink.Text);
    }
}
