using System.IO.Compression;
using System.Xml.Linq;

namespace BrassVox.Practice.Passages;

/// <summary>Takes the score out of a compressed MusicXML file (.mxl): a zip archive whose META-INF/container.xml names it.</summary>
/// <remarks>Source: MusicXML 4.0, W3C Community Group, "Compressed MusicXML files" [memory].</remarks>
internal static class CompressedMusicXml
{
    private const string Container = "META-INF/container.xml";

    public static byte[] Unpack(byte[] bytes)
    {
        using var archive = new ZipArchive(new MemoryStream(bytes, writable: false), ZipArchiveMode.Read);
        if (archive.GetEntry(Container) is null)
        {
            // Some programs leave it out: then the one score there is must be meant.
            ZipArchiveEntry[] scores = [.. archive.Entries.Where(entry => Path.GetExtension(entry.FullName).ToUpperInvariant() is ".XML" or ".MUSICXML")];
            return scores.Length == 1
                ? Bytes(archive, scores[0].FullName)
                : throw new PassageFault(0, 0, $"the compressed file has no {Container} and {scores.Length} scores; is it MusicXML?");
        }

        XDocument container = SafeXml.Load(Bytes(archive, Container));
        string path = container.Descendants()
            .Where(element => element.Name.LocalName == "rootfile")
            .Select(element => (string?)element.Attribute("full-path"))
            .FirstOrDefault(name => name is not null)
            ?? throw new PassageFault(0, 0, $"{Container} names no score.");
        return Bytes(archive, path);
    }

    // The length in the archive's directory may lie: what is unpacked is counted.
    private static byte[] Bytes(ZipArchive archive, string path)
    {
        ZipArchiveEntry entry = archive.GetEntry(path) ?? throw new PassageFault(0, 0, $"the compressed file has no {path}; is it MusicXML?");
        using Stream packed = entry.Open();
        using var bytes = new MemoryStream();
        byte[] block = new byte[65536];
        for (int read = packed.Read(block); read > 0; read = packed.Read(block))
        {
            if (bytes.Length + read > PassageFile.LargestBytes)
            {
                throw new PassageFault(0, 0, $"{path} unpacks to more than {PassageFile.LargestBytes / (1024 * 1024)} MB.");
            }

            bytes.Write(block, 0, read);
        }

        return bytes.ToArray();
    }
}
