namespace BrassVox.Publishing.Tracks;

/// <summary>One track of a set.</summary>
/// <param name="number">Its place among the tracks of the set, from 1: the first figure of its file's name.</param>
/// <param name="name">What it holds, in letters and hyphens that suit a file's name.</param>
/// <param name="title">What it holds, in words.</param>
/// <param name="stems">What it is added up from, equally long; kept, not copied.</param>
public sealed class PracticeTrack(int number, string name, string title, params float[][] stems)
{
    /// <summary>Its place among the tracks of the set, from 1.</summary>
    public int Number => number;

    /// <summary>What it holds, in letters and hyphens.</summary>
    public string Name => name;

    /// <summary>What it holds, in words.</summary>
    public string Title => title;

    /// <summary>Samples in it; all tracks of a set begin together and last as long.</summary>
    public int Length => stems[0].Length;

    /// <summary>The samples, one channel, full scale 1: its stems added up sample by sample, rounded once. Made anew at each call, so that a set holds its stems only.</summary>
    public float[] ToSamples()
    {
        float[] sum = new float[Length];
        for (int i = 0; i < sum.Length; i++)
        {
            double total = 0;
            foreach (float[] stem in stems)
            {
                total += stem[i];
            }

            sum[i] = (float)total;
        }

        return sum;
    }
}
