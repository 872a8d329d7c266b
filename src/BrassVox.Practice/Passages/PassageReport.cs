using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>Whether a passage suits a player, moment by moment.</summary>
/// <param name="Moments">The moments in order; silent ones left out.</param>
/// <param name="DifficultyByBar">The hardest moment of each bar, in order of bars; 0 where nothing sounds.</param>
/// <param name="Suggestion">A better octave for the voice; null when the written one is as good.</param>
/// <param name="SpeakerLowestHz">The lowest frequency that was taken as audible, in Hz.</param>
public sealed record PassageReport(
    IReadOnlyList<PassageMoment> Moments, IReadOnlyList<double> DifficultyByBar, OctaveSuggestion? Suggestion, double SpeakerLowestHz)
{
    private const int WideLeapP = 7;
    private const int WideLeapS = 5;
    private const int SmallLeap = 2;

    /// <summary>Reads a passage for a player.</summary>
    /// <param name="passage">The passage.</param>
    /// <param name="profile">The player.</param>
    /// <param name="speakerLowestHz">Lowest frequency the room or speaker carries, in Hz; 0 for everything.</param>
    /// <param name="registerChange">Where the voice changes register; null takes the usual place of the voice.</param>
    public static PassageReport Of(Passage passage, PlayerProfile profile, double speakerLowestHz = 0, Pitch? registerChange = null)
    {
        PassageMoment[] moments = [.. MomentsOf(passage, profile, speakerLowestHz, registerChange ?? profile.RegisterChange ?? PlayedRange.RegisterChange(profile.Voice))];
        double[] bars = [.. passage.Bars.Select(bar => moments.Where(moment => moment.Bar == bar.Number).Select(moment => moment.Difficulty).DefaultIfEmpty(0).Max())];
        return new PassageReport(moments, bars, Suggest(passage, profile, moments), speakerLowestHz);
    }

    private static IEnumerable<PassageMoment> MomentsOf(Passage passage, PlayerProfile profile, double speakerLowestHz, Pitch registerChange)
    {
        ResolvedExercise resolved = PassageExercise.Resolve(passage, profile, new PassageTurn(), new TakeOptions());
        var task = (PlayTask)resolved.Steps[0].Task;
        long[] cuts = [.. passage.Played.Concat(passage.Sung).SelectMany(note => new[] { note.StartTick, note.EndTick }).Distinct().Order()];
        (PassageNote? Played, PassageNote? Sung) last = (null, null);
        for (int i = 0; i + 1 < cuts.Length; i++)
        {
            PassageNote? played = At(passage.Played, cuts[i]);
            PassageNote? sung = At(passage.Sung, cuts[i]);
            if (played is null && sung is null)
            {
                continue;
            }

            double seconds = passage.SecondsAt(cuts[i]);
            double middle = 0.5 * (seconds + passage.SecondsAt(cuts[i + 1]));
            double? playedHz = played is null ? null : task.Played!.Path.FrequencyHz(middle);
            double? sungHz = sung is null ? null : task.Sung!.Path.FrequencyHz(middle);
            double? cents = playedHz is { } p && sungHz is { } s ? Cents.Between(p, s) : null;
            double? made = cents is null || Math.Abs(sungHz!.Value - playedHz!.Value) < 1 ? null : Math.Abs(sungHz.Value - playedHz.Value);
            bool playedBegins = played?.StartTick == cuts[i];
            bool sungBegins = sung?.StartTick == cuts[i];
            Care[] cares = [.. CaresOf(profile, registerChange, speakerLowestHz, played, sung, playedBegins, sungBegins, last, playedHz, sungHz, made)];
            yield return new PassageMoment(
                passage.PlaceOf(cuts[i]), passage.BarAt(cuts[i]).Number, cuts[i], seconds, played?.Note, sung?.Note, playedBegins, sungBegins, playedHz, sungHz,
                cents is { } between ? IntervalName.Of(between) : "", cents,
                made is { } hz && hz >= NearestNote.LowestPitchHz ? NearestNote.Of(hz, profile.A4Hz) : null, made, cares, DifficultyOf(cares, cents));
            last = (played ?? last.Played, sung ?? last.Sung);
        }
    }

    private static PassageNote? At(IReadOnlyList<PassageNote> notes, long tick) => notes.FirstOrDefault(note => note.StartTick <= tick && note.EndTick > tick);

    private static IEnumerable<Care> CaresOf(
        PlayerProfile profile, Pitch registerChange, double speakerLowestHz, PassageNote? played, PassageNote? sung, bool playedBegins, bool sungBegins,
        (PassageNote? Played, PassageNote? Sung) last, double? playedHz, double? sungHz, double? madeHz)
    {
        (Pitch lowest, Pitch highest) = PlayedRange.Of(profile.Instrument);
        if (played is not null && (played.Note.MidiNumber < lowest.MidiNumber || played.Note.MidiNumber > highest.MidiNumber))
        {
            yield return Care.PlayedRange;
        }

        if (sung is not null && !profile.CanSing(sung.Note))
        {
            yield return Care.SungRange;
        }

        int change = registerChange.MidiNumber;
        if (sungBegins && last.Sung is { } before && sung!.Note.MidiNumber >= change != before.Note.MidiNumber >= change)
        {
            yield return Care.Register;
        }

        int leapP = playedBegins && last.Played is { } lastP ? Math.Abs(played!.Note.MidiNumber - lastP.Note.MidiNumber) : 0;
        int leapS = sungBegins && last.Sung is { } lastS ? Math.Abs(sung!.Note.MidiNumber - lastS.Note.MidiNumber) : 0;
        if (leapP > WideLeapP)
        {
            yield return Care.PlayedLeap;
        }

        if (leapS > WideLeapS)
        {
            yield return Care.SungLeap;
        }

        if (leapP > SmallLeap && leapS > SmallLeap)
        {
            yield return Care.BothLeap;
        }

        if (playedHz is { } p && sungHz is { } s && PairCriteria.IsFog(p, s))
        {
            yield return Care.Fog;
        }

        if (madeHz is { } made && made < speakerLowestHz)
        {
            yield return Care.Low;
        }
    }

    // Weights are ours, to be tried with players: what stops a passage weighs most, what only wants attention least.
    private static double DifficultyOf(Care[] cares, double? cents) => (cents is null ? 0.5 : 1) + cares.Sum(care => care switch
    {
        Care.PlayedRange or Care.SungRange => 4.0,
        Care.BothLeap or Care.Fog => 2,
        Care.Register => 1.5,
        Care.PlayedLeap or Care.SungLeap => 1,
        _ => 0,
    });

    private static OctaveSuggestion? Suggest(Passage passage, PlayerProfile profile, PassageMoment[] now)
    {
        int Outside(Passage version) => version.Sung.Count(note => !profile.CanSing(note.Note));
        int outsideNow = Outside(passage);
        if (outsideNow == 0)
        {
            return null;
        }

        int best = new[] { 0, 1, -1, 2, -2 }.Where(octaves => passage.Sung.All(note => note.Note.Octave + octaves is >= 0 and <= 8))
            .DefaultIfEmpty(0)
            .MinBy(octaves => Outside(passage.WithSungOctaves(octaves)));
        if (best == 0)
        {
            return null;
        }

        Passage other = passage.WithSungOctaves(best);
        PassageMoment[] then = [.. MomentsOf(other, profile, 0, profile.RegisterChange ?? PlayedRange.RegisterChange(profile.Voice))];
        string[] changes = [.. now.Zip(then)
            .Where(pair => pair.First is { Played: not null, Sung: not null })
            .DistinctBy(pair => (pair.First.Played, pair.First.Sung))
            .Select(pair => string.Create(CultureInfo.InvariantCulture,
                $"{pair.First.Played} + {pair.First.Sung} made {MadeOf(pair.First)}; {pair.First.Played} + {pair.Second.Sung} makes {MadeOf(pair.Second)}"))];
        static int Fog(PassageMoment[] moments) => moments.Count(moment => moment.Cares.Contains(Care.Fog));
        return new OctaveSuggestion(best, outsideNow, Outside(other), Fog(now), Fog(then), changes);
    }

    private static string MadeOf(PassageMoment moment) => moment.Made is { } made
        ? string.Create(CultureInfo.InvariantCulture, $"{made.Note} ({moment.MadeHz:0} Hz)")
        : "no tone below";
}
