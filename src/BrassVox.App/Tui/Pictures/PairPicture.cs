using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>
/// The picture of the pair: P's partials on a rail above, S's on a rail below, between them what they make and how close
/// the rails come. Nine rows; a pure function of what it is given.
/// </summary>
internal static class PairPicture
{
    /// <summary>Rows it takes.</summary>
    public const int Rows = 9;

    private const int FourthOrderFrom = 120;

    /// <summary>Draws the picture.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="top">First row.</param>
    /// <param name="scale">The axis.</param>
    /// <param name="spectrum">The lines.</param>
    /// <param name="noteName">Name of the note nearest to a frequency in Hz.</param>
    /// <param name="upperRail">What the rail on top carries, in at most 6 characters.</param>
    /// <param name="lowerRail">What the rail below carries.</param>
    public static void Draw(
        Canvas canvas, int top, PairScale scale, PairSpectrum spectrum, Func<double, string> noteName, string upperRail = "PLAYED", string lowerRail = "SUNG")
    {
        canvas.Write(0, top, upperRail, Ink.Played);
        DrawNames(canvas, top, scale, spectrum, spectrum.PlayedHz, spectrum.PlayedDb, Ink.Played, noteName);
        DrawRail(canvas, top + 1, scale, Ink.Played);
        DrawPartials(canvas, top + 1, scale, spectrum, spectrum.PlayedHz, spectrum.PlayedDb, Ink.Played);

        canvas.Write(0, top + 2, "minus");
        canvas.Write(0, top + 3, "plus");
        canvas.Write(0, top + 4, "meet");
        canvas.Write(2, top + 5, "/s");
        canvas.Write(0, top + 7, lowerRail, Ink.Sung);
        canvas.Write(0, top + 8, "Hz");
        DrawHz(canvas, top + 8, scale);
        if (!spectrum.SungKnown)
        {
            canvas.Fill(PairScale.Origin, top + 6, scale.End - PairScale.Origin + 1, Glyphs.Fog, Ink.Sung);
            return;
        }

        DrawRail(canvas, top + 6, scale, Ink.Sung);
        DrawGap(canvas, top, scale, spectrum);
        DrawPartials(canvas, top + 6, scale, spectrum, spectrum.SungHz, spectrum.SungDb, Ink.Sung);
        DrawNames(canvas, top + 7, scale, spectrum, spectrum.SungHz, spectrum.SungDb, Ink.Sung, noteName);
        int order = canvas.Width >= FourthOrderFrom ? 4 : 3;
        DrawResultants(canvas, top + 2, scale, spectrum, order, difference: true);
        DrawResultants(canvas, top + 3, scale, spectrum, order, difference: false);
        DrawMeetings(canvas, top + 4, scale, spectrum);
    }

    /// <summary>A beat rate as the picture writes it: 0.2, 29.</summary>
    /// <param name="rateHz">Beats per second, at least 0.</param>
    public static string Rate(double rateHz) =>
        rateHz.ToString(rateHz < 9.95 ? "0.0" : "0", CultureInfo.InvariantCulture);

    private static void DrawRail(Canvas canvas, int y, PairScale scale, Ink ink)
    {
        canvas.Put(PairScale.Origin, y, Glyphs.RailStart, ink);
        canvas.Fill(PairScale.Origin + 1, y, scale.End - PairScale.Origin, Glyphs.Rail, ink);
    }

    private static void DrawPartials(
        Canvas canvas, int y, PairScale scale, PairSpectrum spectrum, double hz, IReadOnlyList<double> levels, Ink ink)
    {
        for (int i = 0; i < levels.Count; i++)
        {
            int x = scale.Column((i + 1) * hz);
            if (x <= scale.End && spectrum.IsDrawn(levels[i]))
            {
                bool strong = spectrum.IsStrong(levels[i]);
                char glyph = ink == Ink.Played
                    ? strong ? Glyphs.PlayedStrong : Glyphs.PlayedWeak
                    : strong ? Glyphs.SungStrong : Glyphs.SungWeak;
                canvas.Put(x, y, glyph, ink);
            }
        }
    }

