using System.IO.Compression;
using System.Text;
using BrassVox.Practice.Passages;

namespace BrassVox.Publishing.Notation;

/// <summary>Packs a score as compressed MusicXML (.mxl); <see cref="PassageFile"/> reads it.</summary>
/// <remarks>Source: MusicXML 4.0, "Compressed .MXL files": a zip archive that begins with its media type, stored as it is, and whose META-INF/container.xml names the score.</remarks>
public static class CompressedScore
{
    private const string ScoreName = "score.musicxml";
    private const string MediaType = "application/vnd.recordare.musicxml";

    // The same score gives the same bytes; zip archives cannot tell an earlier time.
    private static readonly DateTimeOffset Written = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>The file's bytes.</summary>
    /// <param name="score">The score.</param>
    public static byte[] Write(Score score)
    {
        using var bytes = new MemoryStream();
        using (var archive = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(archive, "mimetype", Encoding.ASCII.GetBytes(MediaType), CompressionLevel.NoCompression);
            string container = $"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<container><rootfiles><rootfile full-path=\"{ScoreName}\" media-type=\"{MediaType}+xml\"/></rootfiles></container>\n";
            Add(archive, "META-INF/container.xml", Encoding.UTF8.GetBytes(container), CompressionLevel.SmallestSize);
            Add(archive, ScoreName, MusicXml.Write(score), CompressionLevel.SmallestSize);
        }

        return bytes.ToArray();
    }

    private static void Add(ZipArchive archive, string name, byte[] content, CompressionLevel level)
    {
        ZipArchiveEntry entry = archive.CreateEntry(name, level);
        entry.LastWriteTime = Written;
        using Stream stream = entry.Open();
        stream.Write(content);
    }
}
