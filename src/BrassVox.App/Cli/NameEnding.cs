using System.CommandLine;

namespace BrassVox.App.Cli;

/// <summary>What a file's name has to end in, asked before anything is read or sounded: a file whose name says another kind than it holds opens nowhere.</summary>
internal static class NameEnding
{
    /// <summary>A sound that is written as one file.</summary>
    public const string Sound = ".wav";

    /// <summary>Refuses a name of another ending, or of none, with <see cref="ExitCode.BadCommandLine"/>; capitals count as small letters.</summary>
    /// <param name="option">The option that takes the name.</param>
    /// <param name="what">What is written, with its article: a picture.</param>
    /// <param name="endings">Each with its full stop; at least one.</param>
    public static Option<T> EndingIn<T>(this Option<T> option, string what, params string[] endings)
    {
        option.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var path }] && !endings.Any(ending => path.EndsWith(ending, StringComparison.OrdinalIgnoreCase)))
            {
                result.AddError($"{option.Name} {path}: {what} is {string.Join(" or ", endings)}; end its name so.");
            }
        });
        return option;
    }
}
