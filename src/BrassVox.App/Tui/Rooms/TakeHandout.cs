using System.Text;
using BrassVox.App.Cli;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Handouts;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Writes a kept take as a handout, elsewhere; what came of it is said once it is whole.</summary>
/// <param name="stand">The stand.</param>
internal sealed class TakeHandout(MusicStand stand)
{
    private const string Ending = ".html";
    private Task<HandoutWritten>? _writing;

    /// <summary>Asks for a name; none writes to the usual place. Never with sound.</summary>
    /// <param name="take">The take.</param>
    public void Name(TakeRecord take) => stand.Ask(new TextBox("Handout of this take, file (Enter alone: usual place):", text =>
    {
        if (text.Length > 0 && Path.GetExtension(text) is { Length: > 0 } ending && !ending.Equals(Ending, StringComparison.OrdinalIgnoreCase))
        {
            return new TextFault($"A handout is {Ending}; end its name so.", text.Length - ending.Length);
        }

        Write(take, text.Length == 0 ? null : Path.HasExtension(text) ? text : text + Ending, withSound: false);
        return null;
    }));

    /// <summary>Writes it.</summary>
    /// <param name="take">The take.</param>
    /// <param name="path">Where to; null for <c>exported/ID.html</c> of the data folder.</param>
    /// <param name="withSound">True takes in the take's sound.</param>
    public void Write(TakeRecord take, string? path, bool withSound)
    {
        if (_writing is { IsCompleted: false })
        {
            stand.Say("A handout is still being written; again in a moment.");
            return;
        }

        StandParts parts = stand.Parts;
        Player player = stand.Memory.Now.Player;
        _writing = Task.Run(() =>
        {
            var reviews = new TakeReviews(parts.DataFolder, parts.Exercises, parts.Time);
            TakesSoFar soFar = new(reviews.List(player.Name).Takes, parts.Time.LocalTimeZone);
            TakeReview review = reviews.Of(take, player, soFar.Takes, withSound);
            byte[] html = Encoding.UTF8.GetBytes(Handout.Html(player, [], review.Title, soFar, [review]));
            string file = path is null ? Path.Combine(parts.DataFolder, "exported", take.Id + Ending) : Path.GetFullPath(path);
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            WholeFile.Write(file, to => to.Write(html));
            return new HandoutWritten(file, 0, 1, html.Length);
        });
        stand.Await("The handout", _writing);
        stand.Say(withSound ? "Writing the handout, with the take's sound." : "Writing the handout.");
    }

    /// <summary>To be called with each tick of the room.</summary>
    public void Tick()
    {
        if (_writing is { IsCompleted: true } done)
        {
            _writing = null;
            if (done.IsCompletedSuccessfully)
            {
                stand.Say($"Handout written: {done.Result.Path}");
            }
        }
    }
}
