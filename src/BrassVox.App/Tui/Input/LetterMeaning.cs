namespace BrassVox.App.Tui.Input;

/// <summary>The one meaning that a letter has, in whatever rooms it has one.</summary>
/// <param name="Id">Its name in keys.json.</param>
/// <param name="Usual">The letter unless keys.json says otherwise.</param>
/// <param name="Does">What it does and where, in a few words.</param>
internal sealed record LetterMeaning(string Id, char Usual, string Does);
