namespace BrassVox.Practice.Passages;

/// <summary>One voice of one part of a score.</summary>
/// <param name="Part">Name of the part.</param>
/// <param name="Voice">Name of the voice within it.</param>
/// <param name="Notes">Its notes by rising start; those of a chord start together.</param>
internal sealed record ScoreVoice(string Part, string Voice, List<NoteInFile> Notes)
{
    public string Name => $"{Part}/{Voice}";
}
