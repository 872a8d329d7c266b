using System.Runtime.InteropServices;

namespace BrassVox.Audio.Linux;

/// <summary>Samples in the formats that sound cards take. Too loud is held to full scale, never wrapped.</summary>
internal static class AlsaSamples
{
    /// <summary>Turns samples into a card's format.</summary>
    /// <param name="format">ALSA's number of the format.</param>
    /// <param name="samples">Samples, full scale 1.</param>
    /// <param name="bytes">Where to put them; 4 bytes for each sample at most.</param>
    /// <returns>Bytes of one sample; 0 when the card takes float as it is and nothing was done.</returns>
    internal static int Encode(int format, ReadOnlySpan<float> samples, Span<byte> bytes)
    {
        switch (format)
        {
            case AlsaNative.FormatS16:
                Span<short> shorts = MemoryMarshal.Cast<byte, short>(bytes);
                for (int i = 0; i < samples.Length; i++)
                    shorts[i] = (short)Math.Clamp(MathF.Round(samples[i] * 32768f), short.MinValue, short.MaxValue);
                return sizeof(short);
            case AlsaNative.FormatS32:
                Span<int> ints = MemoryMarshal.Cast<byte, int>(bytes);
                for (int i = 0; i < samples.Length; i++)
                    ints[i] = (int)Math.Clamp(Math.Round(samples[i] * 2147483648.0), int.MinValue, int.MaxValue);
                return sizeof(int);
            default:
                return 0;
        }
    }

    /// <summary>Turns a card's format into samples. Not for float.</summary>
    /// <param name="format">ALSA's number of the format.</param>
    /// <param name="bytes">What the card gave.</param>
    /// <param name="samples">Where to put the samples, full scale 1.</param>
    internal static void Decode(int format, ReadOnlySpan<byte> bytes, Span<float> samples)
    {
        if (format == AlsaNative.FormatS16)
        {
            ReadOnlySpan<short> shorts = MemoryMarshal.Cast<byte, short>(bytes);
            for (int i = 0; i < samples.Length; i++)
                samples[i] = shorts[i] / 32768f;
        }
        else
        {
            ReadOnlySpan<int> ints = MemoryMarshal.Cast<byte, int>(bytes);
            for (int i = 0; i < samples.Length; i++)
                samples[i] = (float)(ints[i] / 2147483648.0);
        }
    }
}
