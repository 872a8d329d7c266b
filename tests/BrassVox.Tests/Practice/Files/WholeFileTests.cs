using BrassVox.Practice.Files;
using Xunit;

namespace BrassVox.Tests.Practice.Files;

/// <summary>A file is whole or not there, and what is a player's own is readable by its owner only.</summary>
public sealed class WholeFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-whole-").FullName;

    private string FilePath => Path.Combine(_folder, "kept.json");

    [Fact]
    public void Writing_that_fails_half_way_leaves_the_older_file_and_nothing_beside_it()
    {
        File.WriteAllText(FilePath, "older");
        Assert.Throws<IOException>(() => WholeFile.Write(FilePath, file =>
        {
            file.Write("new"u8);
            throw new IOException("the disk is full");
        }));
        Assert.Equal("older", File.ReadAllText(FilePath));
        Assert.Equal([FilePath], Directory.EnumerateFileSystemEntries(_folder));
    }

    [Fact]
    public void A_place_that_cannot_be_taken_leaves_nothing_beside_it()
    {
        Directory.CreateDirectory(FilePath);
        Exception? refused = Record.Exception(() => WholeFile.Write(FilePath, file => file.Write("new"u8)));
        Assert.True(refused is IOException or UnauthorizedAccessException, $"{refused}");
        Assert.Equal([FilePath], Directory.EnumerateFileSystemEntries(_folder));
    }

    /// <summary>The part beside it is the program's own business; errno 28 is ENOSPC (POSIX).</summary>
    [Fact]
    public void What_is_said_names_the_file_that_was_asked_for()
    {
        string elsewhere = Path.Combine(_folder, "none", "kept.json");
        Assert.Equal($"the folder of {elsewhere} is not there", Assert.Throws<DirectoryNotFoundException>(() => WholeFile.Write(elsewhere, file => file.Write("new"u8))).Message);
        Assert.Equal($"the disk is full; {FilePath} is not written", Assert.Throws<IOException>(() => WholeFile.Write(FilePath, _ => throw new IOException("no room", 28))).Message);
        WholeFile.Write(FilePath, file =>
        {
            file.Write("first"u8);
            Assert.Equal($"another command is writing {FilePath} just now", Assert.Throws<IOException>(() => WholeFile.Write(FilePath, other => other.Write("second"u8))).Message);
        });
        Assert.Equal("first", File.ReadAllText(FilePath));
    }

    [Fact]
    public void A_device_is_refused_and_stays()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "needs /dev/full, a Linux device that is always full");
        string link = Path.Combine(_folder, "device");
        File.CreateSymbolicLink(link, "/dev/full");
        Assert.Contains($"{link} is no plain file", Assert.Throws<IOException>(() => WholeFile.Write(link, file => file.Write("new"u8))).Message, StringComparison.Ordinal);
        Assert.Equal("/dev/full", new FileInfo(link).LinkTarget);
        Assert.Equal([link], Directory.EnumerateFileSystemEntries(_folder));
    }

    [Fact]
    public void A_newer_file_takes_the_place_of_the_older()
    {
        File.WriteAllText(FilePath, "older and longer");
        WholeFile.Write(FilePath, file => file.Write("new"u8));
        Assert.Equal("new", File.ReadAllText(FilePath));
        Assert.Equal([FilePath], Directory.EnumerateFileSystemEntries(_folder));
    }

    [Fact]
    public void What_is_the_owners_is_closed_to_others_even_where_an_open_file_was()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has other rights.");
        File.WriteAllText(FilePath, "older");
#pragma warning disable CA1416 // Skipped on Windows above.
        File.SetUnixFileMode(FilePath, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.OtherRead);
        WholeFile.WriteForOwner(FilePath, file => file.Write("new"u8));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(FilePath));

        string folder = Path.Combine(_folder, "players");
        OwnerOnly.MakeFolder(folder);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(folder));
#pragma warning restore CA1416
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
