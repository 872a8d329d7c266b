using System.Globalization;
using BrassVox.App.Tui.Rooms;

namespace BrassVox.App.Tui.Plain;

/// <summary>Tells what changes on a stand, one line an event, nothing drawn twice.</summary>
/// <param name="stand">The stand.</param>
internal sealed class PlainTeller(MusicStand stand)
{
    private string _where = "";
    private string _room = "";
    private string _message = "";
    private string _marked = "";
    private bool _sounds;
    private string _box = "";
    private int _line = -1;
    private string _cares = "";
    private readonly HashSet<string> _told = new(StringComparer.Ordinal);

    /// <summary>The lines since the last call.</summary>
    /// <returns>Each with the session's seconds first.</returns>
    public IReadOnlyList<string> Tell()
    {
        List<string> lines = [];
        string room = $"{stand.Top.Title} {stand.Top.Phase}";
        if (room != _room)
        {
            _room = room;
            _where = stand.Top.Where;
            _marked = stand.Top.Choices[stand.Top.MarkedIndex].Label;
            lines.Add(_where);
            _told.Clear();
        }

        // What is found out later is told when it is known.
        lines.AddRange(stand.Top.Findings.Where(_told.Add));

        IReadOnlyList<string> cares = stand.Top.Cares;
        string caresNow = string.Join(' ', cares);

        if (stand.Desk.IsSounding != _sounds)
        {
            _sounds = stand.Desk.IsSounding;
            lines.Add(_sounds
                ? string.Create(CultureInfo.InvariantCulture, $"sound on, {stand.Desk.LevelDb:0} dB.")
                : "tacet.");
        }

        string box = stand.Typing ?? "";
        if (box != _box)
        {
            _box = box;
            if (box.Length > 0)
            {
                lines.Add(box);
            }
        }

        // A line of a page is read out as the caret comes to it, not after each of its letters.
        int line = stand.Top.Page?.Line ?? -1;
        if (line != _line)
        {
            _line = line;
            if (stand.Top.Page is { } page)
            {
                lines.Add(page.Lines[line].Length > 0 ? page.Lines[line] : "empty line.");
            }
        }

        if (stand.Message != _message)
        {
            _message = stand.Message;
            if (_message.Length > 0)
            {
                lines.Add(_message);
            }
        }

        string marked = stand.Top.Choices[stand.Top.MarkedIndex].Label;
        if (marked != _marked)
        {
            _marked = marked;
            lines.Add($"marked: {marked}.");
        }

        // Told when they are other ones than before: not again at every step of a list whose exercises share them.
        if (caresNow != _cares)
        {
            _cares = caresNow;
            lines.AddRange(cares);
        }

        return [.. lines.Select(line => string.Create(CultureInfo.InvariantCulture, $"{stand.NowSeconds:0.0} {PlainWords.Of(line)}"))];
    }
}
