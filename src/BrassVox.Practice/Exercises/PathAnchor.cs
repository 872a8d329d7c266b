using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>What a sung path may lean on: the played path, the octave the voice takes, the pair a resultant is taken from.</summary>
/// <param name="Played">P of the step; null when P is not asked for.</param>
/// <param name="Octaves">Octaves added to intervals over P.</param>
/// <param name="Source">The pair whose resultants are meant.</param>
/// <param name="Profile">The player, for the middle of the voice.</param>
internal sealed record PathAnchor(AskedPart? Played, int Octaves, ResolvedPair Source, PlayerProfile Profile)
{
    /// <summary>The note of an interval over P at a time, and its Hz: pure in the pair's tuning, rooted on P.</summary>
    public (Pitch Note, double Hz)? Over(Interval interval, double seconds, ResolvedPair pair)
    {
        if (Played?.Segments.FirstOrDefault(segment => segment.Move != Move.Rest && segment.FromSeconds <= seconds + 1e-6 && segment.ToSeconds > seconds + 1e-6) is not { } under)
        {
            return null;
        }

        Pitch note = interval.WithOctaves(Octaves).From(under.Note);
        Tuning rooted = Tuning.TryParse(pair.Tuning.Name, under.Note, out Tuning? own) ? own : pair.Tuning;
        double ratio = rooted.FrequencyHz(note, pair.A4Hz) / rooted.FrequencyHz(under.Note, pair.A4Hz);
        bool isOdd = Math.Abs(note.Alteration) > 1 || note is { Alteration: -1, Letter: NoteLetter.C or NoteLetter.F } || note is { Alteration: 1, Letter: NoteLetter.E or NoteLetter.B };
        return (isOdd ? Pitch.FromMidi(note.MidiNumber) : note, ratio * under.FromHz);
    }

    /// <summary>A resultant's place in the octave nearest to the middle of the voice; null when there is no such resultant, or it is 0 Hz.</summary>
    public (Pitch Note, double Hz)? Resultant(string name)
    {
        if (Find(name) is not { } line)
        {
            return null;
        }

        double hz = Math.Abs((line.Played * Source.PlayedHz) + (line.Sung * Source.SungHz));
        if (hz < 1)
        {
            return null;
        }

        double middle = 0.5 * (Profile.LowestSung.MidiNumber + Profile.HighestSung.MidiNumber);
        double octaves = Math.Round((middle - EqualTemperament.MidiNumber(hz, Source.A4Hz)) / 12);
        hz *= Math.Pow(2, octaves);
        return (NearestNote.Of(hz, Source.A4Hz).Note, hz);
    }

    /// <summary>The line of that name up to order 4; null when there is none.</summary>
    public static Resultant? Find(string name) => Resultants.Of(2, 3.0001, 4)
        .Concat(Resultants.Of(3.0001, 2, 4))
        .Cast<Resultant?>()
        .FirstOrDefault(line => string.Equals(line!.Value.Name, name, StringComparison.Ordinal));
}
