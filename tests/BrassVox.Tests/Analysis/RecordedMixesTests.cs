using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using BrassVox.Analysis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Recorded tuba, trombone and horn notes mixed with recorded sung notes; truth from the separate stems (truth_tracks.csv).</summary>
public sealed class RecordedMixesTests
{
    private const int RateHz = 24_000;

    // The aim: both pitches within 10 cents in 97 % of the frames of the whole set (benchmark accuracy). Here six of
    // the mixes, each by itself; 95 % leaves room for one bad stretch.
    [Theory]
    [InlineData("mix_07_+6dB_coupled", "07", 77.78, 98.00)]
    [InlineData("mix_09_-6dB_plain", "09", 87.31, 116.54)]
    [InlineData("mix_10_+0dB_coupled", "10", 261.63, 196.00)]
    [InlineData("mix_11_+0dB_coupled", "11", 58.27, 87.31)]
    [InlineData("mix_13_+6dB_plain", "13", 58.27, 98.00)]
    [InlineData("mix_18_+6dB_plain", "18", 77.78, 196.00)]
    public void Both_pitches_are_within_10_cents(string file, string mix, double playedHz, double sungHz)
    {
        string? folder = Environment.GetEnvironmentVariable("BRASSVOX_RECORDINGS");
        Assert.SkipWhen(string.IsNullOrEmpty(folder), "BRASSVOX_RECORDINGS names no folder of recordings.");
        float[] mono = Decode(Path.Combine(folder!, "mixes", file + ".flac"));
        var track = File.ReadLines(Path.Combine(folder!, "mixes", "truth_tracks.csv")).Where(x => x.StartsWith(mix + ",", StringComparison.Ordinal))
            .Select(x => x.Split(',').Skip(1).Select(Number).ToArray()).ToList();
        int right = 0;
        int all = 0;
        foreach (AnalysisFrame frame in TakeMeasurement.Frames(mono, RateHz, DuetPrior.Held(playedHz, sungHz)))
        {
            if (frame.CentreSeconds < track[0][0] + 0.1 || frame.CentreSeconds > track[^1][0] - 0.1)
            {
                continue;
            }

            var near = track.Where(x => Math.Abs(x[0] - frame.CentreSeconds) <= 0.05).ToList();
            all++;
            right += Within(frame.Played, near.Select(x => x[1])) && Within(frame.Sung, near.Select(x => x[2])) ? 1 : 0;
        }

        Assert.True(right >= 0.95 * all, $"{right} of {all} frames");
    }

    private static bool Within(PitchEstimate? tone, IEnumerable<double> truth)
    {
        double[] sorted = [.. truth.Where(double.IsFinite).Order()];
        return tone is { } t && Math.Abs(Cents.Between(sorted[sorted.Length / 2], t.FrequencyHz)) < 10.0;
    }

    private static double Number(string cell) => double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double x) ? x : double.NaN;

    private static float[] Decode(string path)
    {
        ProcessStartInfo info = new("sox") { RedirectStandardOutput = true };
        string[] arguments = [path, "-t", "f32", "-L", "-c", "1", "-r", "24000", "-"];
        foreach (string argument in arguments)
        {
            info.ArgumentList.Add(argument);
        }

        try
        {
            using Process sox = Process.Start(info)!;
            using MemoryStream bytes = new();
            sox.StandardOutput.BaseStream.CopyTo(bytes);
            sox.WaitForExit();
            return MemoryMarshal.Cast<byte, float>(bytes.ToArray()).ToArray();
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("sox, which reads FLAC, is not installed.");
            return [];
        }
    }
}
