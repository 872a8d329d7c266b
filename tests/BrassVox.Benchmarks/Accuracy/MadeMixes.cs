using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Mixes of recorded single notes in pairs, levels and coupling that the shipped mixes do not hold.</summary>
/// <remarks>
/// Truth is Praat's autocorrelation pitch of each stem before mixing (a general-purpose tool, not this project). Only
/// sustained parts are used. Coupled: (1 + depth v) * played + gain * sung, v the sung tone at RMS 0.707.
/// </remarks>
internal static class MadeMixes
{
    private const int RateHz = 48_000;
    private static readonly double[] LevelsDb = [0.0, -12.0, 6.0, -6.0, 12.0];

    public sealed record Note(string Path, double Hz, double FromSeconds, double ToSeconds, string[] Folders)
    {
        public bool IsVoice => Path.Contains("voice", StringComparison.Ordinal);
    }

    public sealed record Mix(string Name, string Interval, double PlayedHz, double SungHz, float[] Mono, TruthTrack Truth)
    {
        public bool IsCoupled => Name.EndsWith("coupled", StringComparison.Ordinal);

        public int Semitones => (int)Math.Round(Math.Abs(Cents.Between(PlayedHz, SungHz)) / 100.0);
    }

    /// <summary>Makes mixes, about the same number for each interval from a fifth below to an octave and a fifth above.</summary>
    /// <param name="folder">Where the single notes lie.</param>
    /// <param name="perInterval">Most mixes for each interval.</param>
    /// <param name="seed">Chooses them.</param>
    /// <param name="half">0: all notes; 1 or 2: every other one, so that limits set on one half can be checked on the other.</param>
    public static IEnumerable<Mix> Make(string folder, int perInterval, int seed, int half)
    {
        List<Note> notes = [.. File.ReadLines(Path.Combine(folder, "truth.csv")).Skip(1).Select(line => Read(folder, line.Split(',')))
            .Where((_, i) => half == 0 || i % 2 == half - 1)];
        Dictionary<string, (float[] Sound, List<(double Seconds, double Hz)> Track)> stems = [];
        Random random = new(seed);
        var pairs = notes.Where(n => !n.IsVoice).SelectMany(p => notes.Where(n => n.IsVoice).Select(s => (Played: p, Sung: s)))
            .GroupBy(x => (int)Math.Round(Cents.Between(x.Played.Hz, x.Sung.Hz) / 100.0))
            .Where(g => g.Key is >= -8 and <= 19)
            .OrderBy(g => g.Key);
        int number = 0;
        foreach (var group in pairs)
        {
            foreach ((Note played, Note sung) in group.OrderBy(_ => random.Next()).Take(perInterval).ToList())
            {
                double levelDb = LevelsDb[number % LevelsDb.Length];
                double depth = (number / LevelsDb.Length % 2) == 0 ? 0.0 : 0.3;
                number++;
                (float[] p, List<(double Seconds, double Hz)> trackP) = Stem(stems, played);
                (float[] s, List<(double Seconds, double Hz)> trackS) = Stem(stems, sung);
                int length = Math.Min(p.Length, s.Length);
                if (trackP.Count == 0 || trackS.Count == 0)
                {
                    continue;
                }

                float[] mono = Combine(p.AsSpan(0, length), s.AsSpan(0, length), levelDb, depth);
                TruthTrack truth = new();
                foreach ((double seconds, double hz) in trackP.Where(x => x.Seconds < (double)length / RateHz))
                {
                    var near = trackS.MinBy(x => Math.Abs(x.Seconds - seconds));
                    if (Math.Abs(near.Seconds - seconds) < 0.01)
                    {
                        truth.Add(seconds, hz, near.Hz);
                    }
                }

                if (truth.ToSeconds - truth.FromSeconds > 0.1)
                {
                    string name = FormattableString.Invariant($"{Path.GetFileNameWithoutExtension(played.Path)}+{Path.GetFileNameWithoutExtension(sung.Path)} {levelDb:+0;-0}dB{(depth > 0 ? " coupled" : "")}");
                    yield return new Mix(name, Label(group.Key), played.Hz, sung.Hz, mono, truth);
                }
            }
        }
    }

    public static int RateOfMixesHz => RateHz;

    private static string Label(int semitones) => semitones switch
    {
        0 => "unison",
        1 or -1 => "m2",
        12 => "octave",
        19 => "twelfth",
        _ => string.Create(CultureInfo.InvariantCulture, $"{semitones:+0;-0} st"),
    };

    private static Note Read(string folder, string[] cells) => new(
        Path.Combine(folder, cells[0]), Number(cells[6]), Number(cells[4]), Number(cells[5]), cells[0].Split('/'));

    private static (float[] Sound, List<(double Seconds, double Hz)> Track) Stem(
        Dictionary<string, (float[] Sound, List<(double Seconds, double Hz)> Track)> stems, Note note)
    {
        if (!stems.TryGetValue(note.Path, out var stem))
        {
            (float[] whole, _) = SoundFile.Read(note.Path, RateHz);
            int from = (int)(note.FromSeconds * RateHz);
            int to = Math.Min(whole.Length, (int)(note.ToSeconds * RateHz));
            float[] sound = whole[from..to];
            stems[note.Path] = stem = (sound, PraatTrack.Of(sound, RateHz, 0.84 * note.Hz, 1.19 * note.Hz));
        }

        return stem;
    }

    private static float[] Combine(ReadOnlySpan<float> played, ReadOnlySpan<float> sung, double levelDb, double depth)
    {
        double rmsPlayed = Rms(played);
        double rmsSung = Rms(sung);
        double gain = Math.Pow(10.0, levelDb / 20.0);
        float[] sum = new float[played.Length];
        double peak = 0.0;
        for (int i = 0; i < sum.Length; i++)
        {
            double voice = sung[i] / rmsSung;
            double value = (played[i] / rmsPlayed * (1.0 + (depth * 0.707 * voice))) + (gain * voice);
            sum[i] = (float)value;
            peak = Math.Max(peak, Math.Abs(value));
        }

        for (int i = 0; i < sum.Length; i++)
        {
            sum[i] = (float)(0.5 * sum[i] / peak);
        }

        return sum;
    }

    private static double Rms(ReadOnlySpan<float> sound)
    {
        double sum = 0.0;
        foreach (float x in sound)
        {
            sum += (double)x * x;
        }

        return Math.Sqrt(sum / sound.Length) + 1e-12;
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
