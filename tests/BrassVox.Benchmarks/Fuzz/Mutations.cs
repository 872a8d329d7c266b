using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Xml.Linq;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>Ways to spoil an input: bytes, words, and the trees of JSON and XML.</summary>
internal static class Mutations
{
    private const int LargestBytes = 900_000;

    /// <summary>One input in so many is made large, to find what takes time or memory out of all proportion.</summary>
    private const int SwollenEvery = 1000;

    private static readonly byte[] EdgeBytes = [0, 1, 0x7F, 0x80, 0xFF, 0xFE, 0x40, (byte)'"', (byte)'<', (byte)'\n', 0x1B, 0x9B];

    private static readonly string[] EdgeNumbers =
    [
        "0", "-0", "1", "-1", "2", "7", "16", "63", "64", "65", "127", "128", "255", "256", "1000", "32767", "32768", "65535", "65536", "2147483647", "-2147483648", "4294967295",
        "9223372036854775807", "-9223372036854775808", "18446744073709551616", "99999999999999999999999999", "0.1", "-0.5", "1e-9", "1e-320", "1e9", "1e38", "1e308", "-1e308", "1e400",
        "0.0000000000000000000000001", "3.5", "NaN", "Infinity", "-Infinity", "1,5", "1.234,5", "0x10", "١٢", "1_000", "+5", " 5 ", "",
    ];

    private static readonly string[] EdgeWords =
    [
        "", " ", "\0", "\u001b[31m", "\u009b31m", "\r", "\n", "\t", "\u2028", "\u202e", "\ufeff", "\ud800", "İ", "ı", "ß", "♭", "♯", "𝄫", "🎺", "e\u0301", "null", "true", "..", "../../x", "/", "\\", "C:", "%s", "{0}", "'", "\"", "-",
        "Bb2", "H", "B9", "C-1", "Gx9", "Cbb-1", "P5", "-P8", "A29", "m1", "just", "equal", "0,100,200,300,400,500,600,700,800,900,1000,1100",
    ];

    public static T Pick<T>(this Random random, IReadOnlyList<T> list) => list[random.Next(list.Count)];

    public static bool Chance(this Random random, int oneIn) => random.Next(oneIn) == 0;

    public static string Number(Random random) => random.Next(3) switch
    {
        0 => random.Pick(EdgeNumbers),
        1 => random.Next(-5, 200).ToString(CultureInfo.InvariantCulture),
        _ => (Math.Round(random.NextDouble() * Math.Pow(10, random.Next(-3, 7)), 4) * (random.Chance(4) ? -1 : 1)).ToString("R", CultureInfo.InvariantCulture),
    };

    public static string Word(Random random) => random.Chance(4) ? Number(random) : random.Pick(EdgeWords);

    // Most inputs are spoiled in one place, so that much of them is still read.
    private static int Rounds(Random random) => random.Chance(2) ? 1 : 1 << random.Next(4);

    /// <summary>Bytes changed, cut, moved, doubled, or mixed with those of another input.</summary>
    public static byte[] Bytes(Random random, byte[] seed, byte[]? other = null)
    {
        List<byte> bytes = [.. seed];
        int rounds = Rounds(random);
        for (int i = 0; i < rounds && bytes.Count > 0; i++)
        {
            int at = random.Next(bytes.Count);
            int length = Math.Min(1 << random.Next(9), bytes.Count - at);
            switch (random.Next(9))
            {
                case 0:
                    bytes[at] ^= (byte)(1 << random.Next(8));
                    break;
                case 1:
                    bytes[at] = random.Pick(EdgeBytes);
                    break;
                case 2:
                    bytes[at] = (byte)random.Next(256);
                    break;
                case 3:
                    bytes.RemoveRange(at, length);
                    break;
                case 4:
                    bytes.InsertRange(at, bytes.GetRange(at, length));
                    break;
                case 5:
                    bytes.RemoveRange(at, bytes.Count - at);
                    break;
                case 6:
                    // A whole number of four bytes, of either order.
                    uint value = random.Pick<uint>([0, 1, 0x7F, 0x80, 0xFFFF, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFE, 0xFFFFFFFF]);
                    byte[] four = BitConverter.GetBytes(value);
                    if (random.Chance(2))
                    {
                        Array.Reverse(four);
                    }

                    for (int k = 0; k < 4 && at + k < bytes.Count; k++)
                    {
                        bytes[at + k] = four[k];
                    }

                    break;
                case 7 when other is { Length: > 0 }:
                    int from = random.Next(other.Length);
                    bytes.InsertRange(at, other[from..Math.Min(other.Length, from + (1 << random.Next(9)))]);
                    break;
                default:
                    bytes.Insert(at, (byte)random.Next(256));
                    break;
            }
        }

        return Swollen(random, [.. bytes]);
    }

