using System.Buffers.Binary;

namespace BrassVox.Benchmarks.Accuracy;

/// <summary>Hands sound to other programs.</summary>
internal static class WavFile
{
    /// <summary>Writes a mono 32-bit float WAV.</summary>
    public static void Write(string path, ReadOnlySpan<float> mono, int rateHz)
    {
        byte[] bytes = new byte[44 + (4 * mono.Length)];
        "RIFF"u8.CopyTo(bytes);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), bytes.Length - 8);
        "WAVEfmt "u8.CopyTo(bytes.AsSpan(8));
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(16), 16);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(20), 3);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(22), 1);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(24), rateHz);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(28), 4 * rateHz);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(32), 4);
        BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(34), 32);
        "data"u8.CopyTo(bytes.AsSpan(36));
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(40), 4 * mono.Length);
        for (int i = 0; i < mono.Length; i++)
        {
            BinaryPrimitives.WriteSingleLittleEndian(bytes.AsSpan(44 + (4 * i)), mono[i]);
        }

        File.WriteAllBytes(path, bytes);
    }
}
