using BrassVox.Theory;

namespace BrassVox.Practice.Section;

/// <summary>Two to five players' tones together: what they make, what beats, and who moves to still it.</summary>
/// <param name="Tones">The tones in the order entered.</param>
/// <param name="Pairs">Every two of them.</param>
/// <param name="Standing">The player who stays.</param>
/// <param name="Moves">What the others do, 0 for those who are right; in the order of players.</param>
/// <param name="BeatsAfter">The fastest beats of any two afterwards, in beats per second.</param>
/// <remarks>
/// A pair of tones in a ratio near k:m beats |k f1 - m f2| times a second (exact). Which player stays is chosen so that the least is left
/// beating, then so that the least is moved; where a chord has no just form that stills every pair, the rest is told. Ours, to be tried with players.
/// </remarks>
public sealed record SectionReport(
    IReadOnlyList<SectionTone> Tones, IReadOnlyList<SectionPair> Pairs, int Standing, IReadOnlyList<SectionMove> Moves, double BeatsAfter)
{
    /// <summary>Fewest players.</summary>
    public const int Fewest = 2;

    /// <summary>Most players.</summary>
    public const int Most = 5;

    // Beats left that count as equal when it is chosen who stays.
    private const double SameBeats = 0.05;

    /// <summary>Works out a section.</summary>
    /// <param name="tones">Notes with cents beside them, two to five.</param>
    /// <param name="tuning">The tuning they are entered in.</param>
    /// <param name="a4Hz">A4 in Hz.</param>
    /// <exception cref="ArgumentException">There are fewer than two or more than five tones.</exception>
    public static SectionReport Of(IReadOnlyList<(Pitch Note, double Cents)> tones, Tuning tuning, double a4Hz)
    {
        if (tones.Count is < Fewest or > Most)
        {
            throw new ArgumentException($"A section here has {Fewest} to {Most} tones, not {tones.Count}.", nameof(tones));
        }

        SectionTone[] entered = [.. tones.Select((tone, i) =>
            new SectionTone(i + 1, tone.Note, tone.Cents, Cents.Above(tuning.FrequencyHz(tone.Note, a4Hz), tone.Cents)))];
        double[] hz = [.. entered.Select(tone => tone.FrequencyHz)];
        int standing = Enumerable.Range(0, hz.Length)
            .OrderBy(i => Math.Round(Left(Stilled(hz, i)) / SameBeats))
            .ThenBy(i => Math.Round(Moved(hz, Stilled(hz, i)), 2))
            .ThenBy(i => hz[i])
            .First();
        double[] stilled = Stilled(hz, standing);
        return new SectionReport(
            entered, PairsOf(hz), standing + 1,
            [.. hz.Select((from, i) => new SectionMove(i + 1, Cents.Between(from, stilled[i]), stilled[i]))], Left(stilled));
    }

    /// <summary>Every two of some tones.</summary>
    private static SectionPair[] PairsOf(double[] hz)
    {
        List<SectionPair> pairs = [];
        for (int i = 0; i < hz.Length; i++)
        {
            for (int j = i + 1; j < hz.Length; j++)
            {
                (int low, int high) = hz[i] <= hz[j] ? (i, j) : (j, i);
                double cents = Cents.Between(hz[low], hz[high]);
                JustInterval just = JustInterval.NearestTo(cents);
                pairs.Add(new SectionPair(
                    low + 1, high + 1, cents, just, cents - just.Cents, Math.Abs((just.Upper * hz[low]) - (just.Lower * hz[high])),
                    0.5 * ((just.Upper * hz[low]) + (just.Lower * hz[high])), hz[high] - hz[low], hz[high] + hz[low]));
            }
        }

        return [.. pairs];
    }

    // All others in their just interval to the one who stays.
    private static double[] Stilled(double[] hz, int standing) => [.. hz.Select(tone =>
    {
        double cents = Cents.Between(hz[standing], tone);
        double just = JustInterval.NearestTo(cents).Cents;
        return Cents.Above(hz[standing], cents < 0 ? -just : just);
    })];

    private static double Left(double[] hz) => PairsOf(hz).Max(pair => pair.BeatsPerSecond);

    private static double Moved(double[] from, double[] to) => from.Zip(to).Sum(pair => Math.Abs(Cents.Between(pair.First, pair.Second)));
}