    private static void DrawNames(
        Canvas canvas, int y, PairScale scale, PairSpectrum spectrum, double hz, IReadOnlyList<double> levels, Ink ink, Func<double, string> noteName)
    {
        int free = PairScale.Origin + 2;
        for (int i = 0; i < levels.Count; i++)
        {
            int x = scale.Column((i + 1) * hz);
            if (x > scale.End)
            {
                break;
            }

            string name = string.Create(CultureInfo.InvariantCulture, $"{i + 1} {noteName((i + 1) * hz)}");
            int start = Math.Min(x, canvas.Width - name.Length);
            if (start >= free && spectrum.IsDrawn(levels[i]))
            {
                free = canvas.Write(start, y, name, ink) + 1;
            }
        }
    }

    private static void DrawHz(Canvas canvas, int y, PairScale scale)
    {
        int free = 0;
        for (int i = 0; i <= scale.LastMultiple; i++)
        {
            string text = (i * scale.PlayedHz).ToString("0", CultureInfo.InvariantCulture);
            int start = Math.Min(PairScale.Origin + (i * scale.CellsPerPlayed), canvas.Width - text.Length);
            if (start >= free)
            {
                free = canvas.Write(start, y, text, Ink.Quiet) + 1;
            }
        }
    }

    private static void DrawGap(Canvas canvas, int top, PairScale scale, PairSpectrum spectrum)
    {
        int difference = scale.Column(Math.Abs(spectrum.SungHz - spectrum.PlayedHz));
        canvas.Fill(PairScale.Origin, top + 2, Math.Min(difference, scale.End + 1) - PairScale.Origin, Glyphs.Gap, Ink.Resultant);
        int played = scale.Column(spectrum.PlayedHz);
        int sung = scale.Column(spectrum.SungHz);
        int low = Math.Min(played, sung) + 1;
        int high = Math.Min(Math.Max(played, sung), scale.End + 1);
        canvas.Fill(low, top + 6, high - low, Glyphs.Gap, Ink.Sung);
    }

    private static void DrawResultants(Canvas canvas, int y, PairScale scale, PairSpectrum spectrum, int order, bool difference)
    {
        var marks = new SortedDictionary<int, (string Name, double LevelDb)>();
        foreach (ResultantLevel level in spectrum.Resultants)
        {
            var line = new Resultant(level.Played, level.Sung, (level.Played * spectrum.PlayedHz) + (level.Sung * spectrum.SungHz));
            if (line.Order > order || line.IsDifference != difference || line.FrequencyHz <= 0 || !spectrum.IsDrawn(level.LevelDb))
            {
                continue;
            }

            int x = scale.Column(line.FrequencyHz);
            if (x <= scale.End && (!marks.TryGetValue(x, out var other) || other.LevelDb < level.LevelDb))
            {
                marks[x] = (line.Name, level.LevelDb);
            }
        }

        int[] columns = [.. marks.Keys, canvas.Width + 1];
        int index = 0;
        foreach ((int x, (string name, double levelDb)) in marks)
        {
            canvas.Put(x, y, spectrum.IsStrong(levelDb) ? Glyphs.ResultantStrong : Glyphs.ResultantWeak, Ink.Resultant);
            if (x + 1 + name.Length < columns[++index])
            {
                canvas.Write(x + 1, y, name, Ink.Resultant);
            }
        }
    }

    private static void DrawMeetings(Canvas canvas, int y, PairScale scale, PairSpectrum spectrum)
    {
        IReadOnlyList<PartialMeeting> meetings = spectrum.Meetings();
        int free = PairScale.Origin;
        foreach (PartialMeeting meeting in meetings)
        {
            int played = scale.Column(meeting.Played * spectrum.PlayedHz);
            int sung = scale.Column(meeting.Sung * spectrum.SungHz);
            (int low, int high) = (Math.Min(played, sung), Math.Max(played, sung));
            if (high > scale.End)
            {
                break;
            }

            for (int x = low; x <= high; x++)
            {
                if (canvas[x, y].Glyph is ' ' or Glyphs.Grain)
                {
                    canvas.Put(x, y, Sign(meeting.Kind), meeting.Kind == Meeting.Grain ? Ink.Quiet : Ink.Text);
                }
            }

            string rate = Rate(meeting.Kind == Meeting.Still ? 0 : meeting.RateHz);
            int start = Math.Min(((low + high) / 2) - ((rate.Length - 1) / 2), canvas.Width - rate.Length);
            if (start >= free)
            {
                free = canvas.Write(start, y + 1, rate) + 1;
            }
        }
    }

    private static char Sign(Meeting kind) => kind switch
    {
        Meeting.Still => Glyphs.Tie,
        Meeting.Beating => Glyphs.Beating,
        _ => Glyphs.Grain,
    };
}
