using System.Globalization;
using Xunit;

namespace BrassVox.Tests.Support;

/// <summary>Lines of words and numbers on record under Golden: with BRASSVOX_RECORD=1 they are written anew, else they have to be the same.</summary>
internal static class GoldenRecord
{
    // The record gives six digits; sums of another order on another processor move the twelfth.
    private const double Near = 2e-5;

    // Line by line, so that what differs early is told early.
    public static void Holds(string name, IEnumerable<string> now)
    {
        string file = Path.Combine(Repository.Root, "tests", "BrassVox.Tests", "Golden", name + ".txt");
        if (Environment.GetEnvironmentVariable("BRASSVOX_RECORD") == "1")
        {
            File.WriteAllLines(file, now);
        }

        string[] before = File.ReadAllLines(file);
        int i = 0;
        foreach (string line in now)
        {
            Assert.True(i < before.Length, $"{name}: {before.Length} lines on record, more now");
            string[] was = before[i].Split(' '), words = line.Split(' ');
            i++;
            Assert.True(was.Length == words.Length && was.Zip(words).All(IsSame), $"{name}, line {i}: {before[i - 1]} on record, {line} now");
        }

        Assert.Equal(before.Length, i);
    }

    private static bool IsSame((string Was, string Is) word) =>
        word.Was == word.Is
        || (double.TryParse(word.Was, CultureInfo.InvariantCulture, out double was) && double.TryParse(word.Is, CultureInfo.InvariantCulture, out double now)
            && Math.Abs(was - now) <= Near * Math.Max(1, Math.Abs(was)));
}
