using BrassVox.App.Cli;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Section;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Two to five players' tones: what beats, who moves to still it, heard as entered and then sliding to where it stands still.</summary>
internal sealed class SectionRoom : Room
{
    private const int RateHz = 48000;
    private const int BlockSamples = 480;
    private static readonly string[] Tunings = ["equal", "just", "pythagorean", "meantone"];
    private int _tuning;
    private List<(Pitch Note, double Cents)> _tones = [(Pitch.Parse("Bb2"), 0), (Pitch.Parse("F3"), 0), (Pitch.Parse("D4"), 0)];
    private SectionReport _report;

    /// <summary>Opens with a tempered major chord; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public SectionRoom(MusicStand stand)
        : base(stand)
    {
        _report = Reported();
        Choices =
        [
            new Choice("hear it, then slide to stillness", Hear),
            new Choice("trials: who is off?", Train),
            new Choice("name other tones", AskTones),
            new Choice("another tuning", NextTuning),
            new Choice("leave", stand.Back),
        ];
        Keys =
        [
            new("n", "name the tones, one for each player", ['n'], AskTones),
            new("e", "tuning: equal, just, pythagorean, meantone, from the first player's note", ['e'], NextTuning),
            new("r", "hear it again", ['r'], Hear),
        ];
    }

    /// <inheritdoc/>
    public override string Title => "SECTION";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices { get; }

    /// <inheritdoc/>
    public override string Where => $"Section: {string.Join(", ", _report.Tones.Select(tone => Stand.Name(tone.Note)))}. Enter does {Choices[MarkedIndex].Label}.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => Lines();

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, $"{_report.Tones.Count} players", Tunings[_tuning]);
        int y = 2;
        foreach (string line in Lines())
        {
            if (y < canvas.Height - 2)
            {
                canvas.Write(0, y++, line);
            }
        }

        DrawPictures(canvas, y + 1, _report, Stand.NameNear);
        DrawMarkedLine(canvas, "Up Down other  n name tones  e tuning  r hear  Space tacet  Esc leave  h keys");
    }

    /// <summary>Where the partials of every two meet, as many pairs as the window holds: a class sees whose partials beat.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="y">First row.</param>
    /// <param name="report">The section.</param>
    /// <param name="noteName">Name of the note nearest to a frequency in Hz.</param>
    /// <param name="end">The row after the last one that may be used; null for all above the message.</param>
    internal static void DrawPictures(Canvas canvas, int y, SectionReport report, Func<double, string> noteName, int? end = null)
    {
        int last = end ?? canvas.Height - 2;
        foreach (SectionPair pair in report.Pairs)
        {
            if (y + PairPicture.Rows + 1 > last)
            {
                return;
            }

            SectionTone lower = report.Tones[pair.Lower - 1];
            SectionTone upper = report.Tones[pair.Upper - 1];
            PairScale scale = PairScale.For(canvas.Width, lower.FrequencyHz, upper.FrequencyHz);
            canvas.Rule(y);
            PairPicture.Draw(canvas, y + 1, scale, PairView.OfSilence(lower.FrequencyHz, upper.FrequencyHz, scale, []), noteName, $"{lower.Player}", $"{upper.Player}");
            y += PairPicture.Rows + 2;
        }
    }

    private string[] Lines() => SectionWords.Show(_report, Stand.Profile.A4Hz, Stand.Memory.Now.Naming).TrimEnd('\n').Split('\n');

    private void Hear()
    {
        if (Stand.Parts.CreateSection is not { } create)
        {
            Stand.Say("No tones were found to sound it with.");
            return;
        }

        SectionReport report = _report;
        Stand.Say(Stand.Desk.TryReplay(() => Rendered(create(report, true)))
            ? Stand.Heard("As entered; then they slide to where it stands still. Space is silence.")
            : "The sound is still opening; again in a moment.");
    }

    private SectionReport Reported() => SectionReport.Of(
        _tones, Tuning.TryParse(Tunings[_tuning], _tones[0].Note, out Tuning? tuning) ? tuning : Tuning.Equal, Stand.Profile.A4Hz);

    private void NextTuning()
    {
        _tuning = (_tuning + 1) % Tunings.Length;
        _report = Reported();
        Stand.Say(_tuning == 0 ? "Equal temperament." : $"{Tunings[_tuning]}, counted from player 1's {Stand.Name(_tones[0].Note)}.");
    }

    private void Train() => Stand.Open(new SectionTrialRoom(Stand, _report));

    /// <summary>A section's sound, whole.</summary>
    /// <param name="sound">The sound.</param>
    internal static (float[] Samples, int SampleRateHz) Rendered(SectionSound sound)
    {
        sound.Prepare(new RenderFormat(RateHz, BlockSamples));
        float[] samples = new float[(int)(sound.Seconds * RateHz) / BlockSamples * BlockSamples];
        for (int at = 0; at < samples.Length; at += BlockSamples)
        {
            sound.Render(samples.AsSpan(at, BlockSamples));
        }

        return (samples, RateHz);
    }

    private void AskTones() => Stand.Ask(new TextBox("two to five notes, as in Bb2 F3+6 D4-14:", text =>
    {
        string[] words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length is < SectionReport.Fewest or > SectionReport.Most)
        {
            return new TextFault($"A section here has {SectionReport.Fewest} to {SectionReport.Most} players; {words.Length} are named.");
        }

        List<(Pitch Note, double Cents)> tones = [];
        foreach (string word in words)
        {
            if (SectionCommand.Read(word) is not { } tone)
            {
                return new TextFault($"\"{word}\" is not a note with cents: write Bb2, F3+6 or D4-14, up to 100 cents.", text.IndexOf(word, StringComparison.Ordinal));
            }

            tones.Add(tone);
        }

        _tones = tones;
        _report = Reported();
        return null;
    }));
}
