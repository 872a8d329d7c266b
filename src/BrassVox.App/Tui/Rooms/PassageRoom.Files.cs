using BrassVox.App.Tui.Input;
using BrassVox.Practice.Passages;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Which passage is open in Passage: the shipped one, one of the player's own, a file.</summary>
internal sealed partial class PassageRoom
{
    private bool IsOwn => _open is { } open && OwnPassages.IsName(open);

    private PassageLoad LoadOf(string? name) => name switch
    {
        null => ShippedPassages.Load(ShippedPassages.First, Stand.Profile),
        _ when OwnPassages.IsName(name) => _own.Read(name),
        _ => PassageFile.Read(name),
    };

    // A passage, and what to remember it by: the name of an own one, the path of a file, null for the shipped one.
    private void Take(PassageLoad load, string? open)
    {
        if (load.Passage is not { } passage || passage.Bars.Count == 0)
        {
            _trouble = load.Problem?.ToString() ?? "there is nothing in it.";
            if (_passage is not null)
            {
                Stand.Say(_trouble);
            }

            return;
        }

        _passage = passage;
        _open = open;
        _passedBy = null;
        Mark(0);
        _octaves = 0;
        _fromBar = 1;
        _toBar = Math.Min(4, passage.Bars.Count);
        _moment = 0;
        _help = new HelpLadder();
        _turns = 0;
        _last.Clear();
        Read();
        if (passage.Remarks.Count > 0)
        {
            Stand.Say(string.Join(' ', passage.Remarks));
        }
    }

    private void AskFile() => Stand.Ask(new TextBox("Path of a passage (text, MusicXML, MIDI):", text =>
    {
        PassageLoad load = PassageFile.Read(text);
        if (load.Passage is null)
        {
            // The path stands in the line already: its last part leaves room for what is wrong.
            return new TextFault((load.Problem! with { File = Path.GetFileName(text) is { Length: > 0 } name ? name : text }).ToString());
        }

        Take(load, Path.GetFullPath(text));
        return null;
    }));

    private void Write() => Edit(IsOwn ? _open : null);

    private void Edit(string? name) => Stand.Open(new PassagePageRoom(Stand, _own, name, (kept, passage) =>
    {
        if (passage is null)
        {
            Take(LoadOf(null), null);
            Stand.Say($"{kept} was empty and is gone.");
            return;
        }

        Take(new PassageLoad(passage, null), kept);
        if (passage.Remarks.Count == 0)
        {
            Stand.Say($"Kept as {kept}.");
        }
    }));

    // Round: the shipped one, then the player's own in the order they were begun. One that does not read opens as text.
    private void Another()
    {
        string?[] all = [null, .. _own.Names];
        if (all.Length == 1 && _open is null)
        {
            Stand.Say("There is no other passage yet; n types one of your own.");
            return;
        }

        string? next = all[(Array.IndexOf(all, _passedBy ?? _open) + 1) % all.Length];
        PassageLoad load = LoadOf(next);
        if (load.Passage is null && next is not null)
        {
            _passedBy = next;
            Edit(next);
            Stand.Say(load.Problem!.ToString());
            return;
        }

        Take(load, next);
    }
}
