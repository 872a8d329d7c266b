using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><see cref="MeasureReport"/> as lines of at most 80 columns.</summary>
internal static class MeasureText
{
    private const double LeastSaid = 0.01;

    // Edges of two tones, where one is alone for a moment, are no news.
    private const double LeastSeriesSaid = 0.05;

    // Single windows in another octave are strays.
    private const double LeastOctaveSaid = 0.05;
    private const int MostBeats = 4;
    private const int MostResultants = 6;
    private const int ResultantsInLine = 2;

    public static string Of(MeasureReport report)
    {
        StringWriter text = new(CultureInfo.InvariantCulture) { NewLine = "\n" };
        text.WriteLine(Said($"{report.File}   {report.DurationSeconds:F2} s at {report.SampleRateHz} Hz, {report.Frames} frames"));
        Tone(text, "played", report.Played);
        Tone(text, "sung", report.Sung);
        if (report.Pair is { } pair)
        {
            Pair(text, pair);
        }

        if (report.Pair is not { Beats.Count: > 0 })
        {
            text.WriteLine(report.BeatsPerSecond is { } rate ? Said($"beats    {rate:F2} a second") : "beats    not told");
        }

        if (report.Pair is { } both)
        {
            Together(text, both);
        }

        text.WriteLine(Said($"told     both pitches in {report.BothShare:P0} of the frames, one tone in {report.OneToneShare:P0},"));
        text.WriteLine(Said($"         not separable in {report.NotSeparableShare:P0}, no tone in {report.SilentShare:P0}"));
        if (report is { FlatTops: > 0, FirstFlatTopSeconds: { } firstSeconds })
        {
            string times = report.FlatTops == 1 ? "once" : Said($"{report.FlatTops} times");
            text.WriteLine(Said($"cut off  at its loudest {times}, first at {firstSeconds:F2} s: the input was too loud,"));
            text.WriteLine("         which makes lines of its own; turn it down and record again");
        }

        if (report.Leaves is { } leaving)
        {
            IEnumerable<string> slides = leaving.Select(role => Said($"{role} slides by {Math.Abs((role == MeasureReport.PlayedName ? report.Played : report.Sung)?.DriftCents ?? 0):F0} c"));
            text.WriteLine($"moves    {string.Join(", ", slides)}: where a tone is meant to move, say");
            text.WriteLine("         so with --moves, and name both notes; else their names may change over");
        }

        if (report.OtherNote is { } other)
        {
            text.WriteLine(Said($"other    with the {other.Role} note left open: {other.FrequencyHz:F2} Hz ({other.Note} {other.Cents:+0.0;-0.0;0.0} c),"));
            text.WriteLine(Said($"         and then both pitches in {other.FramesShare:P0} of the frames; name it with --{other.Role}"));
        }

        if (report.OtherPair is { Tones: { } tones } pairHeard)
        {
            text.WriteLine(Said($"other    with no note named two tones stood apart in {pairHeard.FramesShare:P0} of the frames:"));
            text.WriteLine($"         {Both(tones)}");
            text.WriteLine("         those are the notes to name");
        }

        if (report.RolesOpen is { } open && report.RolesOpenShare >= LeastSaid)
        {
            text.WriteLine(Said($"roles    in {report.RolesOpenShare:P0} two tones stood apart, but nothing tells which is played:"));
            text.WriteLine($"         {Both(open)}");
            text.WriteLine("         name one with --played or --sung");
        }

        if (report.OneSeries is { } series && report.OneSeriesShare >= LeastSeriesSaid)
        {
            text.WriteLine(Said($"series   in {report.OneSeriesShare:P0} one series on {series.FrequencyHz:F2} Hz ({series.Note} {series.Cents:+0.0;-0.0;0.0} c): one tone, or two that meet;"));
            text.WriteLine("         name what sounds with --played, --sung or both");
        }

        if (report.Drone is not null)
        {
            text.WriteLine(report.Drone.ToText());
        }

        if (report.Sensation is not null)
        {
            text.WriteLine(report.Sensation.ToText());
        }

        return text.ToString();
    }

    private static string Both(OpenTones tones) =>
        Said($"{tones.LowerHz:F2} Hz ({tones.LowerNote} {tones.LowerCents:+0.0;-0.0;0.0} c) and {tones.UpperHz:F2} Hz ({tones.UpperNote} {tones.UpperCents:+0.0;-0.0;0.0} c)");

