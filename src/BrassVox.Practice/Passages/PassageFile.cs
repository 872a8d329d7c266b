using System.Text;
using System.Xml;

namespace BrassVox.Practice.Passages;

/// <summary>Reads a passage from a file: our own text, MusicXML (plain or compressed), or a Standard MIDI File. The contents say which, not the name.</summary>
public static class PassageFile
{
    /// <summary>Largest file read, in bytes.</summary>
    public const int LargestBytes = 16 * 1024 * 1024;

    /// <summary>Where shipped passages lie.</summary>
    public static string ShippedFolder { get; } = Path.Combine(AppContext.BaseDirectory, "presets", "passages");

    /// <summary>Reads a file. Expected failures come back as a problem.</summary>
    /// <param name="path">The file.</param>
    /// <param name="voices">Which voices of a score are meant; null lets the reader find them.</param>
    public static PassageLoad Read(string path, VoiceNames? voices = null)
    {
        try
        {
            // Unlike FileInfo this takes any text, also none.
            if (!File.Exists(path))
            {
                return Fail(path, 0, 0, "there is no such file.");
            }

            var file = new FileInfo(path);
            return file.Length > LargestBytes
                ? Fail(path, 0, 0, $"the file is larger than {LargestBytes / (1024 * 1024)} MB; a passage is a page, not a library.")
                : Parse(File.ReadAllBytes(path), Path.GetFileName(path), voices);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return Fail(path, 0, 0, $"it cannot be read: {error.Message}");
        }
    }

    /// <summary>Reads a file's bytes.</summary>
    /// <param name="bytes">The whole file.</param>
    /// <param name="name">Its name, for problems and as a title where it holds none.</param>
    /// <param name="voices">Which voices of a score are meant; null lets the reader find them.</param>
    public static PassageLoad Parse(byte[] bytes, string name, VoiceNames? voices = null)
    {
        try
        {
            Passage passage = Form(bytes) switch
            {
                "midi" => MidiPassage.Read(bytes, voices),
                "mxl" => MusicXmlPassage.Read(CompressedMusicXml.Unpack(bytes), voices),
                "xml" => MusicXmlPassage.Read(bytes, voices),
                _ => PassageText.Parse(Text(bytes)),
            };
            if (passage.Played.Count + passage.Sung.Count == 0)
            {
                return Fail(name, 0, 0, "there are no notes in it.");
            }

            if (passage.Played.Count + passage.Sung.Count > Passage.MostNotes)
            {
                return Fail(name, 0, 0, $"there are more than {Passage.MostNotes} notes.");
            }

            double seconds = passage.SecondsAt(passage.LengthTicks);
            return seconds > Passage.LongestSeconds
                ? Fail(name, 0, 0, FormattableString.Invariant($"it lasts {seconds / 60:0} minutes; a passage lasts at most {Passage.LongestSeconds / 60:0}."))
                : new PassageLoad(passage, null);
        }
        catch (PassageFault fault)
        {
            return Fail(name, fault.Line, fault.Column, fault.Message);
        }
        catch (XmlException error)
        {
            string message = error.Message.Split(" Line ")[0];
            return Fail(name, error.LineNumber, error.LinePosition, $"this is no whole MusicXML: {message}");
        }
        catch (InvalidDataException error)
        {
            return Fail(name, 0, 0, $"the compressed file is damaged: {error.Message}");
        }
    }

    private static string Form(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith("MThd"u8) || (bytes.StartsWith("RIFF"u8) && bytes[Math.Min(8, bytes.Length)..].StartsWith("RMID"u8)))
        {
            return "midi";
        }

        if (bytes.StartsWith("PK"u8))
        {
            return "mxl";
        }

        int at = bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]) ? 3 : 0;
        while (at < bytes.Length && bytes[at] is (byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t')
        {
            at++;
        }

        bool isWide = bytes.Length > 1 && bytes[0] is 0xFE or 0xFF && bytes[1] is 0xFE or 0xFF;
        return isWide || (at < bytes.Length && bytes[at] == (byte)'<') ? "xml" : "text";
    }

    private static string Text(byte[] bytes)
    {
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            throw new PassageFault(0, 0, "it is neither text in UTF-8, MusicXML nor a MIDI file.");
        }
    }

    private static PassageLoad Fail(string name, int line, int column, string message) => new(null, new PassageProblem(name, line, column, message));
}
