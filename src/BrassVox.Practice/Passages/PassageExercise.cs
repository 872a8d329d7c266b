using System.Globalization;
using System.Text;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>
/// A passage as a play-along exercise of one step, so that it is cued, recorded, measured, judged and kept like any other. P stands in the
/// player's tuning, rooted on the passage's root; each sung note is pure over the played note it begins on, where there is one.
/// </summary>
public static class PassageExercise
{
    /// <summary>Silence before a note that repeats the one before, so that it is a new note: taken from the end of the first, in seconds at the written tempo.</summary>
    private const double RepeatGapSeconds = 0.08;

    /// <summary>Number of a passage's exercise: it has no place in the curriculum.</summary>
    public const int NoNumber = 0;

    private const string Untitled = "own-passage";
    private const int LongestId = 48;
    private const double WithinSeconds = 0.2;
    private static readonly GradeLimits Limits = new(40, 25, 15);

    /// <summary>Makes the exercise.</summary>
    /// <param name="passage">The passage.</param>
    /// <param name="profile">The player.</param>
    /// <param name="turn">Which bars and how much help.</param>
    /// <param name="options">Role and tempo; its drone is the turn's help.</param>
    /// <exception cref="ArgumentException">The turn holds no such bars or no note, or lasts longer than a take may.</exception>
    public static ResolvedExercise Resolve(Passage passage, PlayerProfile profile, PassageTurn turn, TakeOptions options)
    {
        int last = Math.Min(turn.ToBar ?? passage.Bars.Count, passage.Bars.Count);
        if (turn.FromBar < 1 || turn.FromBar > last)
        {
            throw new ArgumentException($"Bars {turn.FromBar} to {last}: there are {passage.Bars.Count}.", nameof(turn));
        }

        long from = passage.Bars[turn.FromBar - 1].StartTick;
        long to = passage.Bars[last - 1].StartTick + passage.Bars[last - 1].LengthTicks;
        PassageNote[] played = Cut(passage.Played, from, to);
        PassageNote[] sung = Cut(passage.Sung, from, to);
        if (played.Length + sung.Length == 0)
        {
            throw new ArgumentException($"Bars {turn.FromBar} to {last} hold no note.", nameof(turn));
        }

        Pitch first = (FirstOf(played) ?? FirstOf(passage.Played) ?? sung[0]).Note;
        Pitch firstSung = (FirstOf(sung) ?? FirstOf(passage.Sung) ?? played[0]).Note;
        double beat = passage.Tempos[0].QuartersPerMinute;
        foreach (PassageTempo tempo in passage.Tempos.Where(tempo => tempo.Tick <= from))
        {
            beat = tempo.QuartersPerMinute;
        }

        PassageBar opening = passage.Bars[turn.FromBar - 1];
        var step = new StepPlan(
            "turn", $"Bars {turn.FromBar} to {last}.",
            Path(passage, played, played, first, from, to, isSung: false),
            Path(passage, sung, played, firstSung, from, to, isSung: true),
            Drones(turn.Help, options.Role),
            [new NotesCriterion(Limits, WithinSeconds)]);
        var exercise = new Exercise(
            1, IdOf(passage.Title), NoNumber, passage.Title.Length > 0 ? passage.Title : "Passage", "A passage of the player's own.",
            "A passage, with the help that is left.", "What comes next, before it sounds.",
            new PairPlan(VoicePlace.Any), new Dose(5, 4, 3, 20), [], [Caution.Voice, Caution.Lips, Caution.Pressure, Caution.Dizziness],
            null, new PlayAlongPlan(turn.HearFirst ? Cue.Model : turn.Help == HelpStep.Cue ? Cue.SungTone : Cue.Count, [step], 0, beat * opening.BeatUnit / 4));
        PlayerProfile rooted = profile with { TuningRoot = profile.TuningRoot ?? passage.Root ?? FirstOf(passage.Played)?.Note ?? first };
        Resolution found = ExerciseResolver.Resolve(exercise, rooted, new PairChoice(first, firstSung));
        ResolvedExercise resolved = found.Resolved ?? throw new ArgumentException(found.WhyNot, nameof(passage));
        double start = passage.SecondsAt(from);
        ClickBeat[] beats = [.. passage.Bars.Skip(turn.FromBar - 1).Take(last - turn.FromBar + 1).SelectMany(bar => BeatsOf(passage, bar, start))];
        TakeOptions shaping = options with { Drone = DroneUse.Planned };
        return shaping.Apply(resolved with { Profile = profile, WrittenBeats = beats, CountInBeats = opening.Beats, Notes = [] });
    }

