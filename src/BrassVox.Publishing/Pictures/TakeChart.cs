using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Theory;
using ScottPlot;

namespace BrassVox.Publishing.Pictures;

/// <summary>One take: both tones in cents about their targets, and the beats between them, on one axis of time. Where the two cannot be told apart the paper is shaded.</summary>
public static class TakeChart
{
    private const double LeastReachCents = 30;
    private const double MostReachCents = 1300;

    // Where what is asked leaps by more than this from one frame to the next, each note is drawn about its own place.
    private const double LeapCents = 50;
    private const int MostBarNumbers = 16;
    private const int NarrowBarNumbers = 8;
    private const int NarrowWords = 13;

    // Frames lie 10 ms apart and each tells of 160 ms: every second one shows the same, and more points than a picture has columns show nothing.
    private const double DenseSeconds = 0.015;
    private const int MostPoints = 900;
    private const int NarrowPoints = 450;

    /// <summary>How far from its place a tone is drawn where what is asked leaps from note to note, in cents.</summary>
    /// <param name="toleranceCents">Half width of the band, in cents, at least 0.</param>
    public static double ReachCents(double toleranceCents) => Math.Max(2 * LeastReachCents, 4 * toleranceCents);

    /// <summary>True where what is asked of a tone leaps from note to note within a take, so that it is drawn about each note's own place.</summary>
    /// <param name="frames">Its frames in order of time.</param>
    /// <param name="askedHz">What was asked at a time in seconds, in Hz, or null where nothing was.</param>
    public static bool Leaps(IReadOnlyList<AnalysisFrame> frames, Func<double, double?> askedHz)
    {
        double? last = null;
        foreach (AnalysisFrame frame in frames)
        {
            if (askedHz(frame.CentreSeconds) is { } hz)
            {
                if (last is { } before && Math.Abs(Cents.Between(before, hz)) > LeapCents)
                {
                    return true;
                }

                last = hz;
            }
        }

        return false;
    }

    /// <summary>Draws a take.</summary>
    /// <param name="title">What it is, in a few words.</param>
    /// <param name="frames">Its frames in order of time; at least one.</param>
    /// <param name="playedHz">What was asked of P at a time in seconds, in Hz, or null where nothing was; null draws about P's own median.</param>
    /// <param name="sungHz">The same of S.</param>
    /// <param name="toleranceCents">Half width of the band drawn about the targets in cents, at least 0.</param>
    /// <param name="a4Hz">A4 in Hz, for the names of notes.</param>
    /// <param name="naming">The language of note names.</param>
    /// <param name="bars">Number and beginning of each bar, in seconds; null for none.</param>
    /// <param name="isNarrow">True for a picture of about 330 by 560 pixels, as a phone shows it: fewer words, bar numbers and points.</param>
    /// <exception cref="ArgumentException">There are no frames.</exception>
    public static Picture Of(
        string title, IReadOnlyList<AnalysisFrame> frames, Func<double, double?>? playedHz, Func<double, double?>? sungHz, double toleranceCents, double a4Hz,
        NoteNaming naming = NoteNaming.English, IReadOnlyList<(int Number, double FromSeconds)>? bars = null, bool isNarrow = false)
    {
        if (frames.Count == 0)
        {
            throw new ArgumentException("A take without frames has no picture.", nameof(frames));
        }

        Plot played = Tone("PLAYED", title, frames, frame => frame.Played, playedHz, toleranceCents, a4Hz, naming, MarkerShape.FilledSquare, Paper.PlayedInk, isNarrow);
        Plot sung = Tone("SUNG", string.Empty, frames, frame => frame.Sung, sungHz, toleranceCents, a4Hz, naming, MarkerShape.FilledCircle, Paper.SungInk, isNarrow);
        Plot beats = isNarrow
            ? Paper.Panel(string.Empty, "time in seconds", "beats a second", NarrowWords)
            : Paper.Panel(string.Empty, "time in seconds; shaded: the two tones cannot be told apart", "beats a second");
        AnalysisFrame[] beating = [.. frames.Where(frame => frame.BeatRateHz is not null)];
        Points(beats, [.. beating.Select(frame => frame.CentreSeconds)], [.. beating.Select(frame => frame.BeatRateHz!.Value)], MarkerShape.FilledDiamond, Paper.Ink, isNarrow);
        double middle = 0.5 * frames[^1].CentreSeconds;
        double fastest = beating.Length == 0 ? 4 : Math.Clamp(1.1 * beating.Max(frame => frame.BeatRateHz!.Value), 4, 30);
        SayWhereNothingIsTold(played, frames, frame => frame.Played is not null, middle, isNarrow);
        SayWhereNothingIsTold(sung, frames, frame => frame.Sung is not null, middle, isNarrow);
        if (beating.Length == 0)
        {
            Say(beats, middle, 0.5 * fastest, "no beats are told", isNarrow);
        }

        foreach (Plot plot in new[] { played, sung, beats })
        {
            AxisLimits limits = plot.Axes.GetLimits();
            plot.Axes.SetLimits(0, frames[^1].CentreSeconds + 0.1, plot == beats ? 0 : limits.Bottom, plot == beats ? fastest : limits.Top);
            Fog(plot, frames);
            Bars(plot, bars ?? [], plot == played, isNarrow);
        }

        return new Picture(played, sung, beats);
    }

