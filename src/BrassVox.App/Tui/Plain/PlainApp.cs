using System.Runtime.InteropServices;
using BrassVox.App.Cli;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Rooms;

namespace BrassVox.App.Tui.Plain;

/// <summary>The screens as lines, for a screen reader: the same keys, nothing redrawn.</summary>
internal static class PlainApp
{
    private const int RestMs = 10;
    private const int LongestLeavingMs = 500;
    private const double TickSeconds = 0.04;

    /// <summary>Runs until the player quits.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="leave">Closes the stand and ends the program: for a terminal that is gone while a key is being waited for.</param>
    /// <returns>The exit code.</returns>
    public static int Run(MusicStand stand, Action leave)
    {
        int signal = 0;
        using ManualResetEventSlim ended = new();
        Console.TreatControlCAsInput = true;
        void End(PosixSignalContext context, int code)
        {
            context.Cancel = true;
            Volatile.Write(ref signal, code);
        }

        using PosixSignalRegistration terminated = PosixSignalRegistration.Create(PosixSignal.SIGTERM, context => End(context, ExitCode.Terminated));
        using PosixSignalRegistration hungUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, context =>
        {
            End(context, ExitCode.HungUp);
            if (!ended.Wait(LongestLeavingMs))
            {
                // .NET reads a terminal that is gone over and over, and does not come back from it.
                leave();
            }
        });
        using PosixSignalRegistration interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, context => End(context, ExitCode.Interrupted));
        using PosixSignalRegistration quit = PosixSignalRegistration.Create(PosixSignal.SIGQUIT, context => End(context, ExitCode.Quit));
        long start = TimeProvider.System.GetTimestamp();
        var teller = new PlainTeller(stand);
        try
        {
            Follow(stand, teller, start, () => Volatile.Read(ref signal) != 0);
        }
        catch (IOException)
        {
            // Lines have nowhere to go any more: the terminal is gone before its signal came.
            Volatile.Write(ref signal, ExitCode.HungUp);
        }
        finally
        {
            ended.Set();
            LeaveKeys();
        }

        return signal != 0 ? signal : stand.WasInterrupted ? ExitCode.Interrupted : ExitCode.Done;
    }

    private static void LeaveKeys()
    {
        try
        {
            Console.TreatControlCAsInput = false;
        }
        catch (IOException)
        {
            // The terminal is gone, and its modes with it.
        }
    }

    private static void Follow(MusicStand stand, PlainTeller teller, long start, Func<bool> isOver)
    {
        double ticked = 0;
        while (!stand.IsDone && !isOver())
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
                ConsoleKey.U => PressKind.Undo,
                ConsoleKey.R => PressKind.Redo,
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
