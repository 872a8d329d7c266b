using BrassVox.Analysis;
using BrassVox.App;
using BrassVox.App.Tui;
using BrassVox.Audio;
using BrassVox.Practice.Exercises;
using BrassVox.Synthesis;

namespace BrassVox.Benchmarks.Crash;

/// <summary>
/// <c>crash FOLDER TRIGGER [--plain]</c>: the program's own screens with its own engine, until the file TRIGGER is there: then the next
/// look at a level throws on the screen's thread. Whoever calls it sees from outside what is left of terminal and sound.
/// </summary>
internal static class CrashHost
{
    /// <summary>Runs the screens.</summary>
    /// <param name="arguments">Data folder, path of the trigger, perhaps --plain.</param>
    /// <returns>The exit code of the screens.</returns>
    public static int Run(string[] arguments)
    {
        if (arguments.Length < 2)
        {
            Console.Error.WriteLine("crash FOLDER TRIGGER [--plain]");
            return 2;
        }

        TonePresets tones = TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones"));
        return TerminalApp.Run(new TuiSetup(
            new AudioSystem(),
            profile => new FailingEngine(PlayerTones.Engine(tones, profile), arguments[1]),
            (sampleRateHz, prior) => new DuetTracker(sampleRateHz, prior),
            ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(arguments[0], "exercises")),
            arguments[0],
            Plain: arguments.Contains("--plain")));
    }
}