    /// <summary>The id under which takes of a passage are kept: its title in small letters, digits and hyphens.</summary>
    /// <param name="title">The title; may be empty.</param>
    public static string IdOf(string title)
    {
        var id = new StringBuilder();
        foreach (char letter in title.Select(BareLetters.Of))
        {
            if (char.IsAsciiLetterOrDigit(letter))
            {
                id.Append(letter);
            }
            else if (CharUnicodeInfo.GetUnicodeCategory(letter) != UnicodeCategory.NonSpacingMark && id.Length > 0 && id[^1] != '-')
            {
                id.Append('-');
            }
        }

        string words = id.ToString()[..Math.Min(id.Length, LongestId)].Trim('-');
        return words is "" or "passage" ? Untitled : $"passage-{words}";
    }

    private static PassageNote? FirstOf(IReadOnlyList<PassageNote> notes) => notes.Count == 0 ? null : notes[0];

    private static PassageNote[] Cut(IReadOnlyList<PassageNote> notes, long from, long to) => [.. notes
        .Where(note => note.EndTick > from && note.StartTick < to)
        .Select(note => note with
        {
            StartTick = Math.Max(note.StartTick, from),
            LengthTicks = Math.Min(note.EndTick, to) - Math.Max(note.StartTick, from),
        })];

    private static List<Motion> Path(Passage passage, PassageNote[] notes, PassageNote[] played, Pitch pairNote, long from, long to, bool isSung)
    {
        List<Motion> motions = [];
        double At(long tick) => passage.SecondsAt(tick);
        long at = from;
        for (int i = 0; i < notes.Length; i++)
        {
            PassageNote note = notes[i];
            if (note.StartTick > at)
            {
                motions.Add(new Motion(Move.Rest, Seconds: At(note.StartTick) - At(at)));
            }

            double seconds = At(note.EndTick) - At(note.StartTick);
            bool isRepeated = i + 1 < notes.Length && notes[i + 1].StartTick == note.EndTick && notes[i + 1].Note.MidiNumber == note.Note.MidiNumber;
            double gap = isRepeated && seconds > 3 * RepeatGapSeconds ? RepeatGapSeconds : 0;
            PassageNote? under = isSung ? played.FirstOrDefault(other => other.StartTick <= note.StartTick && other.EndTick > note.StartTick) : null;
            var motion = new Motion(Move.Hold, Seconds: seconds - gap, Cents: note.Cents, Label: passage.PlaceOf(note.StartTick));
            motions.Add(under is null
                ? motion with { To = Interval.Between(pairNote, note.Note) }
                : motion with { Over = Interval.Between(under.Note, note.Note) });
            if (gap > 0)
            {
                motions.Add(new Motion(Move.Rest, Seconds: gap));
            }

            at = note.EndTick;
        }

        if (at < to && notes.Length > 0)
        {
            motions.Add(new Motion(Move.Rest, Seconds: At(to) - At(at)));
        }

        return motions;
    }

    private static DroneWindow[] Drones(HelpStep help, PlayerRole role) => (help, role) switch
    {
        (HelpStep.BothTones, _) => [new DroneWindow(VoiceRole.Played), new DroneWindow(VoiceRole.Sung)],
        (HelpStep.OtherTone, PlayerRole.Both) => [new DroneWindow(VoiceRole.Played)],
        _ => [],
    };

    private static IEnumerable<ClickBeat> BeatsOf(Passage passage, PassageBar bar, double start)
    {
        long beat = Passage.TicksPerWhole / bar.BeatUnit;
        for (long tick = bar.StartTick; tick < bar.StartTick + bar.LengthTicks; tick += beat)
        {
            yield return new ClickBeat(passage.SecondsAt(tick) - start, tick == bar.StartTick);
        }
    }
}
