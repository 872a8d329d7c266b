using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Finds the two notes of an exercise for a player, and says what that changes.</summary>
internal static class PairFitting
{
    private static readonly Interval Fifth = new(4, 7);

    /// <summary>P and S, and the octaves S was moved from where the exercise writes it.</summary>
    public readonly record struct Fit(Pitch Played, Pitch Sung, int Octaves, bool PlayedMoved);

    /// <summary>Candidates in order of preference; the first whose sung range the voice has is taken.</summary>
    public static IEnumerable<Fit> Candidates(PairPlan plan, PlayerProfile profile)
    {
        IReadOnlyList<HomePair> home = HomePairs.Of(profile.Instrument, profile.Voice);
        Pitch played = plan.Played ?? home[0].Played;
        Interval above = plan.SungAbove ?? Fifth;
        int homeOctaves = OctavesFrom(home[0].Played, home[0].Sung, Fifth);
        IReadOnlyList<Pitch> meeting = plan.Played is { } given ? [given] : HomePairs.MeetingNotes(profile.Instrument);
        return plan.Voice switch
        {
            VoicePlace.Any when plan.SungAbove is null && plan.Played is null =>
                [new Fit(played, home[0].Sung, homeOctaves, false)],
            VoicePlace.Any => [At(played, above, 0, false)],
            VoicePlace.Home => home
                .Select(pair => At(played, above, OctavesFrom(pair.Played, pair.Sung, Fifth), false))
                .Concat(Around(homeOctaves).Select(octaves => At(played, above, octaves, false)))
                .Concat(meeting.SelectMany(note => Around(homeOctaves).Select(octaves => At(note, above, octaves, note != played)))),
            VoicePlace.Near => Around(homeOctaves).Select(octaves => At(played, above, octaves, false))
                .Concat(meeting.SelectMany(note => Around(homeOctaves).Select(octaves => At(note, above, octaves, note != played)))),
            _ => new[] { 0, 1, 2, -1 }.SelectMany(octaves => meeting.Select(note => At(note, above, octaves, note != played))),
        };
    }

    /// <summary>A pair chosen by hand, with the octaves its sung note lies from where the exercise writes it.</summary>
    public static Fit Chosen(PairPlan plan, PairChoice choice) =>
        new(choice.Played, choice.Sung, OctavesFrom(choice.Played, choice.Sung, plan.SungAbove ?? Fifth), false);

    /// <summary>What a fit changes, in sentences: P raised, S in another octave, and what S-P becomes.</summary>
    public static IReadOnlyList<string> Notes(PairPlan plan, Fit fit, PlayerProfile profile, ResolvedPair pair)
    {
        List<string> notes = [];
        if (fit.PlayedMoved)
        {
            notes.Add($"P is {fit.Played} here, so that your voice ({profile.LowestSung} to {profile.HighestSung}) can take part.");
        }

        if (fit.Octaves != 0)
        {
            Interval written = plan.SungAbove ?? Fifth;
            Pitch writtenNote = written.From(fit.Played);
            double writtenHz = pair.Tuning.FrequencyHz(writtenNote, pair.A4Hz);
            string direction = fit.Octaves > 0 ? "higher" : "lower";
            string octaves = Math.Abs(fit.Octaves) == 1 ? "an octave" : $"{Math.Abs(fit.Octaves).ToString(CultureInfo.InvariantCulture)} octaves";
            string name = IntervalName.Of(Cents.Between(pair.PlayedHz, pair.SungHz));
            string below = pair.SungHz < pair.PlayedHz ? " below" : "";
            notes.Add($"S is sung {octaves} {direction}: {Article(name)}{below}, not {Article(IntervalName.Of(100.0 * written.Semitones))}. "
                + $"S-P is then {Difference(pair.PlayedHz, pair.SungHz, pair.A4Hz)}, not {Difference(pair.PlayedHz, writtenHz, pair.A4Hz)}.");
        }

        return notes;
    }

    private static Fit At(Pitch played, Interval above, int octaves, bool playedMoved) =>
        new(played, above.WithOctaves(octaves).From(played), octaves, playedMoved);

    private static int[] Around(int octaves) => [octaves, octaves + 1, octaves - 1, octaves + 2, octaves - 2];

    private static int OctavesFrom(Pitch played, Pitch sung, Interval above) =>
        (int)Math.Round((sung.MidiNumber - played.MidiNumber - above.Semitones) / 12.0);

    // Several octaves take no article.
    private static string Article(string name) => name.Contains("octaves", StringComparison.Ordinal) ? name : name[0] is 'o' or 'e' or 'u' && name != "unison" ? $"an {name}" : $"a {name}";

    private static string Difference(double playedHz, double sungHz, double a4Hz)
    {
        double hz = Math.Abs(sungHz - playedHz);
        return hz < BeatingPairs.StillBelowHz
            ? "nothing (the two stand still)"
            : string.Create(CultureInfo.InvariantCulture, $"{NearestNote.Of(hz, a4Hz).Note} ({hz:0} Hz)");
    }
}
