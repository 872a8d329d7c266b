using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using BrassVox.Synthesis;

namespace BrassVox.Benchmarks.Synthesis;

/// <summary>The fixed job that other programs render too: 40 sine partials and a pulse train through five resonators, 48 kHz, 32-bit float.</summary>
internal sealed class SpecJob
{
    private const int Rate = 48000;
    private const int Tick = PeakGuard.TickSamples;
    private const double BrassHz = 58.27047;
    private const double VoiceHz = 116.54094;
    private readonly PartialBank _brass = new(40);
    private readonly ResonatorBank _voice = new(
        [650, 1080, 2650, 2900, 3250], [80, 90, 120, 130, 140], [1, 0.5, 0.45, 0.4, 0.1], Rate);

    private readonly float[] _real = new float[Tick];
    private readonly float[] _imaginary = new float[Tick];
    private PhaseTrack _phase;
    private double _pulse = 1;

    internal SpecJob()
    {
        for (int k = 0; k < 40; k++)
        {
            // Re(-i a z^k) is a sine.
            _brass.ImaginaryTarget[k] = -0.5f * 0.25f / (k + 1);
        }

        _brass.Aim(40, 0);
    }

    /// <summary>Renders seconds of the job.</summary>
    internal float[] Render(int seconds)
    {
        float[] sound = GC.AllocateUninitializedArray<float>(seconds * Rate);
        for (int at = 0; at < sound.Length; at += Tick)
        {
            _phase.Fill(BrassHz / Rate, BrassHz / Rate, Tick, _real, _imaginary);
            Span<float> tick = sound.AsSpan(at, Tick);
            _brass.Render(_real, _imaginary, tick, Tick);
            AddVoice(tick);
        }

        return sound;
    }

    /// <summary>Writes a WAV file of 32-bit floats.</summary>
    internal static void Write(string path, float[] sound)
    {
        ReadOnlySpan<byte> data = MemoryMarshal.AsBytes<float>(sound);
        byte[] head = new byte[44];
        "RIFF"u8.CopyTo(head);
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(4), 36 + data.Length);
        "WAVEfmt "u8.CopyTo(head.AsSpan(8));
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(16), 16);
        BinaryPrimitives.WriteInt16LittleEndian(head.AsSpan(20), 3);
        BinaryPrimitives.WriteInt16LittleEndian(head.AsSpan(22), 1);
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(24), Rate);
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(28), Rate * 4);
        BinaryPrimitives.WriteInt16LittleEndian(head.AsSpan(32), 4);
        BinaryPrimitives.WriteInt16LittleEndian(head.AsSpan(34), 32);
        "data"u8.CopyTo(head.AsSpan(36));
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(40), data.Length);
        using FileStream file = File.Create(path);
        file.Write(head);
        file.Write(data);
    }

    private void AddVoice(Span<float> tick)
    {
        for (int i = 0; i < tick.Length; i += 8)
        {
            // The phase moves by less than one pulse in eight samples: look ahead whether one falls among them.
            if (_pulse + (8 * (VoiceHz / Rate)) < 1)
            {
                _pulse += 8 * (VoiceHz / Rate);
                Vector512<double> ring = _voice.Ring() * 4;
                Vector256<float> narrow = Vector256.Narrow(ring.GetLower(), ring.GetUpper());
                (Vector256.Create<float>(tick[i..]) + narrow).CopyTo(tick[i..]);
                continue;
            }

            for (int k = i; k < i + 8; k++)
            {
                _pulse += VoiceHz / Rate;
                double input = 0;
                if (_pulse >= 1)
                {
                    _pulse -= 1;
                    input = 1;
                }

                tick[k] += (float)(4 * _voice.Next(input));
            }
        }
    }
}
