namespace BrassVox.Practice.Takes;

/// <summary>Where the program keeps what belongs to its user: takes, own exercises, settings. Nothing leaves the machine.</summary>
public static class DataFolder
{
    /// <summary>Environment variable that names another folder.</summary>
    public const string Variable = "BRASSVOX_DATA";

    private const string Name = "brassvox";

    /// <summary>The folder's path; it need not exist yet.</summary>
    /// <param name="given">A folder given by hand; null or empty takes the variable, then the system's place for user data.</param>
    /// <remarks>Source: XDG Base Directory Specification 0.8: XDG_DATA_HOME when it is an absolute path, else ~/.local/share. On Windows %LOCALAPPDATA%.</remarks>
    public static string Find(string? given = null) => Find(given, Environment.GetEnvironmentVariable, OperatingSystem.IsWindows());

    internal static string Find(string? given, Func<string, string?> variable, bool isWindows)
    {
        if (!string.IsNullOrEmpty(given))
        {
            return Path.GetFullPath(given);
        }

        if (variable(Variable) is { Length: > 0 } own)
        {
            return Path.GetFullPath(own);
        }

        if (isWindows)
        {
            return Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData), Name);
        }

        return variable("XDG_DATA_HOME") is { } xdg && Path.IsPathRooted(xdg)
            ? Path.Combine(xdg, Name)
            : Path.Combine(variable("HOME") ?? Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".local", "share", Name);
    }
}