    /// <summary>True when in more than half of the frames that sound two tones stand apart, but nothing tells which of them is played.</summary>
    /// <param name="frames">Frames of a take; may be none.</param>
    public static bool AreRolesOpen(IReadOnlyList<AnalysisFrame> frames) => MostSay(frames, frame => frame.RolesOpen is not null);

    private static bool MostSay(IReadOnlyList<AnalysisFrame> frames, Func<AnalysisFrame, bool> says)
    {
        AnalysisFrame[] sounding = [.. frames.Where(frame => frame.Separability != Separability.Silent)];
        return 2 * sounding.Count(says) > sounding.Length;
    }

    // An empty panel would look like a picture that went wrong.
    private static void SayWhereNothingIsTold(Plot plot, IReadOnlyList<AnalysisFrame> frames, Func<AnalysisFrame, bool> isTold, double x, bool isNarrow)
    {
        if (!frames.Any(isTold))
        {
            Say(plot, x, 0, AreRolesOpen(frames)
                ? $"no pitch is told:\ntwo tones stand apart,{(isNarrow ? '\n' : ' ')}but which is played is open"
                : MostSay(frames, frame => frame.Separability == Separability.NotSeparable) ? "no pitch is told:\nthe two tones cannot be told apart" : "no pitch is told", isNarrow);
        }
    }

    private static void Say(Plot plot, double x, double y, string words, bool isNarrow)
    {
        if (isNarrow)
        {
            Paper.Says(plot, x, y, words, NarrowWords - 1);
        }
        else
        {
            Paper.Says(plot, x, y, words);
        }
    }

    private static Plot Tone(
        string name, string title, IReadOnlyList<AnalysisFrame> frames, Func<AnalysisFrame, PitchEstimate?> tone, Func<double, double?>? asked,
        double toleranceCents, double a4Hz, NoteNaming naming, MarkerShape shape, Color ink, bool isNarrow)
    {
        (double Seconds, double Hz)[] told = [.. frames.Where(frame => tone(frame) is not null).Select(frame => (frame.CentreSeconds, tone(frame)!.Value.FrequencyHz))];
        if (asked is not null && Leaps(frames, asked))
        {
            return OwnPlaces(name, title, frames, told, asked, toleranceCents, shape, ink, isNarrow);
        }

        double[] order = [.. told.Select(point => point.Hz).Order()];
        double anchorHz = frames.Select(frame => asked?.Invoke(frame.CentreSeconds)).FirstOrDefault(hz => hz is not null)
            ?? (order.Length > 0 ? order[order.Length / 2] : a4Hz);
        NearestNote note = NearestNote.Of(anchorHz, a4Hz);
        double zeroHz = asked is null ? Cents.Above(anchorHz, -note.Cents) : anchorHz;
        Plot plot = ToneIn(title, string.Create(CultureInfo.InvariantCulture, $"{name}: cents from\n{NoteNames.Of(note.Note, naming)}, {zeroHz:0.00} Hz"), isNarrow);
        double reach = LeastReachCents;
        if (asked is not null)
        {
            double[] across = frames.Count > 1 ? [.. frames.Select(frame => frame.CentreSeconds)] : [0, frames[0].CentreSeconds];
            double[] course = [.. across.Select(seconds => asked(seconds) is { } hz ? Cents.Between(zeroHz, hz) : double.NaN)];
            reach = Math.Max(reach, course.Where(double.IsFinite).Select(Math.Abs).DefaultIfEmpty(0).Max() + (2 * toleranceCents));
            foreach (double side in toleranceCents > 0 ? new[] { -toleranceCents, 0, toleranceCents } : [0])
            {
                Paper.Line(plot, across, [.. course.Select(cents => cents + side)], side == 0 ? Stroke.Dashed : Stroke.Dotted, Paper.Quiet, 1.2f);
            }
        }

        double[] cents = [.. told.Select(point => Cents.Between(zeroHz, point.Hz))];
        double[] near = [.. cents.Select(Math.Abs).Where(value => value <= MostReachCents).Order()];
        reach = Math.Max(reach, near.Length == 0 ? 0 : 1.2 * near[(int)(0.98 * (near.Length - 1))]);
        Points(plot, [.. told.Select(point => point.Seconds)], cents, shape, ink, isNarrow);
        plot.Axes.SetLimits(0, frames[^1].CentreSeconds + 0.1, -reach, reach);
        return plot;
    }

