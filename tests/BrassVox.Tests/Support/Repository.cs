namespace BrassVox.Tests.Support;

/// <summary>Where the checkout lies, found upwards from the test assembly.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "BrassVox.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("BrassVox.sln was not found above the test assembly.");
    }
}
