using System.Globalization;
using BrassVox.Synthesis.Files;

namespace BrassVox.Practice.Passages;

/// <summary>Why a passage could not be read: one line for people.</summary>
/// <param name="File">The file's name.</param>
/// <param name="Line">Line from 1; 0 when there is none.</param>
/// <param name="Column">Column from 1; 0 when there is none.</param>
/// <param name="Message">What is wrong, and what to write.</param>
public sealed record PassageProblem(string File, int Line, int Column, string Message)
{
    /// <summary>What is wrong, and what to write.</summary>
    public string Message { get; } = PlainLine.Of(Message);

    /// <inheritdoc/>
    public override string ToString() => (Line, Column) switch
    {
        (0, _) => $"{File}: {Message}",
        (_, 0) => string.Create(CultureInfo.InvariantCulture, $"{File}, line {Line}: {Message}"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{File}, line {Line}, column {Column}: {Message}"),
    };
}
