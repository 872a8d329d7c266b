using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Theory;

namespace BrassVox.Practice.Takes;

/// <summary>
/// What a kept take was asked, found again. A record names exercise, pair and player, but neither tempo nor bars: these are found by how
/// long each tone was asked for and by when its notes came. What does not agree with the record is not told at all.
/// </summary>
public static class TakeTask
{
    private const double SameCents = 0.1;
    private const double SameSeconds = 0.03;
    private const int MostBarsOfRest = 4;

    /// <summary>What was asked; null where exercise or passage is gone, was changed since, or drew its steps at random.</summary>
    /// <param name="take">The take.</param>
    /// <param name="exercises">The exercises there are.</param>
    /// <param name="dataFolder">Where the player's own passages lie.</param>
    public static ResolvedExercise? Of(TakeRecord take, ExerciseLibrary exercises, string dataFolder)
    {
        if (exercises.Find(take.ExerciseId) is not { } exercise)
        {
            return Passages(take, dataFolder).Select(passage => OfPassage(take, passage)).FirstOrDefault(found => found is not null);
        }

        return exercise.PlayAlong is { Draw: null } && ExerciseResolver.Resolve(exercise, take.Player, new PairChoice(take.Played, take.Sung)).Resolved is { } resolved
            ? Fitted(resolved, take)
            : null;
    }

    private static IEnumerable<Passage> Passages(TakeRecord take, string dataFolder)
    {
        string own = Path.Combine(dataFolder, "passages");
        string[] shipped = Directory.Exists(PassageFile.ShippedFolder) ? Directory.GetFiles(PassageFile.ShippedFolder, $"*-{take.Player.Voice.ToString().ToLowerInvariant()}.txt") : [];
        string[] typed = Directory.Exists(own) ? Directory.GetFiles(own, "*.txt") : [];
        string ending = Path.GetFileName(ShippedPassages.PathOf("", take.Player.Voice));
        IEnumerable<PassageLoad> loads = shipped.Select(path => ShippedPassages.Load(Path.GetFileName(path)[..^ending.Length], take.Player))
            .Concat(typed.Select(path => PassageFile.Read(path)));
        return loads.Select(load => load.Passage).OfType<Passage>().Where(passage => PassageExercise.IdOf(passage.Title) == take.ExerciseId);
    }

    private static ResolvedExercise? OfPassage(TakeRecord take, Passage passage)
    {
        int[] bars = [.. take.Result.Notes.Select(note => int.TryParse(note.Label.Split('.')[0], out int bar) ? bar : 0)];
        if (bars.Length == 0 || bars.Min() < 1 || bars.Max() > passage.Bars.Count)
        {
            return null;
        }

        // A loop may begin with rests; the voice may have been moved by an octave.
        for (int from = bars.Min(); from >= Math.Max(1, bars.Min() - MostBarsOfRest); from--)
        {
            foreach (int octaves in (int[])[0, -1, 1])
            {
                Passage moved = octaves == 0 ? passage : passage with { Sung = [.. passage.Sung.Select(note => note with { Note = note.Note.Transposed(octaves) })] };
                if (Resolved(moved, take, new PassageTurn(from, bars.Max())) is { } resolved && Fitted(resolved, take) is { } fitted && take.Result.Notes.All(note => IsAsked(note, fitted)))
                {
                    return fitted;
                }
            }
        }

        return null;
    }

    private static ResolvedExercise? Resolved(Passage passage, TakeRecord take, PassageTurn turn)
    {
        try
        {
            return PassageExercise.Resolve(passage, take.Player, turn, new TakeOptions());
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static bool IsAsked(NoteResult note, ResolvedExercise resolved) => Task(resolved.Steps[0], note.Role)?.Segments.Any(segment =>
        segment.Label == note.Label && segment.Note.MidiNumber == note.Note.MidiNumber && Math.Abs(segment.FromSeconds - note.AskedSeconds) < SameSeconds) == true;

    /// <summary>At the tempo and with the tones of the take; null where they do not agree.</summary>
    private static ResolvedExercise? Fitted(ResolvedExercise resolved, TakeRecord take)
    {
        (JudgedTone? played, JudgedTone? sung) = (take.Result.Played, take.Result.Sung);
        PlayerRole role = (played, sung, AskedSeconds(resolved, VoiceRole.Played), AskedSeconds(resolved, VoiceRole.Sung)) switch
        {
            ({ }, null, > 0, > 0) => PlayerRole.Plays,
            (null, { }, > 0, > 0) => PlayerRole.Sings,
            _ => PlayerRole.Both,
        };
        if ((played ?? sung) is not { AskedSeconds: > 0 } tone)
        {
            return null;
        }

        double percent = 100 * AskedSeconds(resolved, tone.Role) / tone.AskedSeconds;
        percent = Math.Abs(percent - Math.Round(percent)) < 0.05 ? Math.Round(percent) : percent;
        if (percent is < TakeOptions.SlowestPercent or > TakeOptions.FastestPercent)
        {
            return null;
        }

        ResolvedExercise fitted = new TakeOptions(role, TempoPercent: percent).Apply(resolved);
        HashSet<string> steps = [.. fitted.Steps.Select(step => step.Id), ""];
        bool agrees = Agrees(played, fitted, VoiceRole.Played) && Agrees(sung, fitted, VoiceRole.Sung)
            && take.Result.Findings.All(finding => steps.Contains(finding.StepId))
            && Math.Abs(Cents.Between(take.PlayedHz, fitted.Pair.PlayedHz)) < SameCents && Math.Abs(Cents.Between(take.SungHz, fitted.Pair.SungHz)) < SameCents;
        return agrees ? fitted : null;
    }

    private static bool Agrees(JudgedTone? tone, ResolvedExercise resolved, VoiceRole role) => Math.Abs((tone?.AskedSeconds ?? 0) - AskedSeconds(resolved, role)) < SameSeconds;

    private static double AskedSeconds(ResolvedExercise resolved, VoiceRole role) => resolved.Steps
        .Select(step => Task(step, role)).OfType<AskedPart>()
        .SelectMany(part => part.Segments.Where(segment => segment.Move != Move.Rest)).Sum(segment => segment.ToSeconds - segment.FromSeconds);

    private static AskedPart? Task(ExerciseStep step, VoiceRole role) => step.Task is PlayTask task ? role == VoiceRole.Played ? task.Played : task.Sung : null;
}
