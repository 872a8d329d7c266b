using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>What is said of a pair in words: its interval and how it beats.</summary>
internal static class PairWords
{
    /// <summary>Name and size of the interval, with the size of the other system beside it: fifth 700.0 c (just 702.0).</summary>
    /// <param name="cents">P to S in cents; negative when S lies below.</param>
    /// <param name="tuningName">The tuning in use: beside equal stands just, beside all others equal.</param>
    public static string Interval(double cents, string tuningName)
    {
        int semitones = (int)Math.Round(Math.Abs(cents) / 100);
        bool isEqual = string.Equals(tuningName, Tuning.Equal.Name, StringComparison.Ordinal);
        double other = isEqual ? JustCents(semitones) : 100 * semitones;
        string below = cents < -50 ? " below" : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{IntervalName.Of(cents)}{below} {Math.Abs(cents):0.0} c ({(isEqual ? "just" : "equal")} {other:0.0})");
    }

    /// <summary>How the pair beats: beats 0.2 /s: 3 of P with 2 of S.</summary>
    /// <param name="meetings">Meetings, lowest first.</param>
    public static string Beats(IReadOnlyList<PartialMeeting> meetings) => Leading(meetings) switch
    {
        null => "no neighbours close enough to beat",
        { Kind: Meeting.Still } still => $"still: {Pair(still)}",
        { Kind: Meeting.Beating } beating => $"beats {PairPicture.Rate(beating.RateHz)} /s: {Pair(beating)}",
        { } grain => $"grain {PairPicture.Rate(grain.RateHz)} /s: {Pair(grain)}",
    };

    /// <summary>The same for a narrow window: beats 0.2 /s: 3P, 2S.</summary>
    /// <param name="meetings">Meetings, lowest first.</param>
    public static string InShort(IReadOnlyList<PartialMeeting> meetings) => Leading(meetings) is { } leading
        ? string.Create(CultureInfo.InvariantCulture, $"{(leading.Kind == Meeting.Still ? "still" : $"{(leading.Kind == Meeting.Beating ? "beats" : "grain")} {PairPicture.Rate(leading.RateHz)} /s")}: {leading.Played}P, {leading.Sung}S")
        : "no beats";

    /// <summary>The same as a sentence: It beats 0.2 times a second: 3 of P with 2 of S.</summary>
    /// <param name="meetings">Meetings, lowest first.</param>
    public static string BeatSentence(IReadOnlyList<PartialMeeting> meetings) => Leading(meetings) switch
    {
        null => "No neighbours lie close enough to beat.",
        { Kind: Meeting.Still } still => $"It stands still: {Pair(still)}.",
        { Kind: Meeting.Beating } beating => $"It beats {PairPicture.Rate(beating.RateHz)} times a second: {Pair(beating)}.",
        { } grain => $"It is grainy, {PairPicture.Rate(grain.RateHz)} a second: {Pair(grain)}.",
    };

    /// <summary>The meeting that is heard first: the lowest that is still or beats, else the lowest grain; null when there is none.</summary>
    /// <param name="meetings">Meetings, lowest first.</param>
    public static PartialMeeting? Leading(IReadOnlyList<PartialMeeting> meetings)
    {
        foreach (PartialMeeting meeting in meetings)
        {
            if (meeting.Kind is Meeting.Still or Meeting.Beating)
            {
                return meeting;
            }
        }

        return meetings.Count > 0 ? meetings[0] : null;
    }

    private static string Pair(PartialMeeting meeting) =>
        string.Create(CultureInfo.InvariantCulture, $"{meeting.Played} of P with {meeting.Sung} of S");

    private static double JustCents(int semitones)
    {
        var root = new Pitch(NoteLetter.C, 0, 2);
        Tuning just = Tuning.JustFrom(root);
        return Cents.Between(just.FrequencyHz(root, 440), just.FrequencyHz(Pitch.FromMidi(root.MidiNumber + semitones), 440));
    }
}
