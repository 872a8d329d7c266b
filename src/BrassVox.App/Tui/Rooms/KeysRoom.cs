using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;

namespace BrassVox.App.Tui.Rooms;

/// <summary>All keys of the room below and of every room; each can be marked and done from here. Sound goes on.</summary>
internal sealed class KeysRoom : Room
{
    private const int SecondColumn = 41;
    private const int HelpColumn = 14;
    private const int SignsColumn = 110;
    private readonly Room _below;
    private readonly List<Choice> _choices = [];
    private bool _showsSigns;

    /// <summary>Lists the keys.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="below">The room whose keys are wanted.</param>
    public KeysRoom(MusicStand stand, Room below)
        : base(stand)
    {
        _below = below;
        _choices.Add(new Choice("close", stand.Back));
        _choices.Add(new Choice("what the signs mean", TurnOver));
        _choices.AddRange(below.Keys.Select(key => new Choice($"{key.Shown}: {key.Help}", () => Close(key.Do))));
        _choices.AddRange(stand.KeysEverywhere
            .Where(key => key.Presses.Count > 0 && !key.Presses.Any(press => press.Kind is PressKind.Enter or PressKind.PageUp or PressKind.Help or PressKind.Tab))
            .Select(key => new Choice($"{key.Shown}: {key.Help}", () => Close(key.Do))));
    }

    /// <inheritdoc/>
    public override string Title => "KEYS";

    /// <inheritdoc/>
    public override bool IsOverlay => true;

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => _choices;

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys => [new("Tab", "find a word", [PressKind.Tab], Find), new("a", "signs of the pictures, keys", ['a'], TurnOver)];

    /// <inheritdoc/>
    public override string Where => $"The keys of {_below.Title.ToLowerInvariant()}. Esc closes them; the sound goes on.";

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        if (_showsSigns)
        {
            Stand.DrawHeader(canvas, "what the signs of the pictures mean");
            SignWords.Draw(canvas, 0, 2, canvas.Height - 2);
            DrawMarkedLine(canvas, "a back to the keys   Esc closes");
            return;
        }

        string room = _below.Title.ToLowerInvariant();
        Stand.DrawHeader(canvas, $"everywhere, and in {char.ToUpperInvariant(room[0])}{room[1..]}");
        int foot = canvas.Height - 3;
        canvas.Write(0, 2, "EVERYWHERE");
        int y = 3;
        foreach (RoomKey key in Stand.KeysEverywhere)
        {
            y = DrawKey(canvas, 0, y, SecondColumn - 2, key);
        }

        (int x, int last) = (SecondColumn, Math.Min(canvas.Width, SignsColumn - 2) - 1);
        int leftFree = y + 1;
        canvas.Write(x, 2, _below.Title);
        y = 3;
        foreach (RoomKey key in _below.Keys.Where(key => key.IsListed))
        {
            if (x == SecondColumn && y + Canvas.RowsOf(last - x - HelpColumn, key.Help) > foot)
            {
                // What the right column cannot hold goes on under the left one.
                (x, last, y) = (0, SecondColumn - 2, leftFree);
            }

            y = DrawKey(canvas, x, y, last, key);
        }

        if (_below.Keys.Count == 0)
        {
            canvas.Write(SecondColumn + 1, 3, "no keys beyond those at the left");
        }

        if (canvas.Width >= SignsColumn + SignWords.Width)
        {
            SignWords.Draw(canvas, SignsColumn, 2, foot);
        }

        canvas.Write(0, foot, "h lists the letters of each room; keys.json in the data folder changes them.");
        canvas.Write(0, foot + 1, "PgUp and PgDn, or a page pedal, mark and do all of it. Sound goes on meanwhile.");
        DrawMarkedLine(canvas, "PgUp, arrows mark  Tab find  a signs  Esc closes");
    }

    private int DrawKey(Canvas canvas, int x, int y, int last, RoomKey key)
    {
        bool marked = Choices[MarkedIndex].Label.StartsWith($"{key.Shown}: ", StringComparison.Ordinal);
        if (marked)
        {
            canvas.Put(x, y, Glyphs.Marked, Ink.Marked);
        }

        Ink ink = marked ? Ink.Marked : Ink.Text;
        canvas.Write(x + 1, y, Stand.Letterset.InWords(key.Shown, isKeyLine: true), ink);
        return canvas.Paragraph(x + HelpColumn, y, last - x - HelpColumn, Stand.Letterset.InWords(key.Help, isKeyLine: false), ink);
    }

    private void TurnOver()
    {
        _showsSigns = !_showsSigns;
        Mark(_showsSigns ? 1 : 0);
    }

    private void Close(Action action)
    {
        Stand.Back();
        action();
    }

    private string Nearest(string word) => _choices
        .SelectMany(choice => choice.Label.Split((char[])[' ', ',', ':', ';', '(', ')'], StringSplitOptions.RemoveEmptyEntries))
        .Where(known => known.Length > 2)
        .MinBy(known => Distance(known, word)) ?? "";

    /// <summary>Fewest letters to change, add or drop to make one word of the other (Levenshtein 1966).</summary>
    private static int Distance(string one, string other)
    {
        int[] row = [.. Enumerable.Range(0, other.Length + 1)];
        for (int i = 1; i <= one.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= other.Length; j++)
            {
                int changed = diagonal + (char.ToLowerInvariant(one[i - 1]) == char.ToLowerInvariant(other[j - 1]) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(changed, 1 + Math.Min(row[j], row[j - 1]));
            }
        }

        return row[^1];
    }

    private void Find() => Stand.Ask(new TextBox("find a word:", word =>
    {
        if (word.Length == 0)
        {
            return null;
        }

        int index = _choices.FindIndex(choice => choice.Label.Contains(word, StringComparison.OrdinalIgnoreCase));
        if (index < 0)
        {
            return new TextFault($"No key does \"{word}\" here. Nearest: {Nearest(word)}.");
        }

        Mark(index);
        return null;
    }));
}
