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
    private bool _changed;

    // As of the last reading or writing.
    private Remembered _known;

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

    /// <summary>Why what has changed is not written; null once it is.</summary>
    public string? Unsaved { get; private set; }

    /// <summary>Reads the folder's file.</summary>
    /// <param name="folder">The data folder, or null to remember nothing beyond this run.</param>
    public static Memory Load(string? folder)
    {
        Memory memory = LoadFile(folder);
        try
        {
            if (memory.Players?.Current() is { } player)
            {
                memory.Now = memory._known = memory.Now.For(player);
                memory.IsFirstRun = false;
            }
        }
        catch (Exception problem) when (problem is InvalidDataException or IOException or UnauthorizedAccessException)
        {
            memory._unread = problem.Message;
        }

        return memory;
    }

    /// <summary>Another player takes the stand.</summary>
    /// <param name="player">A player of <see cref="Players"/>.</param>
    public void Use(Player player)
    {
        Save();
        Players?.Choose(player.Name);
        Change(now => now.For(player));
        _known = _known.As(player);
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
            RememberedFile file = JsonSerializer.Deserialize(File.ReadAllText(path), RememberedJson.Default.RememberedFile)
                ?? throw new FormatException("it is empty");
            return new Memory(path, file.ToRemembered(), isFirstRun: false, trouble: null);
        }
        catch (Exception problem) when (problem is JsonException or FormatException or IOException or UnauthorizedAccessException or NotSupportedException)
        {
            string aside = $"{path}.unread";
            string trouble = PlainLine.Of($"{FileName} could not be used: {problem.Message.Split('\n')[0]}");
            try
            {
                File.Move(path, aside, overwrite: true);
                trouble += $" It is kept as {Path.GetFileName(aside)}.";
            }
            catch (Exception again) when (again is IOException or UnauthorizedAccessException)
            {
                path = null;
            }

            return new Memory(path, Remembered.Usual(), isFirstRun: true, trouble);
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
            OwnerOnly.MakeFolder(Path.GetDirectoryName(_path)!);
            (Remembered held, bool isPlayerRead) = Held();
            Remembered next = Now.Over(_known, held);
            WholeFile.WriteForOwner(_path, file => JsonSerializer.Serialize(file, RememberedFile.From(next), RememberedJson.Default.RememberedFile));
            if (isPlayerRead)
            {
                Players!.Write(next.Player);
            }

            _known = Now;
            _changed = false;
            Unsaved = null;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            Unsaved = $"{FileName} cannot be written: {problem.Message}";
        }
    }

    // What the files hold by now, and whether the player's could be read or is still to be made.
    private (Remembered Held, bool IsPlayerRead) Held()
    {
        Memory there = LoadFile(Path.GetDirectoryName(_path));
        _unread = there._unread ?? _unread;
        Remembered held = there.IsFirstRun ? _known : there.Now;
        if (there._path is null)
        {
            throw new IOException(there._unread);
        }

        try
        {
            return (held.As(Players!.Read(Now.PlayerName) ?? _known.Player), true);
        }
        catch (InvalidDataException problem)
        {
            _unread = problem.Message;
            return (held.As(_known.Player), false);
        }
    }
}