    private static void Tone(StringWriter text, string name, MeasuredTone? tone)
    {
        if (tone is null)
        {
            text.WriteLine($"{name,-8} no pitch");
            return;
        }

        string offset = tone.OffsetCents is { } asked ? Said($"   {asked:+0.0;-0.0;0.0} c from the note asked") : string.Empty;
        text.WriteLine(Said($"{name,-8} {tone.FrequencyHz:F2} Hz   {tone.Note} {tone.Cents:+0.0;-0.0;0.0} c   {tone.LevelDbfs:F1} dBFS{offset}"));
        if (tone is { DriftCents: { } drift, SpreadCents: { } spread, MeasuredSeconds: { } measured })
        {
            string onset = tone.OnsetSeconds is { } at ? Said($"onset at {at:F2} s")
                : tone.ToldFromSeconds is { } from ? Said($"told from {from:F2} s on")
                : "sounds from the start";
            text.WriteLine(Said($"         drift {drift:+0.0;-0.0;0.0} c, spread {spread:F1} c over {measured:F2} s, {onset}"));
        }

        if (tone is { OtherOctave: { } octave, OtherOctaveShare: >= LeastOctaveSaid and { } share })
        {
            string away = Math.Abs(octave) == 1 ? "an octave" : Said($"{Math.Abs(octave)} octaves");
            text.WriteLine(Said($"         in {share:P0} of its frames read {away} {(octave > 0 ? "higher" : "lower")}: left out here"));
        }

        if (tone is { VibratoRateHz: { } rate, VibratoWidthCents: { } width })
        {
            text.WriteLine(Said($"         vibrato {rate:F1} a second, {width:F0} c to either side"));
        }
    }

    private static void Pair(StringWriter text, MeasuredPair pair)
    {
        JustInterval just = JustInterval.NearestTo(pair.IntervalCents);
        text.WriteLine(Said($"pair     {IntervalName.Of(pair.IntervalCents)} {pair.IntervalCents:F1} c (just {just} is {Math.CopySign(just.Cents, pair.IntervalCents):F1} c)"));
        text.WriteLine(Said($"balance  sung {pair.BalanceDb:+0.0;-0.0;0.0} dB against played"));
        string head = "beats";
        foreach (MeasuredBeat beat in pair.Beats.OrderBy(x => x.PlayedHarmonic + x.SungHarmonic).Take(MostBeats))
        {
            text.WriteLine(Said($"{head,-8} {beat.BeatsPerSecond:F2} a second: {beat.PlayedHarmonic} of P with {beat.SungHarmonic} of S at {beat.FrequencyHz:F0} Hz"));
            head = string.Empty;
        }
    }

    private static void Together(StringWriter text, MeasuredPair pair)
    {
        string head = "lines";
        foreach (MeasuredResultant[] row in pair.Resultants.Take(MostResultants).Chunk(ResultantsInLine))
        {
            text.WriteLine($"{head,-8} {string.Join("   ", row.Select(x => Said($"{x.Name,-5} {x.FrequencyHz,7:F1} Hz {x.LevelDbfs,6:F1} dBFS")))}");
            head = string.Empty;
        }

        text.WriteLine(pair.CouplingDb is { } coupling
            ? Said($"coupled  P+S and their difference lie {coupling:F1} dB against both tones")
            : "coupled  no line of sum or difference to be told");
        Pulled(text, "played", "sung", pair.PullOnPlayedCentsPerSemitone);
        Pulled(text, "sung", "played", pair.PullOnSungCentsPerSemitone);
        if (pair.Capture is { } zone)
        {
            text.WriteLine(Said($"caught   {zone.PlayedHarmonic} of P with {zone.SungHarmonic} of S while S lies {zone.LowCents:+0;-0;0} to {zone.HighCents:+0;-0;0} c from the exact interval"));
        }
    }

    private static void Pulled(StringWriter text, string held, string moving, double? centsPerSemitone)
    {
        if (centsPerSemitone is { } cents)
        {
            text.WriteLine(Said($"pull     {held} {cents:+0.0;-0.0;0.0} c for each semitone that {moving} moves"));
        }
    }

    private static string Said(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
