namespace BrassVox.Publishing.Tracks;

/// <summary>One track of a set.</summary>
/// <param name="Number">Its place among the tracks of the set, from 1: the first figure of its file's name.</param>
/// <param name="Name">What it holds, in letters and hyphens that suit a file's name.</param>
/// <param name="Title">What it holds, in words.</param>
/// <param name="Samples">One channel, full scale 1; all tracks of a set begin together and last as long.</param>
public sealed record PracticeTrack(int Number, string Name, string Title, float[] Samples);
