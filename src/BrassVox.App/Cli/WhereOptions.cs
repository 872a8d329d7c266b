using System.CommandLine;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary>The options that say whose data: which folder, which player.</summary>
internal sealed class WhereOptions
{
    /// <summary>Folder of the invented ensemble within the data folder.</summary>
    public const string DemoFolder = "demo";

    private readonly Option<string?> _data = new("--data")
    {
        Description = $"Folder of takes, players and own exercises (unless given: {DataFolder.Variable}, else the system's place for user data)",
        HelpName = "folder",
    };

    private readonly Option<bool> _demo = new("--demo") { Description = "The invented ensemble instead of your own data; brassvox demo makes it" };

    private readonly Option<string?> _player = PlayerOption();

    /// <summary>The option that names a player.</summary>
    public static Option<string?> PlayerOption() => new("--player") { Description = "Name of a player (the one chosen with profile use, unless given)", HelpName = "name" };

    public void AddTo(Command command, bool withPlayer = true)
    {
        command.Options.Add(_data);
        command.Options.Add(_demo);
        if (withPlayer)
        {
            command.Options.Add(_player);
        }
    }

    /// <summary>The data folder.</summary>
    public string Folder(ParseResult arguments)
    {
        string folder = DataFolder.Find(arguments.GetValue(_data));
        return arguments.GetValue(_demo) ? Path.Combine(folder, DemoFolder) : folder;
    }

    /// <summary>True when a player is named.</summary>
    public bool NamesPlayer(ParseResult arguments) => arguments.GetValue(_player) is not null;

    /// <summary>The player who is meant; the usual one when none was ever kept.</summary>
    /// <exception cref="BadCommandLineException">There is no player of that name.</exception>
    /// <exception cref="InvalidDataException">The player's file cannot be used.</exception>
    public Player Player(ParseResult arguments) => Known(Folder(arguments), arguments.GetValue(_player)) ?? Practice.Profiles.Player.Usual;

    /// <summary>A player by name, or the one who was chosen; null when none was ever kept.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="name">The name, or null.</param>
    /// <exception cref="BadCommandLineException">There is no player of that name.</exception>
    /// <exception cref="InvalidDataException">The player's file cannot be used.</exception>
    public static Player? Known(string folder, string? name)
    {
        var files = new PlayerFiles(folder);
        return name is null ? files.Current() : Named(files, name);
    }

    /// <summary>A player by name.</summary>
    /// <param name="files">The players.</param>
    /// <param name="name">The name; empty for the one without.</param>
    /// <exception cref="BadCommandLineException">There is no player of that name.</exception>
    /// <exception cref="InvalidDataException">The player's file cannot be used.</exception>
    public static Player Named(PlayerFiles files, string name) => (name.Length == 0 || Practice.Profiles.Player.IsName(name) ? files.Read(name) : null)
        ?? throw new BadCommandLineException($"there is no player \"{name}\"; brassvox profile list names them.");
}
