using System.Globalization;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Pitch of one tone by Praat's autocorrelation method, every 10 ms; an independent, general-purpose tool.</summary>
internal static class PraatTrack
{
    private const string Script = """
        form x
          sentence file x
          real floor 50
          real ceiling 500
        endform
        Read from file: file$
        To Pitch (ac): 0.01, floor, 15, "yes", 0.01, 0.2, 0.01, 0.35, 0.14, ceiling
        n = Get number of frames
        for i to n
          t = Get time from frame number: i
          f = Get value in frame: i, "Hertz"
          if f <> undefined
            appendInfoLine: fixed$(t, 5), " ", fixed$(f, 4)
          endif
        endfor
        """;

    public static List<(double Seconds, double Hz)> Of(ReadOnlySpan<float> mono, int rateHz, double floorHz, double ceilingHz)
    {
        string folder = Directory.CreateTempSubdirectory("bv-praat").FullName;
        try
        {
            string script = Path.Combine(folder, "pitch.praat");
            string sound = Path.Combine(folder, "sound.wav");
            File.WriteAllText(script, Script);
            WavFile.Write(sound, mono, rateHz);
            string text = SoundFile.Text(
                "praat", "--run", script, sound, floorHz.ToString(CultureInfo.InvariantCulture), ceilingHz.ToString(CultureInfo.InvariantCulture));
            return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' '))
                .Select(x => (double.Parse(x[0], CultureInfo.InvariantCulture), double.Parse(x[1], CultureInfo.InvariantCulture)))];
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
