using System.Text;

namespace BrassVox.Tests.Audio;

/// <summary>Lays out WAV files byte by byte, with nothing of BrassVox in it.</summary>
internal static class WavBytes
{
    internal const int RateHz = 48000;

    internal static byte[] File(params byte[][] blocks)
    {
        byte[] body = [.. Encoding.ASCII.GetBytes("WAVE"), .. blocks.SelectMany(b => b)];
        return [.. Encoding.ASCII.GetBytes("RIFF"), .. UInt(body.Length), .. body];
    }

    internal static byte[] Block(string id, byte[] body, long? stated = null) =>
        [.. Encoding.ASCII.GetBytes(id), .. UInt(stated ?? body.Length), .. body];

    internal static byte[] Format(int tag, int channels, int rateHz, int bits, int? align = null, int? byteRate = null)
    {
        int block = align ?? channels * ((bits + 7) / 8);
        return [.. UShort(tag), .. UShort(channels), .. UInt(rateHz), .. UInt(byteRate ?? rateHz * block), .. UShort(block), .. UShort(bits)];
    }

    internal static byte[] Extensible(int channels, int rateHz, int bits, int validBits, int tag, int spareBytes = 0) =>
    [
        .. Format(0xFFFE, channels, rateHz, bits), .. UShort(22 + spareBytes), .. UShort(validBits), .. UInt(4),
        (byte)tag, 0, 0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71, .. new byte[spareBytes],
    ];

    internal static double Sine(double hz, int index, int rateHz = RateHz) => Math.Sin(2 * Math.PI * hz * index / rateHz);

    /// <summary>Samples of a sine as whole numbers with that peak, little-endian, each in so many bytes.</summary>
    internal static byte[] Sines(int samples, int bytes, double peak, int rateHz, params double[] hzOfChannel)
    {
        byte[] all = new byte[samples * hzOfChannel.Length * bytes];
        for (int i = 0; i < samples; i++)
        {
            for (int channel = 0; channel < hzOfChannel.Length; channel++)
            {
                long value = (long)Math.Round(peak * Sine(hzOfChannel[channel], i, rateHz));
                for (int b = 0; b < bytes; b++)
                    all[(i * hzOfChannel.Length + channel) * bytes + b] = (byte)(value >> (8 * b));
            }
        }

        return all;
    }

    internal static byte[] UInt(long value) => [(byte)value, (byte)(value >> 8), (byte)(value >> 16), (byte)(value >> 24)];

    internal static byte[] UShort(int value) => [(byte)value, (byte)(value >> 8)];
}
