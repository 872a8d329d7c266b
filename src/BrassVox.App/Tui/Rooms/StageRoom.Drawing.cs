using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Scenes;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Stage draws.</summary>
internal sealed partial class StageRoom
{
    private const int DoubledFromWidth = 180;
    private const int DoubledFromHeight = 50;
    private const double FarCents = 75;
    private const string Unheard = ", not heard in this scene";
    private const int ListColumns = 36;
    private const string KeyWords = "PgUp tacet, back  1-9  x freeze  b blank  h keys";

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        if (_blank)
        {
            Stand.DrawSoundState(canvas);
            return;
        }

        if (_listed || _shown is null || _sound is null)
        {
            DrawList(canvas);
            return;
        }

        if (_spectrum is null)
        {
            ReadNumbers();
        }

        bool doubled = canvas.Width >= DoubledFromWidth && canvas.Height >= DoubledFromHeight;
        int size = doubled ? 2 : 1;
        int left = doubled ? ListColumns : 0;
        Stand.DrawTitleRow(canvas, Heading(_shown));
        if (doubled)
        {
            DrawScenes(canvas, 3, ListColumns - 2);
        }

        StagePicture.Draw(canvas, left, 1, size, Figure(_shown, _sound.Pair, _spectrum!));
        string about = _shown.About;
        int words = canvas.Height - 1 - Canvas.RowsOf(canvas.Width - 1, about);
        DrawSwell(canvas, words - 1);
        canvas.Paragraph(0, words, canvas.Width - 1, about);
        DrawMarkedScene(canvas);
    }

    private string[] Heading(Scene scene) =>
    [
        string.Create(CultureInfo.InvariantCulture, $"{Scenes.ToList().IndexOf(scene) + 1} of {Scenes.Count}"),
        scene.Name,
        _frozen ? "frozen" : "",
        Spotlight is null ? "" : $"spotlight {Spotlight.Name}",
        scene.Only is null ? "" : string.Create(CultureInfo.InvariantCulture, $"raised {SceneSound.RaisedDb:0} dB"),
        scene.Pair.Tuning,
    ];

    private StageFigure Figure(Scene scene, PairSetting pair, PairSpectrum spectrum)
    {
        string middle = "";
        string label = "";
        PairPart? part = Spotlight is { Index: >= 2 } lit
            ? lit
            : Stand.Desk.Engine?.Parts.FirstOrDefault(item => string.Equals(item.Name, scene.Middle, StringComparison.Ordinal));
        if (part is not null)
        {
            double hz = Math.Abs((part.Played * spectrum.PlayedHz) + (part.Sung * spectrum.SungHz));
            if (hz >= NearestNote.LowestPitchHz)
            {
                middle = Large(Stand.NameNear(hz));
                label = string.Create(CultureInfo.InvariantCulture, $"{part.Name}  {Stand.NameNear(hz)}  {hz:0.0} Hz{(Stand.IsCarried(hz, spectrum.PlayedHz) ? "" : ", not carried here")}");
            }
        }
        else if (scene.Middle == Scene.Beats && PairWords.Leading(spectrum.Meetings()) is { } leading)
        {
            bool still = leading.Kind == Meeting.Still;
            middle = still ? "=" : PairPicture.Rate(leading.RateHz);
            label = still ? "still" : leading.Kind == Meeting.Beating ? "beats a second" : "grain, swells a second";
        }

        // On its way to the note asked the voice is named by where it is.
        string declared = Stand.Name(pair.Sung);
        double away = Cents.Between(pair.DeclaredHz(VoiceRole.Sung), spectrum.SungHz);
        string sung = Math.Abs(away) > FarCents ? Stand.NameNear(spectrum.SungHz) : declared;
        // Large stands what sounds: a tone that only made another is named in small print.
        bool playedSounds = Sounds("P");
        bool sungSounds = Sounds("S");
        return new StageFigure(
            spectrum,
            playedSounds ? Large(Stand.Name(pair.Played)) : "",
            sungSounds ? Large(sung) : "",
            middle,
            part is not null && scene.Muted?.Contains(part.Name) == true ? "SING" : "MADE",
            label,
            string.Create(CultureInfo.InvariantCulture, $"{Stand.Name(pair.Played)}  {spectrum.PlayedHz:0.0} Hz{(playedSounds ? "" : Unheard)}"),
            string.Create(CultureInfo.InvariantCulture, $"{(sung == declared ? "" : $"{sung}, to ")}{declared}  {spectrum.SungHz:0.0} Hz{(sungSounds ? "" : Unheard)}"),
            Spotlight?.Name);
    }

    /// <summary>A note's name in the signs that are drawn large: capitals, but for the flat.</summary>
    private static string Large(string name) => string.Concat(name.Select(sign => sign == 'b' ? sign : char.ToUpperInvariant(sign)));

    private void DrawSwell(Canvas canvas, int y)
    {
        PartialMeeting? leading = Stand.Desk.IsSounding && _shown!.Only is null ? Leading : null;
        double amount = leading is { Kind: Meeting.Beating } meeting && _spectrum is { } spectrum
            ? SwellBar.Envelope(spectrum.PlayedDb[meeting.Played - 1], spectrum.SungDb[meeting.Sung - 1], _swellCycles)
            : 1;
        SwellBar.Draw(canvas, y, leading, amount);
        canvas.Write(6, y, leading switch
        {
            null => "",
            { Kind: Meeting.Still } => "still",
            { } moving => $"{PairPicture.Rate(moving.RateHz)} /s",
        });
    }

    private void DrawList(Canvas canvas)
    {
        Stand.DrawHeader(canvas, string.Create(CultureInfo.InvariantCulture, $"{Scenes.Count} scenes"), PlayerWords.Line(Stand));
        DrawScenes(canvas, 3, canvas.Width - 2);
        if (MarkedIndex < Scenes.Count)
        {
            // What a class is to hear in it, where the list leaves room.
            int y = 4 + Choices.Count;
            string about = Scenes[MarkedIndex].About;
            if (y + Canvas.RowsOf(canvas.Width - 4, about) < canvas.Height - 3)
            {
                canvas.Paragraph(2, y, canvas.Width - 4, about);
            }
        }

        canvas.Paragraph(1, canvas.Height - 3, canvas.Width - 2, "Keep the hall's level low: a resultant is heard best softly. t: light reads better in a lit hall.", Ink.Quiet);
        DrawMarkedScene(canvas);
    }

    private void DrawMarkedScene(Canvas canvas)
    {
        int y = canvas.Height - 1;
        int x = canvas.Write(0, y, $"{Glyphs.Marked} {Choices[MarkedIndex].Label}", Ink.Marked);
        canvas.Write(x + 2, y, Stand.Letterset.InWords(KeyWords, isKeyLine: true), Ink.Quiet);
    }

    private void DrawScenes(Canvas canvas, int top, int width)
    {
        int rows = canvas.Height - top - 4;
        int first = Math.Clamp(MarkedIndex - (rows / 2), 0, Math.Max(0, Choices.Count - rows));
        for (int i = first; i < Math.Min(Choices.Count, first + rows); i++)
        {
            int y = top + i - first;
            bool marked = i == MarkedIndex;
            if (marked)
            {
                canvas.Put(0, y, Glyphs.Marked, Ink.Marked);
            }
            else if (i < Scenes.Count && Scenes[i] == _shown)
            {
                canvas.Put(0, y, Glyphs.InHand);
            }

            string label = Choices[i].Label;
            int next = canvas.Write(2, y, label.Length > width ? label[..width] : label, marked ? Ink.Marked : i < Scenes.Count ? Ink.Text : Ink.Quiet);
            if (i < Scenes.Count && width >= 60)
            {
                Scene scene = Scenes[i];
                canvas.Write(Math.Max(next + 2, 38), y, $"{Stand.Name(scene.Pair.Played)} + {Stand.Name(scene.Pair.Sung)}, {scene.Pair.Tuning}{(scene == _shown ? ", shown" : "")}", Ink.Quiet);
            }
        }
    }
}
