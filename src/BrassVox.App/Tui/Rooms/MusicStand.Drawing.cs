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

    /// <summary>Whether anything is heard, as a sentence: what is asked for is not heard without a device.</summary>
    public string SoundingWords => !Desk.IsSounding ? "Tacet." : Desk.HasDevice ? "Sounding." : Desk.IsOpening ? "Opening the sound." : "No sound device: nothing is heard.";

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

    /// <summary>A line being typed, what is wrong with it above, its keys below: on the side of the caret where they fit.</summary>
    private static void DrawBox(Canvas canvas, TextBox box)
    {
        const string Keys = "Enter takes it   Esc leaves it   ^T tacet";
        int y = canvas.Height - 2;
        int rows = Math.Clamp(Canvas.RowsOf(canvas.Width, box.Fault ?? ""), 1, LongestMessageRows);
        for (int row = y - rows; row <= y + 1; row++)
        {
            canvas.Fill(0, row, canvas.Width, ' ', Ink.Text);
        }

        canvas.Fitted(0, y - rows, canvas.Width, rows, box.Fault ?? "");
        int x = canvas.Write(0, y, box.Label) + 1;
        (string shown, int caret) = box.Shown(canvas.Width - x, Glyphs.More);
        canvas.Write(x, y, shown);
        canvas.Put(x + caret, y, caret < shown.Length ? shown[caret] : '_', Ink.Marked);
        int place = x + caret;
        if (box.Fault is not null)
        {
            canvas.Put(place, y + 1, Glyphs.Place);
        }

        int keys = place + 2 + Keys.Length <= canvas.Width ? place + 2 : Math.Max(0, place - 2 - Keys.Length);
        canvas.Write(keys, y + 1, Keys, Ink.Quiet);
    }

    /// <summary>Rows at the bottom that a message takes now, the key line left out; at least 1.</summary>
    /// <param name="width">Columns of the window.</param>
    public int MessageRows(int width) => Math.Clamp(Canvas.RowsOf(width, _message), 1, LongestMessageRows);
}
