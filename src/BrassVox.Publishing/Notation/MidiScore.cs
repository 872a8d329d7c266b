using BrassVox.Practice.Passages;
using NAudio.Midi;

namespace BrassVox.Publishing.Notation;

/// <summary>Writes a score as a Standard MIDI File of format 1: a track and a channel for each tone, its exact pitch by pitch bend before each note.</summary>
/// <remarks>
/// Source: Standard MIDI Files 1.0 and MIDI 1.0 (pitch bend, RPN 0), MIDI Association. The range is two semitones unless a glide needs more,
/// so a pitch is kept to 0.02 cent; with the widest range, 48 semitones, to 0.6.
/// </remarks>
public static class MidiScore
{
    private const int Centre = 8192;
    private const int Velocity = 80;
    private const int ReleaseVelocity = 64; // of a keyboard that does not sense it, MIDI 1.0 (from memory)
    private const int Program = 58; // General MIDI 59, trombone
    private const int SungProgram = 52; // General MIDI 53, choir
    private const double GlideStepSeconds = 0.01;
    private static readonly int[] Ranges = [2, 12, 24, 48];

    /// <summary>The bend for a distance, 0 to 16383: 8192 + 8192 cents/range, held within its ends.</summary>
    /// <param name="cents">Cents from the note.</param>
    /// <param name="rangeSemitones">Range to either side in semitones.</param>
    public static int Bend(double cents, int rangeSemitones) =>
        Math.Clamp(Centre + (int)Math.Round(Centre * cents / (100.0 * rangeSemitones), MidpointRounding.AwayFromZero), 0, (2 * Centre) - 1);

    /// <summary>The file's bytes.</summary>
    /// <param name="score">The score.</param>
    public static byte[] Write(Score score)
    {
        var file = new MidiEventCollection(1, Passage.TicksPerQuarter);
        IList<MidiEvent> conductor = file.AddTrack();
        if (score.Title.Length > 0)
        {
            conductor.Add(new TextEvent(Ascii(score.Title), MetaEventType.SequenceTrackName, 0));
        }

        PassageBar? before = null;
        foreach (PassageBar bar in score.Bars)
        {
            if (before is null || (before.Beats, before.BeatUnit) != (bar.Beats, bar.BeatUnit))
            {
                conductor.Add(new TimeSignatureEvent(bar.StartTick, bar.Beats, (int)Math.Log2(bar.BeatUnit), 24, 8));
            }

            before = bar;
        }

        foreach (PassageTempo tempo in score.Tempos)
        {
            conductor.Add(new TempoEvent((int)Math.Round(60e6 / tempo.QuartersPerMinute), tempo.Tick));
        }

        conductor.Add(new MetaEvent(MetaEventType.EndTrack, 0, score.Bars[^1].StartTick + score.Bars[^1].LengthTicks));
        Track(file, score, "Played", score.Played, 1, Program);
        Track(file, score, "Sung", score.Sung, 2, SungProgram);
        if (score.Made.Count > 0)
        {
            Track(file, score, "Resultant S-P", score.Made, 3, SungProgram);
        }

        using var stream = new MemoryStream();
        MidiFile.Export(stream, file);
        return stream.ToArray();
    }

    private static void Track(MidiEventCollection file, Score score, string name, IReadOnlyList<ScoreNote> notes, int channel, int program)
    {
        double widest = notes.SelectMany(note => new[] { Cents(note, note.FromHz), Cents(note, note.ToHz) }).Select(Math.Abs).DefaultIfEmpty(0).Max();
        int range = Ranges.FirstOrDefault(semitones => widest < 100 * semitones, Ranges[^1]);
        IList<MidiEvent> track = file.AddTrack();
        track.Add(new TextEvent(name, MetaEventType.SequenceTrackName, 0));
        foreach ((int controller, int value) in new[] { (101, 0), (100, 0), (6, range), (38, 0), (101, 127), (100, 127) })
        {
            track.Add(new ControlChangeEvent(0, channel, (MidiController)controller, value));
        }

        track.Add(new PatchChangeEvent(0, channel, program));
        foreach (ScoreNote note in notes)
        {
            int key = Math.Clamp(note.Note.MidiNumber, 0, 127);
            track.Add(new PitchWheelChangeEvent(note.StartTick, channel, Bend(Cents(note, note.FromHz), range)));
            var on = new NoteOnEvent(note.StartTick, channel, key, Velocity, (int)note.LengthTicks);
            track.Add(on);
            if (note.Glides)
            {
                double quarters = score.Tempos.Last(tempo => tempo.Tick <= note.StartTick).QuartersPerMinute;
                long step = Math.Max(1, (long)(GlideStepSeconds * quarters / 60 * Passage.TicksPerQuarter));
                double from = Cents(note, note.FromHz), to = Cents(note, note.ToHz);
                for (long tick = step; tick < note.LengthTicks; tick += step)
                {
                    track.Add(new PitchWheelChangeEvent(note.StartTick + tick, channel, Bend(from + ((to - from) * tick / note.LengthTicks), range)));
                }
            }

            on.OffEvent!.Velocity = ReleaseVelocity;
            track.Add(on.OffEvent);
        }

        long end = Math.Max(score.Bars[^1].StartTick + score.Bars[^1].LengthTicks, notes.Count > 0 ? notes[^1].EndTick : 0);
        track.Add(new MetaEvent(MetaEventType.EndTrack, 0, end));
    }

    // MIDI keys are counted from A4 = 440 Hz.
    private static double Cents(ScoreNote note, double hz) => (1200 * Math.Log2(hz / 440)) - (100 * (note.Note.MidiNumber - 69));

    private static string Ascii(string text) => string.Concat(text.Select(c => c is >= ' ' and <= '~' ? c : '?'));
}
