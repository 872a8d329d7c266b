using System.Text;
using System.Text.Json;
using BrassVox.Practice.Files;
using BrassVox.Synthesis.Files;
using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>The players of a machine or a studio: one file each in <c>players/</c> of the data folder, and the name of the one who practises now.</summary>
public sealed class PlayerFiles
{
    private const string OnlyPlayer = "_";
    private const string CurrentFile = "current";
    private readonly string _folder;

    /// <summary>Names the folder; nothing is created yet.</summary>
    /// <param name="dataFolder">The user's data folder.</param>
    public PlayerFiles(string dataFolder) => _folder = Path.Combine(dataFolder, "players");

    /// <summary>True when the folder of players is there: a player that is not in it was removed.</summary>
    public bool IsThere => Directory.Exists(_folder);

    /// <summary>Name of the player who practises now; empty when none was ever chosen.</summary>
    public string CurrentName
    {
        get
        {
            string path = Path.Combine(_folder, CurrentFile);
            string name = File.Exists(path) ? File.ReadAllText(path).Trim() : "";
            return Player.IsName(name) && File.Exists(PathOf(name)) ? name : "";
        }
    }

    /// <summary>Names of all players, in alphabetical order; the nameless only player first when there is one.</summary>
    public IReadOnlyList<string> Names => !Directory.Exists(_folder) ? [] :
    [
        .. Directory.EnumerateFiles(_folder, "*.json").Select(path => Path.GetFileNameWithoutExtension(path))
            .Select(name => name == OnlyPlayer ? "" : name).Where(name => name.Length == 0 || Player.IsName(name)).Order(StringComparer.Ordinal),
    ];

    /// <summary>The player who practises now; null when no player was ever kept.</summary>
    /// <exception cref="InvalidDataException">The file cannot be used; the message says where.</exception>
    public Player? Current() => Read(CurrentName);

    /// <summary>Reads a player; null when there is none of that name.</summary>
    /// <param name="name">The name; empty for the only player.</param>
    /// <exception cref="InvalidDataException">The file cannot be used; the message says where.</exception>
    public Player? Read(string name)
    {
        string path = PathOf(name);
        if (!File.Exists(path))
        {
            return null;
        }

        try
        {
            Player player = JsonSerializer.Deserialize(File.ReadAllBytes(path), PlayerJson.Default.Player) ?? throw new InvalidDataException($"{path}: it is empty.");
            Check(player, name, path);
            return player;
        }
        catch (JsonException fault)
        {
            throw new InvalidDataException(PlainLine.Of($"{path}, line {(fault.LineNumber ?? 0) + 1}, at {fault.Path ?? "$"}: not a player of this version. Mend or remove the file."), fault);
        }
    }

    /// <summary>Keeps a player, for their owner only.</summary>
    /// <param name="player">The player.</param>
    /// <exception cref="ArgumentException">The name cannot be kept.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void Write(Player player)
    {
        string path = PathOf(player.Name);
        OwnerOnly.MakeFolder(_folder);
        WholeFile.WriteForOwner(path, file => JsonSerializer.Serialize(file, player, PlayerJson.Default.Player));
    }

    /// <summary>Chooses who practises.</summary>
    /// <param name="name">A player that is kept.</param>
    /// <exception cref="IOException">The choice cannot be written.</exception>
    public void Choose(string name)
    {
        OwnerOnly.MakeFolder(_folder);
        WholeFile.WriteForOwner(Path.Combine(_folder, CurrentFile), file => file.Write(Encoding.UTF8.GetBytes(name)));
    }

    /// <summary>Removes a player; takes stay.</summary>
    /// <param name="name">The name.</param>
    /// <returns>False when there is none.</returns>
    public bool Remove(string name)
    {
        string path = PathOf(name);
        bool there = File.Exists(path);
        File.Delete(path);
        return there;
    }

    private static void Check(Player player, string name, string path)
    {
        PlayerProfile profile = player.Profile;
        string? wrong = player.Name != name ? "its name is not the file's"
            : profile.A4Hz is < EqualTemperament.LowestA4Hz or > EqualTemperament.HighestA4Hz ? "a4Hz lies from 400 to 480"
            : profile.LowestSung.MidiNumber > profile.HighestSung.MidiNumber ? "lowestSung lies above highestSung"
            : !Tuning.TryParse(profile.TuningName, profile.TuningRoot ?? Pitch.Parse("C4"), out _) ? "tuningName is no tuning"
            : null;
        if (wrong is not null)
        {
            throw new InvalidDataException($"{path}: {wrong}. Mend or remove the file.");
        }
    }

    private string PathOf(string name) => name.Length == 0 || Player.IsName(name)
        ? Path.Combine(_folder, (name.Length == 0 ? OnlyPlayer : name) + ".json")
        : throw new ArgumentException($"\"{name}\" cannot be a player's name: letters, digits, spaces, hyphens and underscores, at most {Player.LongestName}.", nameof(name));
}
