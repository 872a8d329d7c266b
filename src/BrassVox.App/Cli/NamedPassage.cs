using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;

namespace BrassVox.App.Cli;

/// <summary>A passage as a command line names it: a file, or the plain name of a shipped passage or of one of the user's own.</summary>
internal static class NamedPassage
{
    /// <summary>Reads it. A file of that name goes before a shipped passage, that before one of the user's own. Blocks on the disk.</summary>
    /// <param name="name">What was named.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="profile">The player, for the version that is shipped for the voice.</param>
    /// <param name="voices">Which parts of a score are played and sung; null lets the file say.</param>
    /// <returns>The passage, or what is wrong with the file; null for a plain name (letters, digits, hyphens) that nothing has.</returns>
    public static PassageLoad? Read(string name, string folder, PlayerProfile profile, VoiceNames? voices = null)
    {
        if (File.Exists(name) || !name.All(c => char.IsAsciiLetterOrDigit(c) || c == '-'))
        {
            return PassageFile.Read(name, voices);
        }

        if (File.Exists(ShippedPassages.PathOf(name, profile.Voice)))
        {
            return ShippedPassages.Load(name, profile);
        }

        string own = Path.Combine(new OwnPassages(folder).Folder, name + ".txt");
        return File.Exists(own) ? PassageFile.Read(own, voices) : null;
    }
}
