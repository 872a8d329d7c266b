using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;

namespace BrassVox.App.Tui.Rooms;

/// <summary>
/// One room of the screen: what it draws, what its keys do, and which of its choices is marked. Knows no terminal.
/// One thread, the screen's.
/// </summary>
/// <param name="stand">The stand it lies on.</param>
internal abstract class Room(MusicStand stand)
{
    private const string Sideways = "Left Right";
    private const string Upwards = "Up Down";
    private int _marked;

    /// <summary>The room's name as its header begins: EXPLORE.</summary>
    public abstract string Title { get; }

    /// <summary>The keys of this room, those that hold everywhere left out.</summary>
    public virtual IReadOnlyList<RoomKey> Keys => [];

    /// <summary>What can be marked now; may change from call to call, never empty.</summary>
    public abstract IReadOnlyList<Choice> Choices { get; }

    /// <summary>True when the room lies over another whose sound goes on.</summary>
    public virtual bool IsOverlay => false;

    /// <summary>A page that is typed on here: keys that type go to it, Space among them; null for none.</summary>
    public virtual TextPage? Page => null;

    /// <summary>Names where the room stands, when it goes through stages; empty otherwise.</summary>
    public virtual string Phase => "";

    /// <summary>What has been found, in lines to be read aloud; empty when there is nothing.</summary>
    public virtual IReadOnlyList<string> Findings => [];

    /// <summary>What can hurt in what is open or marked here, in lines to be read aloud; empty when nothing can.</summary>
    public virtual IReadOnlyList<string> Cares => [];

    /// <summary>The take that a body note made here belongs to.</summary>
    public virtual NotedTake NotedTake => NotedTake.None;

    /// <summary>Where one is, in one line.</summary>
    public abstract string Where { get; }

    /// <summary>Which choice is marked.</summary>
    public int MarkedIndex
    {
        get => Math.Clamp(_marked, 0, Choices.Count - 1);
        protected set => _marked = value;
    }

    /// <summary>The stand it lies on.</summary>
    protected MusicStand Stand => stand;

    /// <summary>Which way the back pedal marks when nothing sounds: 1 for the next choice, -1 for the one before.</summary>
    public virtual int BackPedalStep => 1;

    /// <summary>The room comes to lie on top, first or again.</summary>
    public virtual void Entered()
    {
    }

    /// <summary>The room is left for good.</summary>
    public virtual void Left()
    {
    }

    /// <summary>Silence was asked for, by whatever key; the desk is silent already.</summary>
    public virtual void Silenced()
    {
    }

    /// <summary>The program ends with the room open: silence, and what the player made here is given to be kept.</summary>
    public virtual void Closing() => Silenced();

    /// <summary>Called 25 times a second while the room lies on top or under an overlay.</summary>
    public virtual void Tick()
    {
    }

    /// <summary>Draws the whole room.</summary>
    /// <param name="canvas">An empty canvas of at least 80x24.</param>
    public abstract void Draw(Canvas canvas);

    /// <summary>A digit shortens a choice; false when the room has none for it.</summary>
    /// <param name="digit">0 to 9.</param>
    public virtual bool Digit(int digit) => false;

    /// <summary>Does the marked choice.</summary>
    public void DoMarked() => Choices[MarkedIndex].Do();

    /// <summary>Marks the next choice, round and round.</summary>
    /// <param name="step">1 or -1.</param>
    public void MarkNext(int step = 1)
    {
        int count = Choices.Count;
        _marked = (((MarkedIndex + step) % count) + count) % count;
    }

    /// <summary>Marks a choice.</summary>
    /// <param name="index">Its index; clamped.</param>
    public void Mark(int index) => _marked = Math.Clamp(index, 0, Choices.Count - 1);

    /// <summary>Draws the marked choice and the room's main keys in the last row.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="keys">The keys, in a few words each.</param>
    protected void DrawMarkedLine(Canvas canvas, string keys)
    {
        int y = canvas.Height - 1;
        int x = canvas.Write(0, y, $"{Glyphs.Marked} {Choices[MarkedIndex].Label} (Enter)", Ink.Marked);
        // A key that does what is marked would say the same again.
        IEnumerable<string> others = keys
            .Split("  ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Where(item => item[(item.IndexOf(' ', StringComparison.Ordinal) + 1)..] != Choices[MarkedIndex].Label);
        DrawKeyLine(canvas, x + 2, string.Join(keys.Contains("   ", StringComparison.Ordinal) ? "   " : "  ", others));
    }

    /// <summary>Draws the room's main keys in the last row. Those that do not fit are left out whole, never the last one.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="x">First column.</param>
    /// <param name="keys">The keys, in a few words each, two spaces between them; the last lists all keys.</param>
    protected void DrawKeyLine(Canvas canvas, int x, string keys)
    {
        string line = Stand.Letterset.InWords(Stand.Memory.Now.ArrowPedal ? WithoutArrows(keys) : keys, isKeyLine: true);
        while (x + line.Length > canvas.Width)
        {
            List<string> items = [.. line.Split("  ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)];
            int drop = items.FindLastIndex(Math.Max(0, items.Count - 2), item => !item.StartsWith("Space", StringComparison.Ordinal));
            if (items.Count < 2 || drop < 0)
            {
                break;
            }

            items.RemoveAt(drop);
            line = string.Join("  ", items);
        }

        canvas.Write(x, canvas.Height - 1, line, Ink.Quiet);
    }

    // Where the arrows are the pedal, a letter of the room or Tab stands for them, or nothing.
    private string WithoutArrows(string keys)
    {
        bool Has(char letter) => Keys.Any(key => key.Presses.Contains(letter));
        string[] items = keys.Split("  ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        bool hasTab = items.Any(item => item.StartsWith("Tab", StringComparison.Ordinal));
        return string.Join("  ", items
            .Select(item => item switch
            {
                _ when item.StartsWith($"{Sideways} or ", StringComparison.Ordinal) => item[$"{Sideways} or ".Length..],
                _ when item.StartsWith(Sideways, StringComparison.Ordinal) => Has('j') ? $"j l{item[Sideways.Length..]}" : "",
                _ when item.StartsWith(Upwards, StringComparison.Ordinal) => Has('u') ? $"u d{item[Upwards.Length..]}" : hasTab ? "" : $"Tab{item[Upwards.Length..]}",
                _ when item.StartsWith("arrows ", StringComparison.Ordinal) => "",
                _ => item,
            })
            .Where(item => item.Length > 0));
    }
}
