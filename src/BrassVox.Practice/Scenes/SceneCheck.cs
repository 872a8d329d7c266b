using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Scenes;

/// <summary>What a well-formed scene file can still get wrong.</summary>
internal static class SceneCheck
{
    private const double MostCents = 600;
    private const double WidestGlideCents = 2400;
    private const double A4Hz = 440;
    private const double LowestHz = 20;
    private const double HighestHz = 1600;
    private const int LongestName = 40;
    private const int LongestAbout = 150;

    /// <summary>The first fault with its place, or null.</summary>
    public static (string JsonPath, string Message)? FirstFault(Scene scene) => Faults(scene).Cast<(string, string)?>().FirstOrDefault();

    private static IEnumerable<(string JsonPath, string Message)> Faults(Scene scene)
    {
        if (scene.FormatVersion != 1)
        {
            yield return ("$.formatVersion", "this program reads format version 1.");
        }

        if (scene.Id.Length == 0 || scene.Id.Any(c => !(char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-')))
        {
            yield return ("$.id", "an id is written in a to z, 0 to 9 and hyphens.");
        }

        if (scene.Number < 1)
        {
            yield return ("$.number", "the place in the list counts from 1.");
        }

        if (scene.Name.Length is 0 or > LongestName)
        {
            yield return ("$.name", $"a name has 1 to {LongestName} characters.");
        }

        if (scene.About.Length > LongestAbout)
        {
            yield return ("$.about", $"at most {LongestAbout} characters are shown.");
        }

        if (!(scene.Coupling is >= 0 and <= 1))
        {
            yield return ("$.coupling", "coupling lies from 0 (separate) to 1.");
        }

        foreach ((string, string) fault in PairFaults(scene.Pair).Concat(GlideFaults(scene)).Concat(PartFaults(scene)))
        {
            yield return fault;
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> PairFaults(ScenePair pair)
    {
        if (!Tuning.TryParse(pair.Tuning, pair.Played, out Tuning? tuning))
        {
            yield return ("$.pair.tuning", $"\"{pair.Tuning}\" is no tuning; write equal, just, pythagorean or meantone.");
            yield break;
        }

        if (!(Math.Abs(pair.PlayedCents) <= MostCents))
        {
            yield return ("$.pair.playedCents", "cents lie from -600 to 600.");
        }

        if (!(Math.Abs(pair.SungCents) <= MostCents))
        {
            yield return ("$.pair.sungCents", "cents lie from -600 to 600.");
        }

        foreach ((string place, Pitch note) in new[] { ("$.pair.played", pair.Played), ("$.pair.sung", pair.Sung) })
        {
            if (!(tuning.FrequencyHz(note, A4Hz) is >= LowestHz and <= HighestHz))
            {
                yield return (place, $"{note} lies outside {LowestHz:0} to {HighestHz:0} Hz.");
            }
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> GlideFaults(Scene scene)
    {
        if (scene.Glide is not { } glide)
        {
            yield break;
        }

        if (!(Math.Abs(glide.FromCents) <= WidestGlideCents))
        {
            yield return ("$.glide.fromCents", "a glide begins from -2400 to 2400 cents off.");
        }

        if (!(glide.Seconds is >= 0.5 and <= 120))
        {
            yield return ("$.glide.seconds", "a glide takes 0.5 to 120 seconds.");
        }

        if (!(glide.AfterSeconds is >= 0 and <= 60))
        {
            yield return ("$.glide.afterSeconds", "a glide begins after 0 to 60 seconds.");
        }
    }

    private static IEnumerable<(string JsonPath, string Message)> PartFaults(Scene scene)
    {
        static bool IsPart(string name) => PairParts.Listed.Any(part => string.Equals(part.Name, name, StringComparison.Ordinal));
        static string NoPart(string name) =>
            $"\"{name}\" is no part of a pair; there are {string.Join(", ", PairParts.Listed.Select(part => part.Name))}.";

        if (scene.Only is { } only && !IsPart(only))
        {
            yield return ("$.only", NoPart(only));
        }

        for (int i = 0; i < (scene.Muted?.Count ?? 0); i++)
        {
            if (!IsPart(scene.Muted![i]))
            {
                yield return (string.Create(System.Globalization.CultureInfo.InvariantCulture, $"$.muted[{i}]"), NoPart(scene.Muted[i]));
            }
        }

        if (scene.Middle is { } middle && middle != Scene.Beats && !IsPart(middle))
        {
            yield return ("$.middle", $"write \"{Scene.Beats}\" or a part: {NoPart(middle)}");
        }
    }
}
