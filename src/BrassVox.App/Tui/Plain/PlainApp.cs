using System.Runtime.InteropServices;
using BrassVox.App.Cli;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Rooms;

namespace BrassVox.App.Tui.Plain;

/// <summary>The screens as lines, for a screen reader: the same keys, nothing redrawn.</summary>
internal static class PlainApp
{
    private const int RestMs = 10;
    private const double TickSeconds = 0.04;

    /// <summary>Runs until the player quits.</summary>
    /// <param name="stand">The stand.</param>
    /// <returns>The exit code.</returns>
    public static int Run(MusicStand stand)
    {
        int signal = 0;
        Console.TreatControlCAsInput = true;
        using PosixSignalRegistration terminated = PosixSignalRegistration.Create(PosixSignal.SIGTERM, context =>
        {
            context.Cancel = true;
            Volatile.Write(ref signal, ExitCode.Terminated);
        });
        long start = TimeProvider.System.GetTimestamp();
        double ticked = 0;
        var teller = new PlainTeller(stand);
        while (!stand.IsDone && Volatile.Read(ref signal) == 0)
        {
            while (Console.KeyAvailable && !stand.IsDone)
            {
                if (PressOf(Console.ReadKey(intercept: true)) is { } press)
                {
                    stand.Press(press);
                    Print(teller);
                }
            }

            double now = TimeProvider.System.GetElapsedTime(start).TotalSeconds;
            if (now - ticked >= TickSeconds)
            {
                ticked = now;
                stand.Tick(now);
                Print(teller);
            }

            Thread.Sleep(RestMs);
        }

        Console.TreatControlCAsInput = false;
        return signal != 0 ? signal : stand.WasInterrupted ? ExitCode.Interrupted : ExitCode.Done;
    }

    private static void Print(PlainTeller teller)
    {
        foreach (string line in teller.Tell())
        {
            Console.WriteLine(line);
        }
    }

    private static KeyPress? PressOf(ConsoleKeyInfo key)
    {
        if (key.Modifiers.HasFlag(ConsoleModifiers.Control))
        {
            return key.Key switch
            {
                ConsoleKey.T => PressKind.Tacet,
                ConsoleKey.C => PressKind.Interrupt,
                _ => null,
            };
        }

        return key.Key switch
        {
            ConsoleKey.Enter => PressKind.Enter,
            ConsoleKey.Spacebar => PressKind.Space,
            ConsoleKey.Escape => PressKind.Escape,
            ConsoleKey.Tab => PressKind.Tab,
            ConsoleKey.Backspace => PressKind.Backspace,
            ConsoleKey.Delete => PressKind.Delete,
            ConsoleKey.LeftArrow => PressKind.Left,
            ConsoleKey.RightArrow => PressKind.Right,
            ConsoleKey.UpArrow => PressKind.Up,
            ConsoleKey.DownArrow => PressKind.Down,
            ConsoleKey.Home => PressKind.Home,
            ConsoleKey.End => PressKind.End,
            ConsoleKey.PageUp => PressKind.PageUp,
            ConsoleKey.PageDown => PressKind.PageDown,
            ConsoleKey.F1 => PressKind.Help,
            _ => key.KeyChar > ' ' ? (KeyPress)key.KeyChar : null,
        };
    }
}
