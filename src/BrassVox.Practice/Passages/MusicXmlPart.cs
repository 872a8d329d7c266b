using System.Globalization;
using System.Xml;
using System.Xml.Linq;
using BrassVox.Practice.Exercises;
using BrassVox.Synthesis.Files;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>Reads one part of a MusicXML score, bar by bar.</summary>
internal sealed class MusicXmlPart(string name, List<string> remarks)
{
    private const double LargestDivisions = 16384;

    private readonly Dictionary<string, ScoreVoice> _voices = [];
    private double _divisions = 1;
    private (int Beats, int Unit) _time = (4, 4);
    private Interval _transposing;
    private long _barStart;
    private long _at;
    private long _lastStart;
    private long _furthest;
    private bool _wasRounded;

    public string Name { get; } = name;

    public List<PassageBar> Bars { get; } = [];

    public TempoList Tempos { get; } = new();

    public IEnumerable<ScoreVoice> Voices => _voices.Values;

    public void Read(XElement part)
    {
        foreach (XElement bar in part.Elements("measure"))
        {
            if (Bars.Count == Passage.MostBars)
            {
                throw Fault(bar, $"there are more than {Passage.MostBars} bars.");
            }

            ReadBar(bar);
        }

        if (_wasRounded)
        {
            remarks.Add($"Some lengths in {Name} are no whole ticks and were rounded to 1/{Passage.TicksPerQuarter} of a quarter note.");
        }
    }

    private void ReadBar(XElement bar)
    {
        _at = _barStart;
        _furthest = _barStart;
        foreach (XElement element in bar.Elements())
        {
            switch (element.Name.LocalName)
            {
                case "attributes":
                    ReadAttributes(element);
                    break;
                case "note":
                    ReadNote(element);
                    break;
                case "backup":
                    _at -= Duration(element);
                    if (_at < _barStart)
                    {
                        throw Fault(element, "a backup leads out of its bar.");
                    }

                    break;
                case "forward":
                    _at += Duration(element);
                    break;
                case "direction":
                    ReadTempo(element.Element("sound"), element.Element("direction-type")?.Element("metronome"));
                    break;
                case "sound":
                    ReadTempo(element, null);
                    break;
                case "barline" when element.Element("repeat") is not null || element.Element("ending") is not null:
                    remarks.Add($"A repeat or ending at bar {Bars.Count + 1} is not played: the bars are taken once, in order.");
                    break;
                default:
                    break;
            }

            _furthest = Math.Max(_furthest, _at);
        }

        long full = _time.Beats * Passage.TicksPerWhole / _time.Unit;
        bool isShort = (string?)bar.Attribute("implicit") == "yes" || Bars.Count == 0;
        long length = _furthest - _barStart;
        if (length > full)
        {
            throw Fault(bar, string.Create(CultureInfo.InvariantCulture,
                $"bar {Bars.Count + 1} lasts {(double)length / Passage.TicksPerQuarter:0.###} quarter notes, more than {_time.Beats}/{_time.Unit} allows."));
        }

        length = isShort && length > 0 ? length : full;
        Bars.Add(new PassageBar(Bars.Count + 1, _barStart, length, _time.Beats, _time.Unit));
        _barStart += length;
    }

    private void ReadAttributes(XElement attributes)
    {
        if (attributes.Element("divisions") is { } divisions)
        {
            _divisions = Number(divisions, 1.0 / 16384, LargestDivisions);
        }

        if (attributes.Element("time") is { } time && time.Element("beats") is { } beats && time.Element("beat-type") is { } unit)
        {
            int lower = (int)Number(unit, 1, 64);
            if (!int.IsPow2(lower))
            {
                throw Fault(unit, $"a time signature over {lower} is not read.");
            }

            long upper = beats.Value.Split('+').Sum(part => int.TryParse(part.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int count) ? (long)count : 0);
            _time = upper is >= 1 and <= 64 ? ((int)upper, lower) : throw Fault(beats, $"\"{beats.Value}\" is no number of beats from 1 to 64.");
        }

        if (attributes.Element("transpose") is { } transpose)
        {
            _transposing = Transposition(transpose);
        }
    }

    // What is added to the written note to get the sounding one; an octave or more is said apart.
    private static Interval Transposition(XElement transpose)
    {
        if (transpose.Element("chromatic") is null)
        {
            throw Fault(transpose, "a transposition has no chromatic steps, which MusicXML asks for.");
        }

        double Value(string element) => transpose.Element(element) is { } found ? Number(found, -48, 48) : 0;
        int chromatic = (int)Math.Round(Value("chromatic"));
        int diatonic = transpose.Element("diatonic") is null ? LettersOf(chromatic) : (int)Math.Round(Value("diatonic"));
        int octaves = (int)Math.Round(Value("octave-change")) + (transpose.Element("double") is { } twice ? ((string?)twice.Attribute("above") == "yes" ? 1 : -1) : 0);
        return new Interval(diatonic, chromatic).WithOctaves(octaves);
    }

