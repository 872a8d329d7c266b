using System.Buffers.Binary;

namespace BrassVox.Audio.Wav;

/// <summary>Turns samples into a WAV file's bytes. Too loud is held to full scale, never wrapped; no number becomes 0.</summary>
internal sealed class WavSampleEncoder(WavEncoding encoding)
{
    /// <summary>Bytes of one sample.</summary>
    internal int BytesPerSample => encoding switch
    {
        WavEncoding.Pcm16 => 2,
        WavEncoding.Pcm24 => 3,
        _ => 4,
    };

    /// <summary>Samples beyond full scale so far.</summary>
    internal long ClippedSamples { get; private set; }

    /// <summary>Samples that were no number so far.</summary>
    internal long NonFiniteSamples { get; private set; }

    /// <summary>Encodes samples.</summary>
    /// <param name="samples">Samples, full scale 1.</param>
    /// <param name="bytes">Where to put them; <see cref="BytesPerSample"/> for each.</param>
    internal void Encode(ReadOnlySpan<float> samples, Span<byte> bytes)
    {
        for (int i = 0; i < samples.Length; i++)
        {
            float sample = Count(samples[i]);
            switch (encoding)
            {
                case WavEncoding.Pcm16:
                    BinaryPrimitives.WriteInt16LittleEndian(bytes[(2 * i)..], (short)Whole(sample, 1 << 15));
                    break;
                case WavEncoding.Pcm24:
                    int whole = Whole(sample, 1 << 23);
                    bytes[3 * i] = (byte)whole;
                    bytes[3 * i + 1] = (byte)(whole >> 8);
                    bytes[3 * i + 2] = (byte)(whole >> 16);
                    break;
                default:
                    BinaryPrimitives.WriteSingleLittleEndian(bytes[(4 * i)..], sample);
                    break;
            }
        }
    }

    private static int Whole(float sample, int fullScale) =>
        (int)Math.Clamp(Math.Round((double)sample * fullScale), -fullScale, fullScale - 1);

    private float Count(float sample)
    {
        if (float.IsNaN(sample))
        {
            NonFiniteSamples++;
            return 0;
        }

        if (Math.Abs(sample) <= 1)
            return sample;
        ClippedSamples++;
        return float.IsInfinity(sample) ? Math.Sign(sample) : sample;
    }
}