    /// <summary>A text with tokens, numbers and lines exchanged.</summary>
    public static string Words(Random random, string seed, IReadOnlyList<string> dictionary)
    {
        List<string> tokens = Tokens(seed);
        int rounds = Rounds(random);
        for (int i = 0; i < rounds && tokens.Count > 0; i++)
        {
            int at = random.Next(tokens.Count);
            switch (random.Next(7))
            {
                case 0:
                    tokens[at] = random.Pick(dictionary);
                    break;
                case 1:
                    tokens[at] = Word(random);
                    break;
                case 2:
                    tokens.Insert(at, random.Chance(2) ? random.Pick(dictionary) : Word(random));
                    break;
                case 3:
                    tokens.RemoveRange(at, Math.Min(1 + random.Next(6), tokens.Count - at));
                    break;
                case 4:
                    tokens.InsertRange(at, tokens.GetRange(at, Math.Min(1 + random.Next(20), tokens.Count - at)));
                    break;
                case 5:
                    int other = random.Next(tokens.Count);
                    (tokens[at], tokens[other]) = (tokens[other], tokens[at]);
                    break;
                default:
                    int number = tokens.FindIndex(at, token => char.IsAsciiDigit(token[0]));
                    tokens[number < 0 ? at : number] = Number(random);
                    break;
            }

            tokens.RemoveAll(token => token.Length == 0);
        }

        string text = string.Concat(tokens);
        if (random.Chance(SwollenEvery) && text.Length > 0)
        {
            int from = random.Next(text.Length);
            string part = text.Substring(from, Math.Min(1 + random.Next(300), text.Length - from));
            text = text.Insert(from, string.Concat(Enumerable.Repeat(part, Math.Min(LargestBytes / 2, 1 << random.Next(10, 19)) / part.Length)));
        }

        return text;
    }

    /// <summary>A JSON text with values exchanged, keys renamed, dropped or doubled, arrays grown.</summary>
    public static string Json(Random random, string seed, IReadOnlyList<string> dictionary)
    {
        JsonNode root = JsonNode.Parse(seed, null, new System.Text.Json.JsonDocumentOptions { CommentHandling = System.Text.Json.JsonCommentHandling.Skip })!;
        int rounds = Rounds(random);
        for (int i = 0; i < rounds; i++)
        {
            List<JsonNode> inner = [];
            Collect(root, inner);
            JsonNode at = random.Pick(inner);
            if (at is JsonObject map && map.Count > 0)
            {
                string key = random.Pick([.. map.Select(pair => pair.Key)]);
                switch (random.Next(7))
                {
                    case 0:
                        map.Remove(key);
                        break;
                    case 1:
                        JsonNode? kept = map[key];
                        map.Remove(key);
                        map[random.Chance(2) ? random.Pick(dictionary) : Word(random)] = kept;
                        break;
                    case 2:
                        map[key] = random.Pick(inner).DeepClone();
                        break;
                    case 3 or 4 when map[key] is JsonValue value:
                        map[key] = Near(random, value);
                        break;
                    default:
                        map[key] = Value(random, dictionary);
                        break;
                }
            }
            else if (at is JsonArray { Count: > 0 } array)
            {
                int index = random.Next(array.Count);
                switch (random.Next(4))
                {
                    case 0:
                        array.RemoveAt(index);
                        break;
                    case 1:
                        for (int copies = random.Chance(20) ? 200 : 1; copies > 0; copies--)
                        {
                            array.Add(array[index]?.DeepClone());
                        }

                        break;
                    default:
                        array[index] = Value(random, dictionary);
                        break;
                }
            }
        }

        string text = root.ToJsonString();
        return random.Chance(10) ? Words(random, text, dictionary) : text;
    }

