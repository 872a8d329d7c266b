using System.Diagnostics;

namespace BrassVox.Tests.Support;

/// <summary>Runs the built program as a shell would.</summary>
internal static class CommandLine
{
    /// <summary>Runs brassvox with no terminal, in a culture, and waits for its end.</summary>
    /// <param name="arguments">Arguments.</param>
    /// <param name="environment">Environment variables set on top of the present ones.</param>
    /// <param name="input">What it reads on standard input.</param>
    public static CommandLineResult Run(IEnumerable<string> arguments, IReadOnlyDictionary<string, string>? environment = null, string input = "")
    {
        ProcessStartInfo start = new("dotnet")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "brassvox.dll"));
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        // Whoever runs the tests may have players and takes of their own; commands must not see them.
        start.Environment["BRASSVOX_DATA"] = Path.Combine(Path.GetTempPath(), "brassvox-tests-no-data");
        foreach ((string name, string value) in environment ?? new Dictionary<string, string>())
        {
            start.Environment[name] = value;
        }

        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> errors = process.StandardError.ReadToEndAsync();
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        process.WaitForExit();
        return new CommandLineResult(process.ExitCode, output.Result, errors.Result);
    }

    /// <summary>Runs brassvox with the words of one line.</summary>
    public static CommandLineResult Run(string line) => Run(line.Split(' '));
}

/// <summary>How a run ended.</summary>
internal sealed record CommandLineResult(int ExitCode, string Output, string Errors);
