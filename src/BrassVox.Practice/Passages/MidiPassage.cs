using BrassVox.Synthesis.Files;
using BrassVox.Theory;
using NAudio.Midi;

namespace BrassVox.Practice.Passages;

/// <summary>Reads a Standard MIDI File: two tracks, or two channels of one track.</summary>
/// <remarks>Source: Standard MIDI File 1.0 (MThd, MTrk, note on and off, meta events 03, 51, 58) [memory]; the bytes are read by NAudio.Midi. A MIDI number has no spelling: black keys read as flats.</remarks>
internal static class MidiPassage
{
    /// <summary>Largest file read, in bytes: events take some two hundred times their bytes in memory.</summary>
    private const int LargestBytes = 1 << 20;

    // The standard's own default; not ours.
    private const double UsualTempo = 120;

    public static Passage Read(byte[] bytes, VoiceNames? names)
    {
        if (bytes.Length > LargestBytes)
        {
            throw new PassageFault(0, 0, $"the MIDI file is larger than {LargestBytes / (1024 * 1024)} MB; a passage is a page, not a library.");
        }

        List<string> remarks = [];
        MidiFile file = Open(MidiMending.Whole(bytes, remarks));
        if (file.DeltaTicksPerQuarterNote is <= 0 or > 32767)
        {
            throw new PassageFault(0, 0, "its time is in film frames, not in quarter notes.");
        }

        List<ScoreVoice> voices = [];
        TempoList tempos = new();
        SortedDictionary<long, (int Beats, int Unit)> times = [];
        string title = "";
        long end = 0;
        bool bends = false;
        long Ticks(long midi) => (long)Math.Round((double)midi * Passage.TicksPerQuarter / file.DeltaTicksPerQuarterNote);
        for (int track = 0; track < file.Tracks; track++)
        {
            string name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"track {track + 1}");
            Dictionary<int, ScoreVoice> channels = [];
            foreach (MidiEvent item in file.Events[track])
            {
                switch (item)
                {
                    case TextEvent { MetaEventType: MetaEventType.SequenceTrackName } text when text.Text.Trim().Length > 0:
                        name = PlainLine.Of(text.Text.Trim());
                        title = track == 0 && file.Tracks > 1 ? name : title;
                        break;
                    case TempoEvent tempo:
                        double quarters = 60_000_000.0 / Math.Max(1, tempo.MicrosecondsPerQuarterNote);
                        if (quarters is not (>= PassageTempo.Slowest and <= PassageTempo.Fastest))
                        {
                            throw new PassageFault(0, 0, FormattableString.Invariant($"a tempo of {quarters:0.#} quarter notes a minute lies outside {PassageTempo.Slowest} to {PassageTempo.Fastest}."));
                        }

                        tempos.Set(Ticks(tempo.AbsoluteTime), quarters);
                        break;
                    case TimeSignatureEvent { Numerator: >= 1 and <= 64, Denominator: >= 0 and <= 6 } time:
                        times[Ticks(time.AbsoluteTime)] = (time.Numerator, 1 << time.Denominator);
                        break;
                    case PitchWheelChangeEvent { Pitch: not 8192 }:
                        bends = true;
                        break;
                    case NoteOnEvent { Velocity: > 0, OffEvent: not null } note:
                        if (!channels.TryGetValue(note.Channel, out ScoreVoice? voice))
                        {
                            channels.Add(note.Channel, voice = new ScoreVoice(name, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"channel {note.Channel}"), []));
                            voices.Add(voice);
                        }

                        long start = Ticks(note.AbsoluteTime);
                        voice.Notes.Add(new NoteInFile(start, Math.Max(1, Ticks(note.OffEvent.AbsoluteTime) - start), Pitch.FromMidi(note.NoteNumber), 0, false, false, 0));
                        end = Math.Max(end, voice.Notes[^1].EndTick);
                        break;
                    default:
                        break;
                }
            }
        }

        if (bends)
        {
            remarks.Add("Pitch bends are not read.");
        }

        (IReadOnlyList<PassageNote> played, IReadOnlyList<PassageNote> sung) = VoiceChoice.Of(voices, names, remarks);
        return new Passage(title, null, Bars(times, end), tempos.From(UsualTempo), played, sung, remarks);
    }

    private static MidiFile Open(byte[] bytes)
    {
        try
        {
            using var stream = new MemoryStream(bytes, writable: false);
            return new MidiFile(stream, strictChecking: false);
        }
        catch (Exception error) when (error is FormatException or IOException or ArgumentException or InvalidOperationException or IndexOutOfRangeException or OverflowException or NotSupportedException or OutOfMemoryException)
        {
            throw new PassageFault(0, 0, $"this is no whole MIDI file: {error.Message.ReplaceLineEndings(" ")}");
        }
    }

    private static List<PassageBar> Bars(SortedDictionary<long, (int Beats, int Unit)> times, long end)
    {
        List<PassageBar> bars = [];
        (int Beats, int Unit) time = (4, 4);
        using SortedDictionary<long, (int Beats, int Unit)>.Enumerator changes = times.GetEnumerator();
        bool isMore = changes.MoveNext();
        for (long at = 0; at < end || bars.Count == 0;)
        {
            for (; isMore && changes.Current.Key <= at; isMore = changes.MoveNext())
            {
                time = changes.Current.Value;
            }

            if (bars.Count == Passage.MostBars)
            {
                throw new PassageFault(0, 0, $"there are more than {Passage.MostBars} bars.");
            }

            long length = time.Beats * Passage.TicksPerWhole / time.Unit;
            bars.Add(new PassageBar(bars.Count + 1, at, length, time.Beats, time.Unit));
            at += length;
        }

        return bars;
    }
}
