namespace BrassVox.Tests.Audio;

/// <summary>A folder of its own for one test, with a space and an umlaut in its name, deleted afterwards.</summary>
/// <param name="prefix">How its name begins; give another where a foreign library cannot read such names.</param>
internal sealed class TestFolder(string prefix = "brassvox übung ") : IDisposable
{
    internal string Path { get; } = Directory.CreateTempSubdirectory(prefix).FullName;

    internal string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
