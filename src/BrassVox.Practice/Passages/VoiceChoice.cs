namespace BrassVox.Practice.Passages;

/// <summary>Which notes of a score are played and which are sung.</summary>
internal static class VoiceChoice
{
    private static readonly string[] SungWords = ["sung", "sing", "voice", "vocal", "voc.", "gesang", "stimme", "canto", "chant"];

    /// <summary>Finds P and S, ties joined; says in the remarks how it decided.</summary>
    public static (IReadOnlyList<PassageNote> Played, IReadOnlyList<PassageNote> Sung) Of(IReadOnlyList<ScoreVoice> all, VoiceNames? names, List<string> remarks)
    {
        ScoreVoice[] voices = [.. all.Where(voice => voice.Notes.Count > 0)];
        if (voices.Length == 0)
        {
            throw new PassageFault(0, 0, "there are no notes with a pitch in it.");
        }

        ScoreVoice? played = Named(voices, names?.Played);
        ScoreVoice? sung = Named(voices, names?.Sung);
        if (played is null && sung is null && voices.Length == 1)
        {
            return Chords(voices[0], remarks);
        }

        sung ??= voices.Where(voice => voice != played).MaxBy(voice => SungLikelihood(voice)) is { } likely && SungLikelihood(likely) > 0 ? likely : null;
        played ??= voices.FirstOrDefault(voice => voice != sung);
        sung ??= voices.FirstOrDefault(voice => voice != played);
        if (played is null || sung is null || played == sung)
        {
            throw new PassageFault(0, 0, $"P and S cannot be told apart; there are the voices {List(voices)}.");
        }

        remarks.Add($"{played.Name} is taken as played, {sung.Name} as sung.");
        if (voices.Length > 2)
        {
            remarks.Add($"Passed over: {List(voices.Where(voice => voice != played && voice != sung))}.");
        }

        return (Single(played, "played"), Single(sung, "sung"));
    }

    private static string List(IEnumerable<ScoreVoice> voices) => string.Join(", ", voices.Select(voice => voice.Name));

    private static ScoreVoice? Named(ScoreVoice[] voices, string? name)
    {
        if (name is null)
        {
            return null;
        }

        return voices.FirstOrDefault(voice => string.Equals(voice.Name, name, StringComparison.OrdinalIgnoreCase))
            ?? voices.FirstOrDefault(voice => voice.Part.Contains(name, StringComparison.OrdinalIgnoreCase))
            ?? throw new PassageFault(0, 0, $"there is no voice \"{name}\"; there are {List(voices)}.");
    }

    // A name says more than marked heads.
    private static double SungLikelihood(ScoreVoice voice) =>
        (SungWords.Any(word => voice.Part.Contains(word, StringComparison.OrdinalIgnoreCase)) ? 2 : 0)
        + ((double)voice.Notes.Count(note => note.IsMarked) / voice.Notes.Count);

    private static (IReadOnlyList<PassageNote> Played, IReadOnlyList<PassageNote> Sung) Chords(ScoreVoice voice, List<string> remarks)
    {
        List<NoteInFile> played = [];
        List<NoteInFile> sung = [];
        bool isGuessed = false;
        foreach (IGrouping<long, NoteInFile> chord in voice.Notes.GroupBy(note => note.StartTick))
        {
            NoteInFile[] notes = [.. chord.OrderBy(note => note.Note.MidiNumber)];
            NoteInFile[] marked = [.. notes.Where(note => note.IsMarked)];
            if (notes.Length > 2 || marked.Length > 1)
            {
                throw new PassageFault(notes[0].Line, 0, $"a chord of {notes.Length} notes, {marked.Length} of them with marked heads; one is played and one sung, the sung one with a marked head.");
            }

            if (notes.Length == 1)
            {
                (marked.Length == 1 ? sung : played).Add(notes[0]);
                continue;
            }

            isGuessed |= marked.Length == 0;
            NoteInFile above = marked.Length == 1 ? marked[0] : notes[1];
            sung.Add(above);
            played.Add(notes[0] == above ? notes[1] : notes[0]);
        }

        remarks.Add(isGuessed
            ? $"{voice.Name} is one line of chords; where no head is marked the upper note is taken as sung."
            : $"{voice.Name} is one line of chords; notes with marked heads are sung.");
        return (Joined(played, "played"), Joined(sung, "sung"));
    }

    private static List<PassageNote> Single(ScoreVoice voice, string word)
    {
        if (voice.Notes.GroupBy(note => note.StartTick).FirstOrDefault(chord => chord.Count() > 1) is { } chord)
        {
            throw new PassageFault(chord.First().Line, 0, $"{voice.Name} ({word}) has a chord; one tone at a time is {word}.");
        }

        return Joined(voice.Notes, word);
    }

    private static List<PassageNote> Joined(List<NoteInFile> notes, string word)
    {
        List<PassageNote> joined = [];
        foreach (NoteInFile note in notes.OrderBy(note => note.StartTick))
        {
            PassageNote? last = joined.Count == 0 ? null : joined[^1];
            if (last is not null && last.EndTick > note.StartTick)
            {
                throw new PassageFault(note.Line, 0, $"{note.Note} begins before {last.Note} has ended; one tone at a time is {word}.");
            }

            if (note.IsTied && last is not null && last.EndTick == note.StartTick && last.Note.MidiNumber == note.Note.MidiNumber)
            {
                joined[^1] = last with { LengthTicks = last.LengthTicks + note.LengthTicks };
            }
            else
            {
                joined.Add(new PassageNote(note.StartTick, note.LengthTicks, note.Note, note.Cents));
            }
        }

        return joined;
    }
}
