namespace BrassVox.Practice.Log;

/// <summary>How much was sung, and whether to rest. Information, not medical advice. Pure.</summary>
/// <param name="TodaySeconds">Sung today.</param>
/// <param name="WeekSeconds">Sung since Monday.</param>
/// <param name="BlockSeconds">Sung since the last rest of five minutes.</param>
/// <remarks>Blocks of five minutes, rest as long, twenty minutes a day: our own figures, to be tried with players; no published source.</remarks>
public sealed record VoiceLoad(double TodaySeconds, double WeekSeconds, double BlockSeconds)
{
    /// <summary>A block of singing is full after this many sung seconds.</summary>
    public const double FullBlockSeconds = 300;

    /// <summary>As much singing as a day's plan holds, in seconds.</summary>
    public const double FullDaySeconds = 1200;

    /// <summary>A pause as long as this ends a block.</summary>
    public const double RestSeconds = 300;

    /// <summary>What is said once when a block is full.</summary>
    public const string Advice = "Five minutes sung in this block: rest lips and voice for as long, and drink some water. Pain, scratch or lost high notes: stop for today.";

    /// <summary>True when the block is full and rest is due.</summary>
    public bool IsBlockFull => BlockSeconds >= FullBlockSeconds;

    /// <summary>True when no more singing is planned today.</summary>
    public bool IsDayFull => TodaySeconds >= FullDaySeconds;

    /// <summary>Adds up what was sung.</summary>
    /// <param name="spells">Stretches of practice, oldest first.</param>
    /// <param name="now">Now.</param>
    /// <param name="zone">Where the player's days begin.</param>
    public static VoiceLoad Of(IEnumerable<PracticeSpell> spells, DateTimeOffset now, TimeZoneInfo zone)
    {
        DateOnly day = WeekTrend.DayOf(now, zone);
        DateOnly monday = WeekTrend.MondayOf(day);
        double today = 0, week = 0, block = 0;
        DateTimeOffset? lastSung = null;
        foreach (PracticeSpell spell in spells.Where(spell => spell.At <= now && spell.SungSeconds > 0))
        {
            DateOnly spellDay = WeekTrend.DayOf(spell.At, zone);
            today += spellDay == day ? spell.SungSeconds : 0;
            week += spellDay >= monday ? spell.SungSeconds : 0;
            bool rested = lastSung is { } last && (spell.At - last).TotalSeconds - spell.Seconds >= RestSeconds;
            block = rested ? spell.SungSeconds : block + spell.SungSeconds;
            lastSung = spell.At;
        }

        bool restsNow = lastSung is not { } end || (now - end).TotalSeconds >= RestSeconds;
        return new VoiceLoad(today, week, restsNow ? 0 : block);
    }

    /// <summary>In words: sung 9 min of your 20 today; this block 4 of 5 min, then rest 5.</summary>
    public string Words => FormattableString.Invariant(
        $"sung {SungMinutes.Whole(TodaySeconds)} min of your {SungMinutes.Whole(FullDaySeconds)} today; this block {SungMinutes.Whole(BlockSeconds)} of {SungMinutes.Whole(FullBlockSeconds)} min, then rest 5");
}
