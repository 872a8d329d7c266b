using System.Globalization;
using System.Text.RegularExpressions;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>
/// Our own text for passages. Lines <c>title:</c>, <c>time: 4/4</c>, <c>tempo: 60</c> (quarter notes a minute), <c>root: Bb2</c>,
/// <c>short: 1/4</c> (the next bar is only so long, or <c>short: =TICKS</c>); then <c>P:</c> and <c>S:</c> lines with whole bars parted by <c>|</c>.
/// A note is its name, a slash and its length: <c>Bb2/4</c>, dotted <c>F3/2.</c>, tied to the next <c>F3/1~</c>, with cents <c>F3-14/4</c>;
/// a rest is <c>r/4</c>; without a slash the length stays. <c>3:2( Bb2/8 C3 D3 )</c> is three in the time of two,
/// <c>t=72</c> a new tempo from here. A line that begins with # is a comment.
/// </summary>
public static partial class PassageText
{
    /// <summary>Reads a text.</summary>
    internal static Passage Parse(string text) => new PassageTextReader().Read(text);

    /// <summary>A passage as text that reads back to the same passage (remarks aside).</summary>
    /// <param name="passage">The passage.</param>
    public static string Write(Passage passage) => PassageTextWriter.Write(passage);

    [GeneratedRegex(@"^(?<note>[A-Ga-g](?:bb|b|##|#|x|♭|♯)?-?[0-9])(?<cents>[+-][0-9]+(?:\.[0-9]+)?)?$")]
    internal static partial Regex NotePattern();

    [GeneratedRegex(@"^(?<head>[^/=~]+)(?:/(?<unit>[0-9]+)(?<dots>\.*)|=(?<ticks>[0-9]+))?(?<tie>~)?$")]
    internal static partial Regex TokenPattern();

    /// <summary>A note with its cents, as in F3 or F3-14.</summary>
    internal static string NameOf(Pitch note, double cents) =>
        cents == 0 ? note.ToString() : string.Create(CultureInfo.InvariantCulture, $"{note}{cents:+0.######;-0.######}");
}