    // Notes that follow one another: each about its own place, so that a few cents can be seen beside leaps of hundreds.
    private static Plot OwnPlaces(
        string name, string title, IReadOnlyList<AnalysisFrame> frames, (double Seconds, double Hz)[] told, Func<double, double?> asked, double toleranceCents, MarkerShape shape, Color ink, bool isNarrow)
    {
        Plot plot = ToneIn(title, $"{name}: cents from\neach note asked", isNarrow);
        double end = frames[^1].CentreSeconds + 0.1;
        foreach (double side in toleranceCents > 0 ? new[] { -toleranceCents, 0, toleranceCents } : [0])
        {
            Paper.Line(plot, [0, end], [side, side], side == 0 ? Stroke.Dashed : Stroke.Dotted, Paper.Quiet, 1.2f);
        }

        double reach = ReachCents(toleranceCents);
        (double Seconds, double Cents)[] near =
        [
            .. told.Select(point => (point.Seconds, Asked: asked(point.Seconds), point.Hz)).Where(point => point.Asked is not null)
                .Select(point => (point.Seconds, Cents: Cents.Between(point.Asked!.Value, point.Hz))).Where(point => Math.Abs(point.Cents) <= reach),
        ];
        Points(plot, [.. near.Select(point => point.Seconds)], [.. near.Select(point => point.Cents)], shape, ink, isNarrow);
        plot.Axes.SetLimits(0, end, -reach, reach);
        return plot;
    }

    private static Plot ToneIn(string title, string up, bool isNarrow) => isNarrow ? Paper.Panel(title, string.Empty, up, NarrowWords) : Paper.Panel(title, string.Empty, up);

    private static void Bars(Plot plot, IReadOnlyList<(int Number, double FromSeconds)> bars, bool withNumbers, bool isNarrow)
    {
        int most = isNarrow ? NarrowBarNumbers : MostBarNumbers;
        int step = (bars.Count + most - 1) / most;
        AxisLimits limits = plot.Axes.GetLimits();
        for (int i = 0; i < bars.Count; i++)
        {
            plot.MoveToBack(plot.Add.VerticalLine(bars[i].FromSeconds, 1f, Paper.Quiet));
            if (withNumbers && i % step == 0)
            {
                ScottPlot.Plottables.Text number = plot.Add.Text(bars[i].Number.ToString(CultureInfo.InvariantCulture), bars[i].FromSeconds, limits.Top);
                number.LabelFontSize = 13;
                number.LabelFontColor = Paper.Ink;
                number.LabelAlignment = Alignment.UpperLeft;
                if (Paper.Font is { } family)
                {
                    number.LabelFontName = family;
                }
            }
        }
    }

    private static void Points(Plot plot, double[] across, double[] up, MarkerShape shape, Color ink, bool isNarrow)
    {
        int most = isNarrow ? NarrowPoints : MostPoints;
        bool isDense = across.Length > 1 && (across[^1] - across[0]) / (across.Length - 1) < DenseSeconds;
        int step = Math.Max(isDense ? 2 : 1, (across.Length + most - 1) / most);
        if (step > 1)
        {
            (across, up) = ([.. across.Where((_, i) => i % step == 0)], [.. up.Where((_, i) => i % step == 0)]);
        }

        ScottPlot.Plottables.Scatter points = plot.Add.ScatterPoints(across, up, ink);
        points.MarkerShape = shape;
        points.MarkerSize = 4;
    }

    private static void Fog(Plot plot, IReadOnlyList<AnalysisFrame> frames)
    {
        double half = frames.Count > 1 ? 0.5 * (frames[1].CentreSeconds - frames[0].CentreSeconds) : 0.05;
        for (int from = 0; from < frames.Count; from++)
        {
            if (frames[from].Separability != Separability.NotSeparable)
            {
                continue;
            }

            int to = from;
            while (to + 1 < frames.Count && frames[to + 1].Separability == Separability.NotSeparable)
            {
                to++;
            }

            ScottPlot.Plottables.HorizontalSpan span = plot.Add.HorizontalSpan(frames[from].CentreSeconds - half, frames[to].CentreSeconds + half);
            plot.MoveToBack(span);
            span.FillStyle.Color = Paper.Faint.WithAlpha(0.6);
            span.LineStyle.Width = 0;
            from = to;
        }
    }
}
