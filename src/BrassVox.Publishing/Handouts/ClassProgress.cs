namespace BrassVox.Publishing.Handouts;

/// <summary>How far the handouts of a class are.</summary>
/// <param name="SheetsMade">Exercises made so far; one whose whole article several students share counts once.</param>
/// <param name="Sheets">Exercises to be made.</param>
/// <param name="SoundsMade">How many of them had to be rendered; the others sound as one before.</param>
/// <param name="Written">The handout that has just been written; null between two.</param>
public sealed record ClassProgress(int SheetsMade, int Sheets, int SoundsMade, HandoutWritten? Written);
