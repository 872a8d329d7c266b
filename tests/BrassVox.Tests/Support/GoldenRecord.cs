using System.Globalization;
using Xunit;

namespace BrassVox.Tests.Support;

/// <summary>Lines of words and numbers on record under Golden: with BRASSVOX_RECORD=1 they are written anew, else they have to be the same.</summary>
internal static class GoldenRecord
{
    // Sums of another order on another processor may move what single precision holds, and with it the last digit that is written.
    private const double Near = 2e-5;
    private const double LastDigits = 1.5;

    // Line by line, so that what differs early is told early.
    public static void Holds(string name, IEnumerable<string> now)
    {
        string file = Path.Combine(Repository.Root, "tests", "BrassVox.Tests", "Golden", name + ".txt");
        if (Environment.GetEnvironmentVariable("BRASSVOX_RECORD") == "1")
        {
            File.WriteAllText(file, string.Concat(now.Select(line => line + "\n")));
            Assert.Skip($"{name} is written anew.");
        }

        string[] before = File.ReadAllLines(file);
        int i = 0;
        foreach (string line in now)
        {
            Assert.True(i < before.Length, $"{name}: {before.Length} lines on record, more now");
            Assert.True(IsSame(before[i], line), $"{name}, line {i + 1}: {before[i]} on record, {line} now");
            i++;
        }

        Assert.Equal(before.Length, i);
    }

    /// <summary>Whether two lines have the same words, and numbers that differ by nothing but the arithmetic.</summary>
    public static bool IsSame(string was, string now)
    {
        string[] before = was.Split(' '), words = now.Split(' ');
        return before.Length == words.Length && before.Zip(words).All(IsSameWord);
    }

    private static bool IsSameWord((string Was, string Is) word) =>
        word.Was == word.Is
        || (IsNumber(word.Was, out double was) && IsNumber(word.Is, out double now)
            && Math.Abs(was - now) <= Math.Max(Near * Math.Max(1, Math.Abs(was)), LastDigits * LastDigit(word.Was)));

    // Endless and no numbers are words.
    private static bool IsNumber(string word, out double number) => double.TryParse(word, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);

    // Whole numbers are counts and names, which have no such digit.
    private static double LastDigit(string word) => word.IndexOf('.', StringComparison.Ordinal) is var point and >= 0 ? Math.Pow(10, point + 1 - word.Length) : 0;
}
