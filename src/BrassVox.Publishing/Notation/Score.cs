using BrassVox.Practice.Exercises;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Publishing.Notation;

/// <summary>What is to be written of an exercise or passage: played and sung notes apart, in sounding pitch.</summary>
/// <param name="Title">Title; may be empty.</param>
/// <param name="Root">Root of the passage's just tuning; null when none is named.</param>
/// <param name="A4Hz">A4 in Hz.</param>
/// <param name="Part">How the player's part is written.</param>
/// <param name="Bars">The bars, without gaps.</param>
/// <param name="Tempos">Tempos by rising tick, the first at 0.</param>
/// <param name="Played">P in order, not overlapping.</param>
/// <param name="Sung">S likewise.</param>
/// <param name="Made">Resultants, S-P, with their cents as text; empty when they are not wanted.</param>
/// <param name="Remarks">What could not be written as it stands, in sentences.</param>
public sealed record Score(
    string Title,
    Pitch? Root,
    double A4Hz,
    WrittenPart Part,
    IReadOnlyList<PassageBar> Bars,
    IReadOnlyList<PassageTempo> Tempos,
    IReadOnlyList<ScoreNote> Played,
    IReadOnlyList<ScoreNote> Sung,
    IReadOnlyList<ScoreNote> Made,
    IReadOnlyList<string> Remarks)
{
    /// <summary>What the two kinds of note head mean.</summary>
    public const string Legend = "round heads: play; diamond heads: sing";

    private const long Grid = Passage.TicksPerQuarter / 8;
    private const int LowestWrittenOctave = 0;

    /// <summary>A passage for a player; every note sounds as it is asked for in practice.</summary>
    /// <param name="passage">The passage.</param>
    /// <param name="profile">The player.</param>
    /// <param name="part">How the part is written.</param>
    /// <param name="withResultants">True adds the difference tones.</param>
    /// <exception cref="ArgumentException">The passage holds no note, or lasts longer than a take may.</exception>
    public static Score Of(Passage passage, PlayerProfile profile, WrittenPart part, bool withResultants = false)
    {
        var asked = (PlayTask)PassageExercise.Resolve(passage, profile, new PassageTurn(), new TakeOptions()).Steps[0].Task;
        ScoreNote[] Sounding(IReadOnlyList<PassageNote> notes, AskedPart? from) =>
        [
            .. notes.Select(note =>
            {
                double middle = 0.5 * (passage.SecondsAt(note.StartTick) + passage.SecondsAt(note.EndTick));
                double hz = from!.Path.FrequencyHz(middle);
                return new ScoreNote(note.StartTick, note.LengthTicks, note.Note, note.Cents, hz, hz);
            }),
        ];
        return Finished(
            new Score(passage.Title, passage.Root, profile.A4Hz, part, passage.Bars, passage.Tempos, Sounding(passage.Played, asked.Played), Sounding(passage.Sung, asked.Sung), [], []),
            withResultants);
    }

    /// <summary>A play-along exercise for its player, in bars of its count; lengths are rounded to 1/32 notes.</summary>
    /// <param name="exercise">The exercise.</param>
    /// <param name="part">How the part is written.</param>
    /// <param name="withResultants">True adds the difference tones.</param>
    /// <exception cref="ArgumentException">It is a listening exercise, which has no notes until it is heard.</exception>
    public static Score Of(ResolvedExercise exercise, WrittenPart part, bool withResultants = false)
    {
        if (exercise.Steps.Count == 0)
        {
            throw new ArgumentException("a listening exercise has no notes to write.", nameof(exercise));
        }

        double a4Hz = exercise.Profile.A4Hz;
        long At(double seconds) => (long)Math.Round(seconds / exercise.BeatSeconds * Passage.TicksPerQuarter / Grid) * Grid;
        List<ScoreNote> played = [], sung = [];
        for (int i = 0; i < exercise.Steps.Count; i++)
        {
            ExerciseStep step = exercise.Steps[i];
            double start = exercise.StepStartSeconds(i);
            var task = step.Task as PlayTask;
            Add(played, step, task?.Played, VoiceRole.Played, start);
            Add(sung, step, task?.Sung, VoiceRole.Sung, start);
        }

        long end = Math.Max(At(exercise.TakeSeconds), played.Concat(sung).Select(note => note.EndTick).DefaultIfEmpty(1).Max());
        int beats = Math.Max(1, exercise.CountInBeats);
        long bar = beats * (long)Passage.TicksPerQuarter;
        PassageBar[] bars = [.. Enumerable.Range(0, (int)((end + bar - 1) / bar)).Select(i => new PassageBar(i + 1, i * bar, bar, beats, 4))];
        double tempo = Math.Clamp(60 / exercise.BeatSeconds, PassageTempo.Slowest, PassageTempo.Fastest);
        return Finished(new Score(exercise.Exercise.Name, null, a4Hz, part, bars, [new PassageTempo(0, tempo)], played, sung, [], []), withResultants);

        void Add(List<ScoreNote> into, ExerciseStep step, AskedPart? asked, VoiceRole role, double start)
        {
            if (asked is not null)
            {
                foreach (AskedSegment segment in asked.Segments.Where(segment => segment.Move != Move.Rest))
                {
                    NearestNote from = NearestNote.Of(segment.FromHz, a4Hz);
                    Pitch note = segment.FromHz == segment.ToHz && segment.Note.MidiNumber == from.Note.MidiNumber ? segment.Note : from.Note;
                    Put(into, At(start + segment.FromSeconds), At(start + segment.ToSeconds), note, segment.FromHz, segment.ToHz, null);
                }
            }
            else if (step.Sounding.FirstOrDefault(sounding => sounding.Role == role) is { } drone)
            {
                foreach (Window window in drone.Windows)
                {
                    double hz = drone.Path.FrequencyHz(window.FromSeconds);
                    Put(into, At(start + window.FromSeconds), At(start + window.ToSeconds), NearestNote.Of(hz, a4Hz).Note, hz, hz, "drone");
                }
            }
        }
    }

    /// <summary>Notes of one tone.</summary>
    /// <param name="role">The tone.</param>
    public IReadOnlyList<ScoreNote> Notes(VoiceRole role) => role == VoiceRole.Played ? Played : Sung;

    private static void Put(List<ScoreNote> into, long from, long to, Pitch note, double fromHz, double toHz, string? text)
    {
        long start = Math.Max(from, into.Count > 0 ? into[^1].EndTick : 0);
        if (to > start)
        {
            into.Add(new ScoreNote(start, to - start, note, 0, fromHz, toHz, text));
        }
    }

    private static Score Finished(Score score, bool withResultants)
    {
        List<string> remarks = [];
        foreach (ScoreNote note in score.Played.Concat(score.Sung))
        {
            if (score.Part.Written(note.Note).Octave < LowestWrittenOctave)
            {
                throw new ArgumentException($"{note.Note} lies below octave 0, which MusicXML cannot write.", nameof(score));
            }
        }

        if (!withResultants)
        {
            return score;
        }

        List<ScoreNote> made = [];
        foreach (ScoreNote played in score.Played.Where(note => !note.Glides))
        {
            foreach (ScoreNote sung in score.Sung.Where(note => !note.Glides && note.StartTick < played.EndTick && note.EndTick > played.StartTick))
            {
                double hz = Math.Abs(sung.FromHz - played.FromHz);
                NearestNote? near = hz > 0 ? NearestNote.Of(hz, score.A4Hz) : null;
                if (near is not { Note.Octave: >= LowestWrittenOctave } nearest)
                {
                    remarks.Add("Difference tones below octave 0 are heard as beats and left out of the staff.");
                    continue;
                }

                long from = Math.Max(played.StartTick, sung.StartTick);
                string text = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{nearest.Cents:+0;-0;0} c");
                made.Add(new ScoreNote(from, Math.Min(played.EndTick, sung.EndTick) - from, nearest.Note, 0, hz, hz, text));
            }
        }

        return score with { Made = [.. made.OrderBy(note => note.StartTick)], Remarks = [.. remarks.Distinct()] };
    }
}
