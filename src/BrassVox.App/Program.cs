using System.CommandLine;
using System.CommandLine.Parsing;
using System.ComponentModel;
using System.Globalization;
using System.Text;
using BrassVox.App.Cli;
using BrassVox.Audio;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;

namespace BrassVox.App;

/// <summary>Wires the program by hand: commands, sound system, folders.</summary>
internal static class Program
{
    private static int Main(string[] arguments)
    {
        // All that is read and written is the same in every language; and a locale that is none would end the runtime itself.
        CultureInfo.CurrentCulture = CultureInfo.CurrentUICulture = CultureInfo.InvariantCulture;
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.InvariantCulture;
        try
        {
            return Begun(arguments);
        }
        catch (Exception error)
        {
            return Failure.Say(ExitCode.InternalFault, $"it cannot begin: {error.Message} Are there too few file handles (ulimit -n) or too little memory?");
        }
    }

    private static int Begun(string[] arguments)
    {
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        string presets = Path.Combine(AppContext.BaseDirectory, "presets");
        if (!Directory.Exists(presets))
        {
            return Failure.Say(ExitCode.UnusableInput, $"its presets are not beside it: there is no folder {presets}. Put the folder presets that came with the program back there.");
        }

        return Answer(Root().Parse(arguments));
    }

    /// <summary>Every command and option there is.</summary>
    internal static RootCommand Root()
    {
        string presets = Path.Combine(AppContext.BaseDirectory, "presets");
        AudioSystem audio = new();
        TonePresets Tones() => TonePresets.Load(Path.Combine(presets, "tones"));
        IReadOnlyList<BrassBore> Bores() => BrassBoreFiles.LoadAll(Path.Combine(presets, "bores"));
        RootCommand root = new("Hear, understand, measure and practise two pitches at once on a brass instrument: one played, one sung.")
        {
            ResultantsCommand.Build(),
            RenderCommand.Build(Tones, Bores),
            MeasureCommand.Build(),
            PictureCommand.Build(Tones),
            NotationCommand.Build(),
            ExerciseCommand.Build(audio, Tones),
            SceneCommand.Build(),
            PassageCommand.Build(audio, Tones),
            SectionCommand.Build(audio, Tones),
            TracksCommand.Build(Tones),
            HandoutCommand.Build(Tones),
            ClassCommand.Build(Tones),
            DevicesCommand.Build(audio),
            DelayCommand.Build(audio),
            TakesCommand.Build(),
            PlanCommand.Build(),
            ProfileCommand.Build(),
            DemoCommand.Build(),
            CompletionCommand.Build(),
            ManualCommand.Build(Root),
        };
        ScreensCommand.AddTo(root, audio, Tones, Bores);
        HelpWithExamples.AddTo(root);
        return root;
    }

    /// <summary>Does what a command line asks, or says in one line why not.</summary>
    /// <param name="parsed">The command line.</param>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    internal static int Answer(ParseResult parsed)
    {
        if (parsed.Errors.Count > 0)
        {
            foreach (ParseError error in parsed.Errors)
            {
                Failure.Say(ExitCode.BadCommandLine, error.Message);
            }

            return Failure.Say(ExitCode.BadCommandLine, "--help, alone or after a command, lists what can be asked.");
        }

        if (parsed.Tokens.Count(token => token.Type == TokenType.Directive) > 1)
        {
            return Failure.Say(ExitCode.BadCommandLine, "a word in square brackets, which completion asks with, stands there twice; one at a time is answered.");
        }

        try
        {
            return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (BadCommandLineException error)
        {
            return Failure.Say(ExitCode.BadCommandLine, error.Message);
        }
        catch (InvalidDataException error)
        {
            return Failure.Say(ExitCode.UnusableInput, error.Message);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return Failure.Say(ExitCode.CannotStore, $"{error.Message.TrimEnd('.')}. Check that the place exists, has room, and may be written.");
        }
        catch (Win32Exception error)
        {
            return Failure.Say(ExitCode.InternalFault, $"the system refuses: {error.Message.TrimEnd('.')}. Are there too few file handles (ulimit -n)?");
        }
        catch (Exception error)
        {
            // A fault of the program itself: one line, never a stack trace on a music stand.
            return Failure.Say(ExitCode.InternalFault, $"this is a fault of the program, not yours: {error.GetType().Name}: {error.Message}");
        }
    }
}
