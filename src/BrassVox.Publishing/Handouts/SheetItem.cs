using BrassVox.Practice.Exercises;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Notation;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>Something to be given away: an exercise or a passage, with notes for one player.</summary>
/// <param name="FileName">Begin of the names of its files; sorts by the order of the curriculum.</param>
/// <param name="Resolved">What is asked, at its tempo.</param>
/// <param name="Passage">The passage, if it is one.</param>
public sealed record SheetItem(string FileName, ResolvedExercise Resolved, Passage? Passage = null)
{
    /// <summary>Name for people.</summary>
    public string Title => Resolved.Exercise.Name;

    /// <summary>Its notes as a player reads them.</summary>
    /// <param name="player">The player it was resolved for.</param>
    public Score ScoreFor(Player player)
    {
        WrittenPart part = PartFor(player);
        return Passage is { } passage ? Score.Of(passage, player.Profile, part) : Score.Of(Resolved, part);
    }

    /// <summary>How a player's part is written, its key in their note names.</summary>
    /// <param name="player">The player.</param>
    internal static WrittenPart PartFor(Player player)
    {
        WrittenPart part = WrittenPart.Of(player.Profile.Instrument, player.ReadsTransposed);
        if (part.IsTransposed)
        {
            // "in Bb" in the player's note names: what C4 sounds as names the key.
            part = part with { Key = "in " + NoteNames.Of(part.ToSounding.From(Pitch.Parse("C4")), player.NoteNames).TrimEnd("0123456789-".ToCharArray()) };
        }

        return part;
    }
}