    private static int LettersOf(int semitones)
    {
        int[] letters = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];
        int size = Math.Abs(semitones);
        return Math.Sign(semitones) * (letters[size % 12] + (7 * (size / 12)));
    }

    private void ReadNote(XElement note)
    {
        if (note.Element("grace") is not null)
        {
            Once("Grace notes are passed over.");
            return;
        }

        bool isChord = note.Element("chord") is not null;
        long start = isChord ? _lastStart : _at;
        long length = Duration(note);
        if (!isChord)
        {
            _lastStart = start;
            _at += length;
        }

        _furthest = Math.Max(_furthest, start + length);

        if (note.Element("cue") is not null)
        {
            Once("Cue notes are passed over.");
            return;
        }

        if (note.Element("unpitched") is not null)
        {
            Once("Notes without a pitch are passed over.");
            return;
        }

        if (note.Element("rest") is not null || note.Element("pitch") is not { } pitch || length == 0)
        {
            return;
        }

        (Pitch sounding, double cents) = PitchOf(pitch);
        string head = ((string?)note.Element("notehead") ?? "normal").Trim();
        bool isTied = note.Elements("tie").Any(tie => (string?)tie.Attribute("type") == "stop");
        string voice = PlainLine.Of(((string?)note.Element("voice") ?? "1").Trim());
        if (!_voices.TryGetValue(voice, out ScoreVoice? into))
        {
            _voices.Add(voice, into = new ScoreVoice(Name, voice, []));
        }

        into.Notes.Add(new NoteInFile(start, length, sounding, cents, head is not ("normal" or "none"), isTied, LineOf(note)));
    }

    private (Pitch Sounding, double Cents) PitchOf(XElement pitch)
    {
        string step = ((string?)pitch.Element("step") ?? "").Trim();
        double alter = pitch.Element("alter") is { } altered ? Number(altered, -2.5, 2.5) : 0;
        int octave = pitch.Element("octave") is { } octaves ? (int)Number(octaves, 0, 9) : -1;
        int semitones = (int)Math.Round(alter, MidpointRounding.AwayFromZero);
        if (octave < 0 || step.Length != 1 || Math.Abs(semitones) > 2 || !Pitch.TryParse(step + octave.ToString(CultureInfo.InvariantCulture), out Pitch natural))
        {
            throw Fault(pitch, "this pitch has no step A to G, no octave 0 to 9, or is altered by more than a whole tone.");
        }

        Pitch written = natural with { Alteration = semitones };
        Pitch sounding = _transposing == default ? written : _transposing.From(written);
        if (sounding.Octave is < Pitch.LowestOctave or > Pitch.HighestOctave)
        {
            throw Fault(pitch, $"transposed, this note sounds in octave {sounding.Octave}; octaves are {Pitch.LowestOctave} to {Pitch.HighestOctave}.");
        }

        return (sounding, Math.Round(100 * (alter - semitones), 6));
    }

    private void ReadTempo(XElement? sound, XElement? metronome)
    {
        double? tempo = sound?.Attribute("tempo") is { } attribute
            && double.TryParse(attribute.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double given) ? given : Metronome(metronome);
        if (tempo is not { } quarters)
        {
            return;
        }

        if (quarters is not (>= PassageTempo.Slowest and <= PassageTempo.Fastest))
        {
            throw Fault(sound ?? metronome!, string.Create(CultureInfo.InvariantCulture,
                $"a tempo of {quarters} quarter notes a minute lies outside {PassageTempo.Slowest} to {PassageTempo.Fastest}."));
        }

        Tempos.Set(_at, quarters, LineOf(sound ?? metronome!));
    }

    private static double? Metronome(XElement? metronome)
    {
        double? quarters = (string?)metronome?.Element("beat-unit") switch
        {
            "whole" => 4,
            "half" => 2,
            "quarter" => 1,
            "eighth" => 0.5,
            "16th" => 0.25,
            _ => null,
        };
        return quarters is { } unit
            && double.TryParse((string?)metronome!.Element("per-minute"), NumberStyles.Float, CultureInfo.InvariantCulture, out double perMinute)
            ? perMinute * unit * (metronome.Element("beat-unit-dot") is null ? 1 : 1.5)
            : null;
    }

    private long Duration(XElement element)
    {
        if (element.Element("duration") is not { } duration)
        {
            throw Fault(element, $"this {element.Name.LocalName} has no duration.");
        }

        double ticks = Number(duration, 0, 1e7) * Passage.TicksPerQuarter / _divisions;
        long whole = (long)Math.Round(ticks);
        _wasRounded |= Math.Abs(ticks - whole) > 1e-6 * Passage.TicksPerQuarter;
        return whole;
    }

    private void Once(string remark)
    {
        if (!remarks.Contains(remark))
        {
            remarks.Add(remark);
        }
    }

    private static double Number(XElement element, double lowest, double highest) =>
        double.TryParse(element.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= lowest && value <= highest
            ? value
            : throw Fault(element, string.Create(CultureInfo.InvariantCulture, $"\"{Short(element.Value)}\" in <{element.Name.LocalName}> is no number from {lowest:0.####} to {highest}."));

    private static string Short(string text) => text.Length > 24 ? text[..24] + "..." : text.ReplaceLineEndings(" ");

    private static int LineOf(XElement element) => element is IXmlLineInfo line && line.HasLineInfo() ? line.LineNumber : 0;

    private static PassageFault Fault(XElement element, string message) => new(LineOf(element), 0, message);
}
