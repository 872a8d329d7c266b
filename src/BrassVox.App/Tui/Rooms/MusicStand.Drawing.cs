using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What every screen shows: the header, the message line, a line being typed, the wish for a larger window.</summary>
internal sealed partial class MusicStand
{
    private const int WideGap = 3;
    private const int NarrowGap = 2;
    private const int LongestMessageRows = 3;

    /// <summary>Draws the room on top, or the wish for a larger window.</summary>
    /// <param name="canvas">Where; cleared first.</param>
    public void Draw(Canvas canvas)
    {
        canvas.Clear();
        if (canvas.Width < LeastWidth || canvas.Height < LeastHeight)
        {
            DrawTooSmall(canvas);
            return;
        }

        Top.Draw(canvas);
        if (_box is { } box)
        {
            DrawBox(canvas, box);
        }
        else if (_message.Length > 0)
        {
            DrawMessage(canvas, _message);
        }
    }

    /// <summary>Whether the header has room for all of its parts.</summary>
    /// <param name="canvas">Where it is drawn.</param>
    /// <param name="parts">What would stand after the room's name.</param>
    /// <param name="gap">Columns between two of them.</param>
    public bool HeaderHolds(Canvas canvas, ReadOnlySpan<string> parts, int gap = NarrowGap)
    {
        int width = Heading.Length;
        foreach (string part in parts)
        {
            width += part.Length > 0 ? gap + part.Length : 0;
        }

        return width < canvas.Width - SoundState().Length - 1;
    }

    /// <summary>Draws the first row and the rule below it. What no longer fits is left out, from the end.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="parts">What stands after the room's name, the most needed first.</param>
    public void DrawHeader(Canvas canvas, params ReadOnlySpan<string> parts)
    {
        DrawTitleRow(canvas, parts);
        canvas.Rule(1);
    }

    /// <summary>Draws the first row alone. What no longer fits is left out, from the end.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="parts">What stands after the room's name, the most needed first.</param>
    public void DrawTitleRow(Canvas canvas, params ReadOnlySpan<string> parts)
    {
        string sound = SoundState();
        int gap = HeaderHolds(canvas, parts, WideGap) ? WideGap : NarrowGap;
        int x = canvas.Write(0, 0, Heading) + gap;
        foreach (string part in parts)
        {
            if (part.Length > 0 && x + part.Length < canvas.Width - sound.Length - 1)
            {
                x = canvas.Write(x, 0, part) + gap;
            }
        }

        canvas.WriteRight(canvas.Width - 1, 0, sound);
    }

    /// <summary>Draws the state of the sound and nothing else.</summary>
    /// <param name="canvas">Where.</param>
    public void DrawSoundState(Canvas canvas) => canvas.WriteRight(canvas.Width - 1, 0, SoundState());

    /// <summary>The room's name; where all takes are invented it says so in every room.</summary>
    private string Heading => IsSimulated ? $"{Top.Title}  SIMULATED" : Top.Title;

    private string SoundState()
    {
        string level = string.Create(CultureInfo.InvariantCulture, $"{Desk.LevelDb:0} dB");
        if (Desk is { HasDevice: false, IsOpening: false })
        {
            return $"no sound  {level}";
        }

        if (!Desk.IsSounding)
        {
            return $"tacet  {level}";
        }

        int bars = Math.Clamp((int)Math.Round((Desk.LevelDb + 48) / 6), 0, 6);
        string raised = Desk.OctavesUp switch
        {
            0 => "",
            1 => "8va  ",
            2 => "15ma  ",
            _ => "22ma  ",
        };
        return $"{new string(')', bars)}{new string(Glyphs.Asked, 6 - bars)}  {raised}{level}";
    }

    private void DrawTooSmall(Canvas canvas)
    {
        string wanted = string.Create(CultureInfo.InvariantCulture, $"BrassVox wants {LeastWidth}x{LeastHeight}; this is {canvas.Width}x{canvas.Height}.");
        int y = canvas.Paragraph(0, 0, canvas.Width, wanted);
        y = canvas.Paragraph(0, y, canvas.Width, SoundState());
        canvas.Paragraph(0, y, canvas.Width, "Space: tacet");
    }

    /// <summary>The message ends above the key line; a long one takes rows above it.</summary>
    private static void DrawMessage(Canvas canvas, string message)
    {
        var lines = new Canvas(canvas.Width, LongestMessageRows);
        int rows = Math.Min(LongestMessageRows, lines.Paragraph(0, 0, canvas.Width, message));
        for (int y = 0; y < rows; y++)
        {
            for (int x = 0; x < canvas.Width; x++)
            {
                canvas.Put(x, canvas.Height - 1 - rows + y, lines[x, y].Glyph);
            }
        }
    }

    private static void DrawBox(Canvas canvas, TextBox box)
    {
        int y = canvas.Height - 2;
        canvas.Fill(0, y - 1, canvas.Width, ' ', Ink.Text);
        canvas.Fill(0, y, canvas.Width, ' ', Ink.Text);
        canvas.Fill(0, y + 1, canvas.Width, ' ', Ink.Text);
        canvas.Write(0, y - 1, box.Fault ?? "");
        int x = canvas.Write(0, y, box.Label) + 1;
        string text = box.Text;
        canvas.Write(x, y, text);
        canvas.Put(x + box.Caret, y, box.Caret < text.Length ? text[box.Caret] : '_', Ink.Marked);
        if (box.Fault is not null)
        {
            canvas.Put(x + box.Caret, y + 1, Glyphs.Place);
        }

        canvas.Write(Math.Max(x + box.Caret + 2, 0), y + 1, "Enter takes it   Esc leaves it   ^T tacet", Ink.Quiet);
    }
}
