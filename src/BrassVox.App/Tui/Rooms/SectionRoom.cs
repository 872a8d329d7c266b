using BrassVox.App.Cli;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Section;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Two to five players' tones: what beats, who moves to still it, heard as entered and then sliding to where it stands still.</summary>
internal sealed class SectionRoom : Room
{
    private const int RateHz = 48000;
    private const int BlockSamples = 480;
    private SectionReport _report;

    /// <summary>Opens with a tempered major chord; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public SectionRoom(MusicStand stand)
        : base(stand)
    {
        _report = SectionReport.Of([(Pitch.Parse("Bb2"), 0), (Pitch.Parse("F3"), 0), (Pitch.Parse("D4"), 0)], Tuning.Equal, stand.Profile.A4Hz);
        Choices = [new Choice("hear it, then slide to stillness", Hear), new Choice("name other tones", AskTones), new Choice("leave", stand.Back)];
        Keys = [new("n", "name the tones, one for each player", ['n'], AskTones), new("r", "hear it again", ['r'], Hear)];
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
        Stand.DrawHeader(canvas, $"{_report.Tones.Count} players", "equal");
        int y = 2;
        foreach (string line in Lines())
        {
            if (y < canvas.Height - 2)
            {
                canvas.Write(0, y++, line);
            }
        }

        DrawMarkedLine(canvas, "n name tones  r hear  Space tacet  Esc leave  h keys");
    }

    private string[] Lines() => SectionWords.Show(_report, Stand.Profile.A4Hz).TrimEnd('\n').Split('\n');

    private void Hear()
    {
        if (Stand.Parts.CreateSection is not { } create)
        {
            Stand.Say("No tones were found to sound it with.");
            return;
        }

        SectionReport report = _report;
        Stand.Say(Stand.Desk.TryReplay(() => Rendered(create(report)))
            ? "As entered; then they slide to where it stands still. Space is silence."
            : "The sound is still opening; again in a moment.");
    }

    private static (float[] Samples, int SampleRateHz) Rendered(SectionSound sound)
    {
        sound.Prepare(new RenderFormat(RateHz, BlockSamples));
        float[] samples = new float[(int)(sound.Seconds * RateHz) / BlockSamples * BlockSamples];
        for (int at = 0; at < samples.Length; at += BlockSamples)
        {
            sound.Render(samples.AsSpan(at, BlockSamples));
        }

        return (samples, RateHz);
    }

    private void AskTones() => Stand.Ask(new TextBox("two to five notes, cents beside them, as in Bb2 F3+6 D4-14:", text =>
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

        _report = SectionReport.Of(tones, Tuning.Equal, Stand.Profile.A4Hz);
        return null;
    }));
}
