using System.Globalization;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Pitch by aubio's spectral YIN method, every 10 ms; a general-purpose tool.</summary>
internal static class AubioTrack
{
    private const int HopSamples = 480;

    // The longest buffer within 160 ms at 48 kHz that is a power of two, as the tool asks for.
    private const int BufferSamples = 4096;

    public static List<(double Seconds, double Hz)> Of(ReadOnlySpan<float> mono, int rateHz)
    {
        string folder = Directory.CreateTempSubdirectory("bv-aubio").FullName;
        try
        {
            string sound = Path.Combine(folder, "sound.wav");
            WavFile.Write(sound, mono, rateHz);
            string text = SoundFile.Text("aubiopitch", "-p", "yinfft", "-B", Cell(BufferSamples), "-H", Cell(HopSamples), "-i", sound);

            // Its clock names the beginning of the newest hop; the buffer's middle is what it measured.
            double late = ((0.5 * BufferSamples) - HopSamples) / rateHz;
            return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' '))
                .Select(x => (Number(x[0]) - late, Number(x[1]))).Where(x => x.Item2 > 0.0)];
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static string Cell(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
