using System.Globalization;
using System.Text.Json;
using BrassVox.Audio.Wav;
using BrassVox.Practice.Files;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis.Files;

namespace BrassVox.Practice.Takes;

/// <summary>
/// The files of takes: a WAV file and a JSON file each, readable by their owner only. The sound is written first and the
/// record appears under its name in one step, so a take is there whole or not at all.
/// </summary>
/// <param name="folder">The folder; made when first written to.</param>
internal sealed class TakeFiles(string folder)
{
    private const string SoundSuffix = ".wav";
    private static readonly TimeSpan BeingWritten = TimeSpan.FromMinutes(1);

    /// <summary>The folder.</summary>
    public string Folder { get; } = folder;

    /// <summary>Ids of the records that are there.</summary>
    public IEnumerable<string> Ids() => Directory.Exists(Folder)
        ? Directory.EnumerateFiles(Folder, "*.json").Select(path => Path.GetFileNameWithoutExtension(path)).Order(StringComparer.Ordinal)
        : [];

    /// <summary>Sounds without a record that nobody has written to for a while: a full disk or a crash cut their takes short.</summary>
    public IEnumerable<string> SoundsAlone() => !Directory.Exists(Folder) ? [] : new[] { SoundSuffix, SoundSuffix + WavWriter.PartSuffix }
        .SelectMany(suffix => Directory.EnumerateFiles(Folder, "*" + suffix).Where(path => path.EndsWith(suffix, StringComparison.Ordinal)
            && !File.Exists(RecordPath(Path.GetFileName(path)[..^suffix.Length])) && IsAtRest(path)))
        .Order(StringComparer.Ordinal);

    // A file that went meanwhile was written in 1601.
    private static bool IsAtRest(string path) => File.GetLastWriteTimeUtc(path) is { Year: > 1601 } at && DateTime.UtcNow - at > BeingWritten;

    /// <summary>Path of a record.</summary>
    public string RecordPath(string id) => Path.Combine(Folder, Path.GetFileName(id) + ".json");

    /// <summary>Path of a sound.</summary>
    public string SoundPath(string soundFile) => Path.Combine(Folder, Path.GetFileName(soundFile));

    /// <summary>Makes the folder, its owner's alone.</summary>
    public void Make() => OwnerOnly.MakeFolder(Folder);

    /// <summary>An id that no file has, not even one that another instance is writing.</summary>
    public string FreeId(string id)
    {
        string free = id;
        for (int i = 2; File.Exists(RecordPath(free)) || File.Exists(SoundPath(free + ".wav")) || File.Exists(SoundPath(free + ".wav") + WavWriter.PartSuffix); i++)
        {
            free = string.Create(CultureInfo.InvariantCulture, $"{id}-{i}");
        }

        return free;
    }

    /// <summary>Reads a record.</summary>
    /// <param name="id">The take.</param>
    /// <returns>The record, or why it cannot be read.</returns>
    public (TakeRecord? Record, string? Problem) Read(string id)
    {
        string path = RecordPath(id);
        try
        {
            byte[] bytes = File.ReadAllBytes(path);
            TakeRecord? record = JsonSerializer.Deserialize(bytes, TakeJson.Default.TakeRecord);
            return JsonLines.NullInList(bytes) is null && record is { FormatVersion: >= 1 and <= TakeRecord.Version } && record.Id == Path.GetFileNameWithoutExtension(path)
                ? (record.Present(), null)
                : (null, $"{path}: not a take of this version.");
        }
        catch (JsonException fault)
        {
            return (null, PlainLine.Of($"{path}, line {(fault.LineNumber ?? 0) + 1}, at {fault.Path ?? "$"}: not a take of this version."));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return (null, $"{path}: {fault.Message}");
        }
    }

    /// <summary>Writes the sound of a take, down to the disk.</summary>
    /// <returns>Null, or why it could not be written.</returns>
    public static WavWriteFailure? WriteSound(RecordedTake recorded, string path)
    {
        if (!WavWriter.TryCreate(path, WavWriteOptions.ForTake(recorded.SampleRateHz, 1), out WavWriter? writer, out WavWriteFailure? failure))
        {
            return failure;
        }

        using (writer)
        {
            writer.Write(recorded.Samples);
            return writer.Finish().Failure;
        }
    }

    /// <summary>Writes a record, down to the disk, under its name in one step.</summary>
    public void WriteRecord(TakeRecord record) =>
        WholeFile.WriteForOwner(RecordPath(record.Id), file => JsonSerializer.Serialize(file, record, TakeJson.Default.TakeRecord));
}
