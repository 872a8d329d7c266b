namespace BrassVox.App.Tui.Drawing;

/// <summary>
/// The signs of every screen, one column each. Screens are drawn with these; a terminal without Unicode gets
/// <see cref="ToAscii"/> of each, so that every column is kept.
/// </summary>
internal static class Glyphs
{
    public const char PlayedStrong = '■';
    public const char PlayedWeak = '□';
    public const char SungStrong = '●';
    public const char SungWeak = '○';
    public const char ResultantStrong = '◆';
    public const char ResultantWeak = '◇';
    public const char Rail = '─';
    public const char RailStart = '├';
    public const char RailTick = '┴';
    public const char Gap = '━';
    public const char Tie = '│';
    public const char Beating = '≈';
    public const char Grain = ':';
    public const char High = '▔';
    public const char Middle = '─';
    public const char Low = '▁';
    public const char OtherHigh = '⠉';
    public const char OtherMiddle = '⠒';
    public const char OtherLow = '⣀';
    public const char Vibrato = '~';
    public const char Beyond = '↑';
    public const char Below = '↓';
    public const char Fog = '░';
    public const char InHand = '»';
    public const char Marked = '▸';
    public const char Place = '▲';
    public const char Asked = '·';
    public const char More = '…';
    public const char Block = '█';

    /// <summary>Stands for a sign that fits no cell.</summary>
    public const char NoSign = '\uFFFD';

    /// <summary>True for a sign of double width: the scripts of East Asia. Source: Unicode Standard Annex 11, classes W and F, in whole blocks (from memory).</summary>
    /// <param name="sign">Any character.</param>
    public static bool IsWide(char sign) => sign is (>= '\u1100' and <= '\u115F') or (>= '\u2E80' and <= '\uA4CF') or (>= '\uAC00' and <= '\uD7A3')
        or (>= '\uF900' and <= '\uFAFF') or (>= '\uFE30' and <= '\uFE6F') or (>= '\uFF01' and <= '\uFF60') or (>= '\uFFE0' and <= '\uFFE6');

    /// <summary>The sign that stands for another on a terminal that shows only 0x20 to 0x7E.</summary>
    /// <param name="glyph">Any character; one without a stand-in becomes a question mark.</param>
    public static char ToAscii(char glyph) => glyph switch
    {
        >= ' ' and <= '~' => glyph,
        PlayedStrong => 'P',
        PlayedWeak => 'p',
        SungStrong => 'S',
        SungWeak => 's',
        ResultantStrong => '@',
        ResultantWeak => '&',
        Rail => '-',
        RailStart or Tie => '|',
        RailTick => '+',
        Gap => '=',
        Beating => '%',
        High => '"',
        Low => '_',
        OtherHigh => '\'',
        OtherMiddle => ';',
        OtherLow => ',',
        Beyond => '^',
        Place => '!',
        Below => 'v',
        Fog => '?',
        InHand => '*',
        Marked => '>',
        Asked or More => '.',
        Block => '#',
        '┌' or '┐' or '└' or '┘' => '+',
        '╱' => '/',
        '╲' => '\\',
        '╭' or '╰' => '(',
        '╮' or '╯' => ')',
        _ => '?',
    };
}
