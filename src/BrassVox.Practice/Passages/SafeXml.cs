using System.Xml;
using System.Xml.Linq;

namespace BrassVox.Practice.Passages;

/// <summary>XML from strangers: no document type is processed, nothing is fetched, size and depth are limited.</summary>
internal static class SafeXml
{
    private const int DeepestElement = 64;
    private const int MostElements = 1_000_000;

    public static XDocument Load(byte[] bytes)
    {
        using (XmlReader reader = Open(bytes))
        {
            int elements = 0;
            while (reader.Read())
            {
                if (reader.Depth > DeepestElement || (reader.NodeType == XmlNodeType.Element && ++elements > MostElements))
                {
                    (int line, int column) = reader is IXmlLineInfo at ? (at.LineNumber, at.LinePosition) : (0, 0);
                    throw new PassageFault(line, column, $"elements lie deeper than {DeepestElement} or are more than {MostElements}: this is no score.");
                }
            }
        }

        using XmlReader again = Open(bytes);
        return XDocument.Load(again, LoadOptions.SetLineInfo);
    }

    private static XmlReader Open(byte[] bytes) => XmlReader.Create(new MemoryStream(bytes, writable: false), new XmlReaderSettings
    {
        DtdProcessing = DtdProcessing.Ignore,
        XmlResolver = null,
        MaxCharactersInDocument = 2L * PassageFile.LargestBytes,
        MaxCharactersFromEntities = 1024,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        IgnoreWhitespace = true,
    });
}
