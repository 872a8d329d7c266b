using System.Text.Json;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis.Files;

namespace BrassVox.App.Tui.Sound;

/// <summary>
/// Keeps <see cref="Remembered"/> in one file of the data folder, and the player in theirs. Writing replaces a file in one step, so a crash
/// leaves the old one whole; a file that cannot be read is set aside or left alone, never overwritten. Only what was changed here is written
/// over what another window, or a command, has written meanwhile.
/// </summary>
internal sealed class Memory
{
    private const string FileName = "stand.json";
    private readonly string? _path;
    private string? _unread;
    private string? _unwritten;
    private string? _lost;
    private bool _changed;

    // As of the last reading or writing.
    private Remembered _known;
    private bool _isPlayerKept;

    private Memory(string? path, Remembered now, bool isFirstRun, string? trouble)
    {
        _path = path;
        Now = _known = now;
        IsFirstRun = isFirstRun;
        _unread = trouble;
    }

    /// <summary>The players of this folder; null when nothing is remembered beyond this run.</summary>
    public PlayerFiles? Players => _path is null ? null : new PlayerFiles(Path.GetDirectoryName(_path)!);

    /// <summary>What is remembered now.</summary>
    public Remembered Now { get; private set; }

    /// <summary>True until the first answers are kept.</summary>
    public bool IsFirstRun { get; private set; }

    /// <summary>Why an earlier file was not used or a new one not written; null when all is well.</summary>
    public string? Trouble => Unsaved ?? _unread;

    /// <summary>Why what has changed is not written; null once it is. What a player left behind unwritten stays so.</summary>
    public string? Unsaved => _unwritten ?? _lost;

    /// <summary>Reads the folder's file.</summary>
    /// <param name="folder">The data folder, or null to remember nothing beyond this run.</param>
    public static Memory Load(string? folder)
    {
        Memory memory = LoadFile(folder);
        try
        {
            if (memory.Players?.Current() is { } player)
            {
                memory.Now = memory._known = memory.Now.Again(player);
                (memory.IsFirstRun, memory._isPlayerKept) = (false, true);
            }
        }
        catch (Exception problem) when (problem is InvalidDataException or IOException or UnauthorizedAccessException)
        {
            // Takes are that player's all the same, and nobody else's.
            memory._unread = problem.Message;
            memory.Now = memory._known = memory.Now with { PlayerName = NameOf(memory.Players!) };
        }

        return memory;
    }

    private static string NameOf(PlayerFiles players)
    {
        try
        {
            return players.CurrentName;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }

    /// <summary>Another player takes the stand.</summary>
    /// <param name="player">A player of <see cref="Players"/>.</param>
    public void Use(Player player)
    {
        Save();
        if (Now.Player != _known.Player)
        {
            _lost ??= _unwritten;
        }

        Players?.Choose(player.Name);
        Change(now => now.For(player));
        _known = _known.As(player);
        _isPlayerKept = true;
    }

    private static Memory LoadFile(string? folder)
    {
        string? path = folder is null ? null : Path.Combine(folder, FileName);
        if (path is null || !File.Exists(path))
        {
            return new Memory(path, Remembered.Usual(), isFirstRun: true, trouble: null);
        }

        try
        {
            return new Memory(path, ReadFile(path), isFirstRun: false, trouble: null);
        }
        catch (Exception problem) when (IsSpoilt(problem) || problem is IOException or UnauthorizedAccessException)
        {
            (string trouble, bool isAside) = SetAside(path, problem);
            return new Memory(isAside ? path : null, Remembered.Usual(), isFirstRun: true, trouble);
        }
    }

    private static bool IsSpoilt(Exception problem) => problem is JsonException or FormatException or NotSupportedException;

    private static Remembered ReadFile(string path) => (JsonSerializer.Deserialize(File.ReadAllText(path), RememberedJson.Default.RememberedFile)
        ?? throw new FormatException("it is empty")).ToRemembered();

    private static (string Trouble, bool IsAside) SetAside(string path, Exception problem)
    {
        string aside = $"{path}.unread";
        string trouble = PlainLine.Of($"{FileName} could not be used: {problem.Message.Split('\n')[0]}");
        try
        {
            File.Move(path, aside, overwrite: true);
            return ($"{trouble} It is kept as {Path.GetFileName(aside)}.", true);
        }
        catch (Exception again) when (again is IOException or UnauthorizedAccessException)
        {
            return (trouble, false);
        }
    }

    /// <summary>Changes what is remembered; written by <see cref="Save"/>.</summary>
    /// <param name="change">Gives the new from the old.</param>
    public void Change(Func<Remembered, Remembered> change)
    {
        Remembered next = change(Now);
        _changed |= next != Now;
        Now = next;
    }

    /// <summary>The first answers are given.</summary>
    public void EndFirstRun()
    {
        IsFirstRun = false;
        _changed = true;
    }

    /// <summary>Writes what has changed. Small and rare: called when a room is left and at the end.</summary>
    public void Save()
    {
        if (_path is null || !_changed || IsFirstRun)
        {
            return;
        }

        try
        {
            string folder = Path.GetDirectoryName(_path)!;
            OwnerOnly.MakeFolder(folder);
            using FolderTurn turn = FolderTurn.Take(folder);
            (Player player, string? whyNot) = HeldPlayer();
            Remembered stand = HeldStand();

            // The pair that another player, or the same with another instrument, explored there is not this one's.
            Remembered held = (stand.Fits(Now.Profile) ? stand : stand with { Pair = Now.Pair }).As(player);
            Remembered next = Now.Over(_known, held);
            next = Now.Fits(next.Profile) ? next : next with { Pair = Remembered.HomePair(next.Profile) };
            WholeFile.WriteForOwner(_path, file => JsonSerializer.Serialize(file, RememberedFile.From(next), RememberedJson.Default.RememberedFile));
            bool isLost = whyNot is not null && Now.Player != _known.Player;
            if (whyNot is null)
            {
                Players!.Write(next.Player);
                _isPlayerKept = true;
                _known = Now;
            }
            else
            {
                _unread = whyNot;
                _known = Now.As(_known.Player);
            }

            _changed = isLost;
            _unwritten = isLost ? whyNot : null;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            _unwritten = $"{FileName} cannot be written: {problem.Message}";
        }
    }

    // What the file holds by now. One that is spoilt is set aside; one that cannot be read just now is left, and tried again.
    private Remembered HeldStand()
    {
        if (!File.Exists(_path))
        {
            return _known;
        }

        try
        {
            return ReadFile(_path);
        }
        catch (Exception problem) when (IsSpoilt(problem))
        {
            (_unread, bool isAside) = SetAside(_path, problem);
            return isAside ? _known : throw new IOException(_unread, problem);
        }
    }

    // The player as their file holds them by now, or why nothing can be kept of them.
    private (Player Player, string? WhyNot) HeldPlayer()
    {
        try
        {
            Player? there = Players!.Read(Now.PlayerName);
            return there is null && _isPlayerKept && Players.IsThere
                ? (_known.Player, $"{(Now.PlayerName.Length > 0 ? Now.PlayerName : "The player")} was removed elsewhere; choose another player, or make one anew.")
                : (there ?? _known.Player, null);
        }
        catch (InvalidDataException problem)
        {
            return (_known.Player, problem.Message);
        }
    }
}
