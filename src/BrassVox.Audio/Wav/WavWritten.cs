using System.Globalization;

namespace BrassVox.Audio.Wav;

/// <summary>A WAV file as it was finished.</summary>
/// <param name="Path">Where it now is.</param>
/// <param name="SampleCount">Samples per channel in it.</param>
/// <param name="SampleRateHz">Samples per second and channel.</param>
/// <param name="ClippedSamples">Samples beyond full scale; held to it in the whole-number encodings, kept in float.</param>
/// <param name="NonFiniteSamples">Samples that were no number (written as 0).</param>
/// <param name="Failure">Why it holds less than was given to it, or null when it holds all.</param>
public sealed record WavWritten(
    string Path, long SampleCount, int SampleRateHz, long ClippedSamples, long NonFiniteSamples, WavWriteFailure? Failure)
{
    /// <summary>Length in seconds.</summary>
    public double Seconds => (double)SampleCount / SampleRateHz;

    /// <summary>What the user should hear of, one line each; empty when all is well.</summary>
    public IReadOnlyList<string> Notes
    {
        get
        {
            var notes = new List<string>();
            if (ClippedSamples > 0)
                notes.Add(string.Create(CultureInfo.InvariantCulture, $"{ClippedSamples} {(ClippedSamples == 1 ? "sample" : "samples")} clipped, lower the level"));
            if (NonFiniteSamples > 0)
                notes.Add(string.Create(CultureInfo.InvariantCulture, $"{NonFiniteSamples} {(NonFiniteSamples == 1 ? "sample was" : "samples were")} no number, written as 0"));
            if (Failure is not null)
                notes.Add(Failure.Message);
            return notes;
        }
    }
}
