using System.Buffers.Binary;
using System.Diagnostics;
using System.Globalization;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Reads any recording through sox as mono float samples.</summary>
internal static class SoundFile
{
    /// <summary>Samples and rate of a file; a rate of 0 keeps the file's own.</summary>
    public static (float[] Mono, int RateHz) Read(string path, int rateHz = 0)
    {
        int rate = rateHz > 0 ? rateHz : int.Parse(Text("soxi", "-r", path), CultureInfo.InvariantCulture);
        using Process sox = Start("sox", path, "-t", "f32", "-L", "-c", "1", "-r", rate.ToString(CultureInfo.InvariantCulture), "-");
        using MemoryStream bytes = new();
        sox.StandardOutput.BaseStream.CopyTo(bytes);
        sox.WaitForExit();
        ReadOnlySpan<byte> raw = bytes.GetBuffer().AsSpan(0, (int)bytes.Length);
        float[] mono = new float[raw.Length / 4];
        for (int i = 0; i < mono.Length; i++)
        {
            mono[i] = BinaryPrimitives.ReadSingleLittleEndian(raw[(4 * i)..]);
        }

        return (mono, rate);
    }

    /// <summary>What a program prints on its standard output.</summary>
    public static string Text(string program, params string[] arguments)
    {
        using Process process = Start(program, arguments);
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return text.Trim();
    }

    private static Process Start(string program, params string[] arguments)
    {
        ProcessStartInfo info = new(program) { RedirectStandardOutput = true };
        foreach (string argument in arguments)
        {
            info.ArgumentList.Add(argument);
        }

        return Process.Start(info) ?? throw new InvalidOperationException($"{program} did not start.");
    }
}
