using System.CommandLine;
using BrassVox.Analysis;
using BrassVox.App.Tui;
using BrassVox.Audio;
using BrassVox.Audio.Wav;
using BrassVox.Practice.Demo;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Section;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox</c> without a command: the screens.</summary>
internal static class ScreensCommand
{
    /// <summary>Gives the root command its action and options.</summary>
    /// <param name="root">The root command.</param>
    /// <param name="audio">The machine's sound.</param>
    /// <param name="loadTones">Loads the tones.</param>
    /// <param name="loadBores">Loads the bores of the living system.</param>
    public static void AddTo(RootCommand root, IAudioSystem audio, Func<TonePresets> loadTones, Func<IReadOnlyList<BrassBore>> loadBores)
    {
        Option<bool> ascii = new("--ascii") { Description = "Screens without any sign beyond plain ASCII (found out by itself unless given)" };
        Option<bool> living = new("--living") { Description = "Sound everything by simulated lips on an air column: it slots, cracks, and the voice catches it near unison and octave" };
        Option<bool> plain = new("--plain") { Description = "Lines instead of screens, for a screen reader; the same keys" };
        root.Options.Add(ascii);
        root.Options.Add(living);
        Option<bool> demo = new("--demo") { Description = "The invented ensemble instead of your own takes: every screen has something to show" };
        root.Options.Add(plain);
        root.Options.Add(demo);
        root.SetAction(arguments =>
        {
            TonePresets tones = loadTones();
            IReadOnlyList<BrassBore>? bores = arguments.GetValue(living) ? loadBores() : null;
            string data = DataFolder.Find();
            if (arguments.GetValue(demo))
            {
                data = Path.Combine(data, WhereOptions.DemoFolder);
                if (!DemoEnsemble.IsMarked(data))
                {
                    Console.Error.WriteLine("brassvox: inventing six weeks of an ensemble; this takes a moment, once.");
                    DemoCommand.Ensemble(data, DemoCommand.UsualSeed).Fill();
                }
            }

            UnfinishedTakes.Finish(new TakeStore(data, TimeProvider.System).Folder);
            return TerminalApp.Run(new TuiSetup(
                audio,
                profile => bores is null ? PlayerTones.Engine(tones, profile) : PlayerTones.LivingEngine(tones, bores, profile),
                (sampleRateHz, prior) => new DuetTracker(sampleRateHz, prior),
                ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(data, "exercises")),
                data,
                arguments.GetValue(ascii),
                arguments.GetValue(plain))
            { CreateSection = (report, slides) => new SectionSound(tones, report, holdSeconds: 4, slides) });
        });
    }
}
