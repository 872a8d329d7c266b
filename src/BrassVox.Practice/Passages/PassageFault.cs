namespace BrassVox.Practice.Passages;

/// <summary>Ends the reading of a file at its first fault; never leaves this folder.</summary>
internal sealed class PassageFault(int line, int column, string message) : Exception(message)
{
    public int Line { get; } = line;

    public int Column { get; } = column;
}
