using System.Text;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>One reader of the program under attack: how inputs for it are made, and what reading them has to keep.</summary>
/// <param name="name">Name on the command line and in the report.</param>
/// <param name="share">How many inputs it gets beside the others; cheap readers get more.</param>
internal abstract class FuzzReader(string name, int share)
{
    public string Name { get; } = name;

    public int Share { get; } = share;

    /// <summary>Makes an input; the same numbers, the same input.</summary>
    public abstract byte[] Make(Random random);

    /// <summary>Reads it as the program does. Whatever leaves here as an exception is a finding.</summary>
    /// <param name="input">The input.</param>
    /// <param name="folder">A folder of the worker's own.</param>
    /// <returns>True when it was read; false when it was refused in words.</returns>
    public abstract bool Read(byte[] input, string folder);

    /// <summary>What is told to people is one line, and nothing in it moves a terminal's cursor.</summary>
    protected static void IsOneLine(string? told)
    {
        if (told is null || told.Length == 0)
        {
            throw new FuzzFinding("it is refused without a word");
        }

        IsTame(told);
    }

    /// <summary>Nothing in it moves a terminal's cursor.</summary>
    protected static void IsTame(string? told)
    {
        if (told is not null && told.Any(char.IsControl))
        {
            throw new FuzzFinding($"control characters in what is told: {string.Concat(told.Select(c => char.IsControl(c) ? $"<{(int)c:X2}>" : c.ToString()))}");
        }
    }

    protected static void Holds(bool condition, string what)
    {
        if (!condition)
        {
            throw new FuzzFinding(what);
        }
    }

    protected static byte[] Utf8(string text) => Encoding.UTF8.GetBytes(text);

    protected static string Text(byte[] bytes) => Encoding.UTF8.GetString(bytes);
}

/// <summary>Something that reading has to keep and did not.</summary>
internal sealed class FuzzFinding(string message) : Exception(message);
