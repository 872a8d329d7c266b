using System.Globalization;
using BrassVox.App.Tui.Input;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What every key does, in every room.</summary>
internal sealed partial class MusicStand
{
    private const double LevelStepDb = 3;
    private const string Themes = "dark light none";

    /// <summary>One key.</summary>
    /// <param name="press">The key.</param>
    public void Press(KeyPress press) => Guarded(() => PressUnguarded(press));

    private void PressUnguarded(KeyPress press)
    {
        if (press.Kind == PressKind.Interrupt)
        {
            WasInterrupted = true;
            Quit();
            return;
        }

        _message = "";
        if (press.Kind == PressKind.Suspend)
        {
            Silence();
            Say("Back from the shell. Tacet; Enter goes on.");
            return;
        }

        if (press.Kind == PressKind.Tacet || (press.Kind == PressKind.Space && !IsTyping))
        {
            Silence();
            return;
        }

        if (_box is { } box)
        {
            if (box.Press(press))
            {
                _box = null;
            }

            return;
        }

        if (Top.Page is { } page && press.Kind is not (PressKind.Escape or PressKind.Tab or PressKind.PageUp or PressKind.PageDown or PressKind.Help or PressKind.Undo or PressKind.Redo))
        {
            page.Press(press);
            return;
        }

        KeyPress command = press.AsCommand();
        char pressed = command.Letter;
        if (command.Kind == PressKind.Letter)
        {
            command = command with { Letter = Letterset.ToUsual(pressed) };
        }
        else if (Memory.Now.ArrowPedal)
        {
            command = command.Kind switch
            {
                PressKind.Left or PressKind.Up => PressKind.PageUp,
                PressKind.Right or PressKind.Down => PressKind.PageDown,
                _ => command,
            };
        }

        foreach (RoomKey key in Top.Keys)
        {
            if (key.Presses.Contains(command))
            {
                key.Do();
                return;
            }
        }

        Everywhere(command, pressed);
    }

    /// <summary>A text pasted into the terminal: typed as a whole where a page is open, key by key into a line, and refused where letters are commands.</summary>
    /// <param name="text">The text.</param>
    public void Paste(string text)
    {
        _message = "";
        if (_box is { } box)
        {
            foreach (char letter in text.Split('\n', '\r')[0])
            {
                box.Press(letter == ' ' ? PressKind.Space : letter);
            }
        }
        else if (Top.Page is { } page)
        {
            page.Paste(text);
        }
        else
        {
            Say("Nothing is being typed here: what was pasted is left out.");
        }
    }

    /// <summary>The keys that hold everywhere.</summary>
    public IReadOnlyList<RoomKey> KeysEverywhere =>
    [
        new("Enter, PgDn", "do what is marked", [PressKind.Enter, PressKind.PageDown], () => Top.DoMarked()),
        new("Space, ^T", "tacet: silence, at once", [PressKind.Space, PressKind.Tacet], Silence),
        new("PgUp", "tacet; when silent, mark the other choice", [PressKind.PageUp], BackPedal),
        new("Esc", "back one room", [PressKind.Escape], Back),
        new("Tab", "next choice, next part", [PressKind.Tab], () => MarkNext(1)),
        new("- +", "level, 3 dB a press", ['-', '+'], () => StepLevel(0)),
        new("0-9", "choose by number", [], () => Say("Digits choose where choices carry numbers.")),
        new("y", "body note", ['y'], OpenBody),
        new("w", "where am I, one line", ['w'], () => Say(Top.Where)),
        new("t", "theme: dark, light, none", ['t'], NextTheme),
        new("h, F1", "these keys", ['h', PressKind.Help], OpenKeys),
        new("q", "quit, from Start", ['q'], QuitFromStart),
    ];

    /// <summary>Steps the level and says it.</summary>
    /// <param name="steps">Steps of 3 dB, any sign.</param>
    public void StepLevel(int steps)
    {
        bool moved = Desk.StepLevel(steps * LevelStepDb, NowSeconds);
        Memory.Change(now => now with { LevelDb = Desk.LevelDb });
        Say(moved
            ? string.Create(CultureInfo.InvariantCulture, $"Level {Desk.LevelDb:0} dB.")
            : string.Create(CultureInfo.InvariantCulture, $"Level {Desk.LevelDb:0} dB: it rises by 6 dB a second at most. Press again in a moment."));
    }

    private void Everywhere(KeyPress command, char pressed)
    {
        if (command is { Kind: PressKind.Letter, Letter: '-' or '+' })
        {
            StepLevel(command.Letter == '-' ? -1 : 1);
            return;
        }

        if (command is { Kind: PressKind.Letter, Letter: >= '0' and <= '9' })
        {
            if (!Top.Digit(command.Letter - '0'))
            {
                Say($"Nothing here carries the number {command.Letter}.");
            }

            return;
        }

        if (command.Kind is PressKind.Up or PressKind.Left)
        {
            MarkNext(-1);
            return;
        }

        if (command.Kind is PressKind.Down or PressKind.Right)
        {
            MarkNext(1);
            return;
        }

        foreach (RoomKey key in KeysEverywhere)
        {
            if (key.Presses.Contains(command))
            {
                key.Do();
                return;
            }
        }

        if (command.Kind == PressKind.Letter)
        {
            // Names the letters as they are pressed: not to be put into the player's letters once more.
            _message = Letters.WhyNot(pressed, command.Letter, Letterset.ToOwn('h'));
            _saidAt = NowSeconds;
            _newsFrom = NowSeconds + ReadingSeconds;
        }
        else
        {
            Say("That key does nothing here; h lists the keys.");
        }
    }

    private void Silence()
    {
        Desk.Tacet();
        Top.Silenced();
        if (Top.IsOverlay)
        {
            _rooms.ElementAt(1).Silenced();
        }
    }

    private void BackPedal()
    {
        if (Desk.IsSounding)
        {
            Silence();
        }
        else
        {
            MarkNext(Top.BackPedalStep);
        }
    }

    private void MarkNext(int step)
    {
        if (Top.Choices.Count == 1)
        {
            Say($"There is one choice here: {Top.Choices[0].Label}.");
        }

        Top.MarkNext(step);
    }

    private void NextTheme()
    {
        if (Parts.NoColour)
        {
            Say("NO_COLOR is set: there is one theme, none.");
            return;
        }

        string[] themes = Themes.Split(' ');
        string next = themes[(Array.IndexOf(themes, Memory.Now.Theme) + 1) % themes.Length];
        Memory.Change(now => now with { Theme = next });
        Say($"Theme {next}. {(next == "light" ? "Reads better in a lit hall." : "")}".TrimEnd());
    }

    private void OpenBody()
    {
        if (Top is BodyRoom)
        {
            Back();
            return;
        }

        Open(new BodyRoom(this, Top.NotedTake));
    }

    private void OpenKeys()
    {
        if (Top is KeysRoom)
        {
            Back();
        }
        else
        {
            Open(new KeysRoom(this, Top));
        }
    }

    private void QuitFromStart()
    {
        if (_rooms.Count == 1)
        {
            Quit();
        }
        else
        {
            Say("q quits from Start; Esc goes back one room.");
        }
    }
}
