using BrassVox.Audio.Wav;

namespace BrassVox.App.Cli;

/// <summary>A WAV file that a command was given: read, its notes said, or the reason why not.</summary>
internal static class WavInput
{
    /// <summary>Reads a file; what can be said of it goes to standard error.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The sound; null when it cannot be used, which has been said and is <see cref="ExitCode.UnusableInput"/>.</returns>
    public static WavSound? Read(string path)
    {
        switch (WavReader.Read(path))
        {
            case WavFailure failure:
                Failure.Say(ExitCode.UnusableInput, failure.Message);
                return null;
            case WavSound sound:
                foreach (string note in sound.Notes)
                {
                    Console.Error.WriteLine($"brassvox: {path}: {note}");
                }

                return sound;
            default:
                throw new InvalidOperationException("A WAV reading is a sound or a failure.");
        }
    }
}