    /// <summary>An XML text with elements moved, dropped or doubled and their words exchanged.</summary>
    public static string Xml(Random random, string seed, IReadOnlyList<string> dictionary)
    {
        XDocument document = XDocument.Parse(seed);
        int rounds = Rounds(random);
        for (int i = 0; i < rounds; i++)
        {
            XElement[] all = [.. document.Descendants()];
            XElement at = random.Pick(all);
            switch (random.Next(8))
            {
                case 0 when at.Parent is not null:
                    at.Remove();
                    break;
                case 1 when at.Parent is not null:
                    at.AddAfterSelf(new XElement(at));
                    break;
                case 2 when at.Parent is not null:
                    random.Pick(all).Add(new XElement(at));
                    break;
                case 3:
                    at.SetAttributeValue(random.Pick(["type", "tempo", "id", "implicit", "above", "name", "full-path"]), Tame(random.Chance(2) ? random.Pick(dictionary) : Word(random)));
                    break;
                case 4:
                    at.Name = random.Pick(all).Name;
                    break;
                default:
                    XElement leaf = at.HasElements ? at.Descendants().LastOrDefault(element => !element.HasElements) ?? at : at;
                    if (!leaf.HasElements)
                    {
                        leaf.Value = Tame(random.Chance(3) ? Word(random) : random.Chance(2) ? Number(random) : random.Pick(dictionary));
                    }

                    break;
            }
        }

        string text = document.ToString(SaveOptions.DisableFormatting);
        return random.Chance(12) ? Words(random, text, dictionary) : text;
    }

    /// <summary>Now and then, a piece repeated until the input is large.</summary>
    public static byte[] Swollen(Random random, byte[] bytes)
    {
        if (bytes.Length == 0 || !random.Chance(SwollenEvery))
        {
            return bytes;
        }

        int from = random.Next(bytes.Length);
        byte[] part = bytes[from..Math.Min(bytes.Length, from + 1 + random.Next(300))];
        var swollen = new MemoryStream(LargestBytes);
        swollen.Write(bytes.AsSpan(0, from));
        for (long most = 1 << random.Next(10, 20); swollen.Length < Math.Min(most, LargestBytes - bytes.Length - part.Length);)
        {
            swollen.Write(part);
        }

        swollen.Write(bytes.AsSpan(from));
        return swollen.ToArray();
    }

    // What XML cannot hold is left out, so that the tree stays one.
    private static string Tame(string text) => string.Concat(text.Where(System.Xml.XmlConvert.IsXmlChar));

    private static JsonValue? Value(Random random, IReadOnlyList<string> dictionary) => random.Next(6) switch
    {
        0 => null,
        1 => JsonValue.Create(random.Chance(2)),
        2 or 3 => double.TryParse(Number(random), NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number)
            ? number == Math.Floor(number) && Math.Abs(number) < 1e15 ? JsonValue.Create((long)number) : JsonValue.Create(number)
            : JsonValue.Create(Word(random).Replace("\ud800", "?", StringComparison.Ordinal)),
        4 => JsonValue.Create(random.Pick(dictionary)),
        _ => JsonValue.Create(Word(random).Replace("\ud800", "?", StringComparison.Ordinal)),
    };

    // Another value of the same kind, so that it gets past the first look.
    private static JsonValue? Near(Random random, JsonValue value) => value.GetValueKind() switch
    {
        System.Text.Json.JsonValueKind.Number when value.TryGetValue(out int whole) => JsonValue.Create(whole + random.Next(-3, 4)),
        System.Text.Json.JsonValueKind.Number when value.TryGetValue(out double number) => JsonValue.Create(Math.Clamp(number * (random.NextDouble() + 0.5), double.MinValue, double.MaxValue)),
        System.Text.Json.JsonValueKind.String => JsonValue.Create(value.GetValue<string>() + random.Pick(["", "2", "x", " "])),
        System.Text.Json.JsonValueKind.True => JsonValue.Create(false),
        _ => JsonValue.Create(true),
    };

    private static void Collect(JsonNode node, List<JsonNode> inner)
    {
        if (node is JsonObject or JsonArray)
        {
            inner.Add(node);
        }

        IEnumerable<JsonNode?> children = node switch { JsonObject map => map.Select(pair => pair.Value), JsonArray array => array, _ => [] };
        foreach (JsonNode? child in children)
        {
            if (child is not null)
            {
                Collect(child, inner);
            }
        }
    }

    // Letters together, digits together, everything else alone.
    private static List<string> Tokens(string text)
    {
        static int Kind(char c) => char.IsLetter(c) ? 1 : char.IsAsciiDigit(c) ? 2 : 0;
        List<string> tokens = [];
        var token = new StringBuilder();
        foreach (char c in text)
        {
            if (token.Length > 0 && (Kind(c) == 0 || Kind(c) != Kind(token[^1])))
            {
                tokens.Add(token.ToString());
                token.Clear();
            }

            token.Append(c);
        }

        if (token.Length > 0)
        {
            tokens.Add(token.ToString());
        }

        return tokens;
    }
}
