using System.Diagnostics;
using System.Runtime.InteropServices;
using BrassVox.App.Cli;
using BrassVox.App.Tui.Plain;
using BrassVox.App.Tui.Rooms;
using BrassVox.App.Tui.Sound;
using BrassVox.App.Tui.Terminal;
using Terminal.Gui.App;

namespace BrassVox.App.Tui;

/// <summary>The screens on a terminal: opened, run, and left as it was found, however it ends.</summary>
internal static class TerminalApp
{
    private const int DrawsPerSecond = 25;
    private const ushort LoopsPerSecond = 100;
    private static readonly TimeSpan LongestKeeping = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan LongestLeaving = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan LongestFalling = TimeSpan.FromSeconds(3);

    /// <summary>Runs the screens until the player quits.</summary>
    /// <param name="setup">What they need.</param>
    /// <returns>The exit code.</returns>
    public static int Run(TuiSetup setup)
    {
        if (Console.IsInputRedirected || Console.IsOutputRedirected)
        {
            Console.Error.WriteLine("brassvox: the screens need a terminal for input and output; --help lists what works without one.");
            return ExitCode.NoTerminal;
        }

        if (!setup.Plain && TerminalKind.Obstacle(Environment.GetEnvironmentVariable, OperatingSystem.IsWindows()) is { } obstacle)
        {
            return Failure.Say(ExitCode.NoTerminal, obstacle);
        }

        // Opened now: when the trouble is that nothing can be opened any more, it would be too late.
        TextWriter errors = Console.Error;
        TerminalKind kind = TerminalKind.Of(Environment.GetEnvironmentVariable, OperatingSystem.IsWindows());
        bool ascii = setup.Ascii || kind.IsAscii;
        var desk = new Desk(setup.Audio);
        Memory memory = Memory.Load(setup.DataFolder);
        var stand = new MusicStand(new StandParts(
            desk, setup.Audio, memory, setup.CreateEngine, setup.CreateTracker, setup.Exercises, setup.DataFolder, TimeProvider.System, kind.NoColour)
        { CreateSection = setup.CreateSection });
        int exit = ExitCode.Done;
        try
        {
            exit = setup.Plain ? PlainApp.Run(stand, () => LeaveAtOnce(stand)) : Show(stand, ascii);
        }
        catch (Exception fault)
        {
            // The last guard: the terminal is restored already; the player gets one line, whoever mends it the rest.
            exit = ExitCode.InternalFault;
            errors.WriteLine($"brassvox: something broke in the screens: {fault.Message.Split('\n')[0].TrimEnd('.', '\r')}. {CrashNote.Write(setup.DataFolder, fault, TimeProvider.System)}");
        }

        TerminalModes.Restore();
        return Close(stand, exit, errors);
    }

    private static int Close(MusicStand stand, int exit, TextWriter errors)
    {
        try
        {
            IReadOnlyList<string> lost = stand.Close(LongestKeeping);
            stand.Desk.DisposeAsync().AsTask().Wait(LongestFalling);
            if (lost.Count > 0)
            {
                errors.WriteLine($"brassvox: not everything could be kept: {string.Join(" ", lost).ReplaceLineEndings(" ")}");
                return exit == ExitCode.Done ? ExitCode.CannotStore : exit;
            }
        }
        catch (Exception fault)
        {
            // The second of two faults at the most: the first is told already, and what is left is to end.
            errors.WriteLine($"brassvox: something broke while ending: {fault.Message.Split('\n')[0]}");
            return exit == ExitCode.Done ? ExitCode.InternalFault : exit;
        }

        return exit;
    }

    /// <summary>
    /// Ends without the library: the terminal is gone, or about to be, and the library would wait for keys from it for ever, even while
    /// the process ends.
    /// </summary>
    private static void LeaveAtOnce(MusicStand stand)
    {
        TerminalModes.Leave();
        int exit = Close(stand, ExitCode.HungUp, Console.Error);
        new Thread(() =>
        {
            Thread.Sleep(LongestLeaving);
            Process.GetCurrentProcess().Kill();
        })
        { IsBackground = true }.Start();
        Environment.Exit(exit);
    }

    private static int Show(MusicStand stand, bool ascii)
    {
        int signal = 0;
        using ManualResetEventSlim ended = new();
        using IApplication app = Application.Create();
        Application.MaximumIterationsPerSecond = LoopsPerSecond;
        app.Init();
        app.Mouse.IsMouseDisabled = true;
        using var view = new StandView(stand, ascii);
        view.Watch(app.Driver!);
        app.Paste += (_, paste) =>
        {
            view.Paste(paste.Text);
            paste.Handled = true;
        };
        view.Listen(app.Keyboard);
        void End(PosixSignalContext context, int code)
        {
            context.Cancel = true;
            signal = code;
            app.Invoke(() =>
            {
                stand.Desk.Tacet();
                app.RequestStop();
            });
        }

        using PosixSignalRegistration terminated = PosixSignalRegistration.Create(PosixSignal.SIGTERM, context => End(context, ExitCode.Terminated));
        using PosixSignalRegistration hungUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, context =>
        {
            End(context, ExitCode.HungUp);
            if (!ended.Wait(LongestLeaving))
            {
                LeaveAtOnce(stand);
            }
        });
        using PosixSignalRegistration quit = PosixSignalRegistration.Create(PosixSignal.SIGQUIT, context => End(context, ExitCode.Quit));
        using PosixSignalRegistration interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, context => End(context, ExitCode.Interrupted));
        long start = TimeProvider.System.GetTimestamp();
        app.AddTimeout(TimeSpan.FromSeconds(1.0 / DrawsPerSecond), () =>
        {
            stand.Tick(TimeProvider.System.GetElapsedTime(start).TotalSeconds);
            view.Refresh();
            if (stand.IsDone)
            {
                app.RequestStop();
            }

            return true;
        });
        try
        {
            app.Run(view);
        }
        catch (IOException)
        {
            // What a disk may do is caught in the rooms: this is the terminal, gone before its signal came.
            signal = ExitCode.HungUp;
        }
        finally
        {
            ended.Set();
            if (signal == ExitCode.HungUp)
            {
                LeaveAtOnce(stand);
            }
        }

        return signal != 0 ? signal : stand.WasInterrupted ? ExitCode.Interrupted : ExitCode.Done;
    }
}
