namespace BrassVox.Practice.Section;

/// <summary>One trial of a listening exercise for a section: everybody stands still but one. Which one?</summary>
/// <param name="Report">The section as it sounds.</param>
/// <param name="Player">The player who is off.</param>
/// <param name="Cents">By how many cents.</param>
public sealed record SectionTrial(SectionReport Report, int Player, double Cents)
{
    /// <summary>Makes the trials of a set.</summary>
    /// <param name="still">The section that stands still, from <see cref="SectionReport"/>: its moves are made.</param>
    /// <param name="count">Trials, at least 1.</param>
    /// <param name="cents">How far the one is off, in cents; up or down at random.</param>
    /// <param name="seed">Same seed, same trials.</param>
    public static IReadOnlyList<SectionTrial> Build(SectionReport still, int count, double cents, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ =>
        {
            int player = random.Next(still.Tones.Count) + 1;
            double off = random.Next(2) == 0 ? cents : -cents;
            SectionTone[] tones = [.. still.Tones.Select((tone, i) => tone with
            {
                FrequencyHz = Theory.Cents.Above(still.Moves[i].ToHz, tone.Player == player ? off : 0),
            })];
            return new SectionTrial(still with { Tones = tones }, player, off);
        })];
    }
}
