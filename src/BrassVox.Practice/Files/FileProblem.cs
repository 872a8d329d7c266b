using System.Globalization;
using BrassVox.Synthesis.Files;

namespace BrassVox.Practice.Files;

/// <summary>Why a file of data was not loaded, with the place.</summary>
/// <param name="File">Path of the file.</param>
/// <param name="JsonPath">Place in the JSON, as in $.playAlong.steps[0].criteria[1].</param>
/// <param name="Line">Line from 1; 0 when the file could not be read at all.</param>
/// <param name="Message">What is wrong and what was expected.</param>
public sealed record FileProblem(string File, string JsonPath, long Line, string Message)
{
    /// <summary>Place in the JSON.</summary>
    public string JsonPath { get; } = PlainLine.Of(JsonPath);

    /// <summary>What is wrong and what was expected.</summary>
    public string Message { get; } = PlainLine.Of(Message);

    /// <summary>One line: file, line, place, message.</summary>
    public override string ToString() => Line > 0
        ? string.Create(CultureInfo.InvariantCulture, $"{File}, line {Line}, at {JsonPath}: {Message}")
        : $"{File}: {Message}";
}
