using System.Text.RegularExpressions;
using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Files;

namespace BrassVox.App.Tui.Input;

/// <summary>Which letter stands for which meaning: the usual ones, or those of keys.json.</summary>
internal sealed partial class KeyMap
{
    /// <summary>Name of the file in the data folder.</summary>
    public const string FileName = "keys.json";

    private const long LargestBytes = 1 << 14;
    private const char NoLetter = '\u0001';
    private const string Reserved = "0123456789+-= ";
    private readonly Dictionary<char, char> _toUsual = [];
    private readonly Dictionary<char, char> _toOwn = [];

    private KeyMap(IReadOnlyDictionary<string, string> own)
    {
        foreach (LetterMeaning meaning in Letters.All)
        {
            char letter = own.TryGetValue(meaning.Id, out string? given) ? given[0] : meaning.Usual;
            _toUsual[letter] = meaning.Usual;
            _toOwn[meaning.Usual] = letter;
        }

        IsUsual = _toOwn.All(pair => pair.Key == pair.Value);
    }

    /// <summary>The usual letters.</summary>
    public static KeyMap Usual { get; } = new(new Dictionary<string, string>());

    /// <summary>True when every letter is the usual one.</summary>
    public bool IsUsual { get; }

    /// <summary>Reads keys.json of a folder. A file with a fault is left alone, told with its line, and the usual letters hold.</summary>
    /// <param name="folder">The data folder.</param>
    /// <returns>The letters, and the problem or null.</returns>
    public static (KeyMap Map, FileProblem? Problem) Load(string folder)
    {
        string path = Path.Combine(folder, FileName);
        if (!File.Exists(path))
        {
            return (Usual, null);
        }

        FileLoad<KeyFile> load = CheckedJson.Read(path, LargestBytes, KeyFileJson.Default.KeyFile, FirstFault);
        return load.Value is { } file ? (new KeyMap(file.Letters), null) : (Usual, load.Problem);
    }

    /// <summary>The usual letter that a pressed one stands for; a sign that is no key when it stands for none.</summary>
    /// <param name="pressed">As pressed, lower case.</param>
    public char ToUsual(char pressed) =>
        Reserved.Contains(pressed, StringComparison.Ordinal) ? pressed : _toUsual.GetValueOrDefault(pressed, NoLetter);

    /// <summary>The letter to press for a usual one.</summary>
    /// <param name="usual">The usual letter.</param>
    public char ToOwn(char usual) => _toOwn.GetValueOrDefault(usual, usual);

    /// <summary>A line in which keys are named, with the letters that hold. A letter after a number is a unit, and "a" is a word but for a line of keys.</summary>
    /// <param name="line">The line with the usual letters.</param>
    /// <param name="isKeyLine">True for a row of keys, false for a sentence.</param>
    public string InWords(string line, bool isKeyLine) => IsUsual
        ? line
        : LoneLetter().Replace(line, match =>
            match.Value == "a" && !isKeyLine ? match.Value : ToOwn(match.Value[0]).ToString());

    private static (string JsonPath, string Message)? FirstFault(KeyFile file)
    {
        if (file.FormatVersion != 1)
        {
            return ("$.formatVersion", "this program reads format version 1.");
        }

        foreach ((string id, string letter) in file.Letters)
        {
            string place = $"$.letters.{id}";
            if (!Letters.All.Any(meaning => meaning.Id == id))
            {
                return (place, $"\"{id}\" is no meaning of a letter; there are {string.Join(", ", Letters.All.Select(meaning => meaning.Id))}.");
            }

            if (letter is not { Length: 1 } || Reserved.Contains(letter[0], StringComparison.Ordinal) || char.IsUpper(letter[0]) || char.IsControl(letter[0]))
            {
                return (place, "one letter or sign that is typed without shift; digits, + - = and Space are taken.");
            }
        }

        // What the file says is looked at last and in its own order, so that the line told is one of the file.
        var taken = Letters.All.Where(meaning => !file.Letters.ContainsKey(meaning.Id)).ToDictionary(meaning => meaning.Usual, meaning => meaning.Id);
        foreach ((string id, string letter) in file.Letters)
        {
            if (!taken.TryAdd(letter[0], id))
            {
                return ($"$.letters.{id}", $"{letter} is given twice: to {taken[letter[0]]} and to {id}.");
            }
        }

        return null;
    }

    [GeneratedRegex(@"(?<![\w'/.,]|\d )[a-z](?![\w'/])")]
    private static partial Regex LoneLetter();
}
