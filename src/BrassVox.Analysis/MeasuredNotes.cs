using BrassVox.Theory;

namespace BrassVox.Analysis;

/// <summary>The notes that may be declared to the measurement: from the lowest P that is looked for to the highest S, as <see cref="DuetPrior"/> has them, at A4 = 440 Hz.</summary>
public static class MeasuredNotes
{
    /// <summary>A0, 27.5 Hz.</summary>
    public static Pitch Lowest { get; } = new(NoteLetter.A, 0, 0);

    /// <summary>C6, 1046.5 Hz.</summary>
    public static Pitch Highest { get; } = new(NoteLetter.C, 0, 6);

    /// <summary>Whether a note lies among them, by its key.</summary>
    /// <param name="pitch">The note, in any spelling.</param>
    public static bool Holds(Pitch pitch) => pitch.MidiNumber >= Lowest.MidiNumber && pitch.MidiNumber <= Highest.MidiNumber;
}
