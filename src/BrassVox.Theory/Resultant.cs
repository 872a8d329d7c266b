namespace BrassVox.Theory;

/// <summary>One line of what two tones make together: played * P + sung * S.</summary>
/// <param name="Played">The integer m, how often P counts; negative when subtracted.</param>
/// <param name="Sung">The integer n, how often S counts; negative when subtracted.</param>
/// <param name="FrequencyHz">m P + n S in Hz, &gt; 0.</param>
public readonly record struct Resultant(int Played, int Sung, double FrequencyHz)
{
    /// <summary>Order |m| + |n|, at least 1.</summary>
    public int Order => Math.Abs(Played) + Math.Abs(Sung);

    /// <summary>True for a harmonic of one tone alone, which is there without any coupling.</summary>
    public bool IsHarmonic => Played == 0 || Sung == 0;

    /// <summary>True when one tone is subtracted from the other.</summary>
    public bool IsDifference => Played < 0 || Sung < 0;

    /// <summary>The formula as its name: P+S, 2P-S, S-P, 3P.</summary>
    public string Name
    {
        get
        {
            string played = Term(Played, "P");
            string sung = Term(Sung, "S");
            return (Played, Sung) switch
            {
                (_, 0) => played,
                (0, _) => sung,
                ( < 0, _) => $"{sung}-{played}",
                (_, < 0) => $"{played}-{sung}",
                _ => $"{played}+{sung}",
            };
        }
    }

    private static string Term(int count, string tone) => Math.Abs(count) == 1 ? tone : $"{Math.Abs(count)}{tone}";
}
