using System.Buffers.Binary;
using BrassVox.Audio.Wav;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>WAV files: headers put together from honest and dishonest fields, chunks in any order, bytes spoiled.</summary>
internal sealed class SoundReader() : FuzzReader("wav", 30)
{
    private static readonly string[] Others = ["LIST", "fact", "JUNK", "bext", "ds64", "fmt ", "data", "id3 ", "\0\0\0\0", "\u00ff\u00ff\u00ff\u00ff"];

    public override byte[] Make(Random random)
    {
        var file = new MemoryStream();
        int spoilt = random.Chance(2) ? 6 : 60;
        Id(file, random.Chance(2 * spoilt) ? random.Pick(["RF64", "BW64", "RIFX", "fLaC", "FORM", "riff", "OggS"]) : "RIFF");
        Number(file, random.Chance(4) ? Edge(random) : 1000);
        Id(file, random.Chance(30) ? "WAVX" : "WAVE");
        int bits = random.Chance(spoilt) ? random.Pick([12, 20, 0, 1, 65535]) : random.Pick([8, 16, 24, 32, 64]);
        int channels = random.Chance(spoilt) ? random.Pick([0, 32, 33, 65535]) : random.Next(1, 4);
        int rate = random.Chance(spoilt) ? random.Pick([0, 1, -1]) : random.Pick([8000, 44100, 48000, 96000, 192000, 384000]);
        foreach (int order in random.Chance(2 * spoilt) ? new[] { 1, 0 } : [0, 1])
        {
            for (int extra = random.Next(3); extra > 0; extra--)
            {
                byte[] body = new byte[random.Next(40)];
                random.NextBytes(body);
                Chunk(file, random.Pick(Others), body, random.Chance(spoilt) ? Edge(random) : (uint)body.Length);
            }

            byte[] content = order == 0 ? Form(random, bits, channels, rate, spoilt) : Sound(random);
            Chunk(file, order == 0 ? "fmt " : "data", content, random.Chance(4) ? Edge(random) : (uint)content.Length);
        }

        return random.Chance(spoilt) ? Mutations.Bytes(random, file.ToArray()) : Mutations.Swollen(random, file.ToArray());
    }

    public override bool Read(byte[] input, string folder)
    {
        WavReading reading = WavReader.Read(new MemoryStream(input, writable: false), "x.wav");
        if (reading is WavFailure failure)
        {
            IsOneLine(failure.Message);
            return false;
        }

        var sound = (WavSound)reading;
        Holds(sound.Channels.Count is >= 1 and <= 32, "1 to 32 channels");
        Holds(sound.Channels.All(channel => channel.Length == sound.Channels[0].Length && channel.Length <= input.Length), "no more samples than there are bytes");
        Holds(sound.Channels.All(channel => channel.All(float.IsFinite)), "samples are numbers");
        foreach (string note in sound.Notes)
        {
            IsTame(note);
        }

        return true;
    }

    private static byte[] Form(Random random, int bits, int channels, int rate, int spoilt)
    {
        bool isExtensible = random.Chance(3);
        byte[] form = new byte[isExtensible ? 40 + (2 * random.Next(2)) : random.Chance(spoilt) ? random.Pick([14, 0]) : random.Pick([16, 18])];
        int block = bits / 8 * channels;
        byte[] head = new byte[18];
        BinaryPrimitives.WriteUInt16LittleEndian(head, (ushort)(isExtensible ? 0xFFFE : random.Chance(spoilt) ? random.Pick([6, 0x55, 0]) : bits is 32 or 64 ? random.Pick([1, 3]) : 1));
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(2), (ushort)channels);
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(4), rate);
        BinaryPrimitives.WriteInt32LittleEndian(head.AsSpan(8), random.Chance(spoilt) ? (int)Edge(random) : unchecked(rate * block));
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(12), (ushort)(random.Chance(spoilt) ? (int)Edge(random) : block));
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(14), (ushort)bits);
        head.AsSpan(0, Math.Min(18, form.Length)).CopyTo(form);
        if (isExtensible)
        {
            form[18] = (byte)random.Pick([24, bits, 0, 255]);
            form[24] = (byte)random.Pick([1, 1, 3, 2]);
            ((ReadOnlySpan<byte>)[0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71]).CopyTo(form.AsSpan(30));
        }

        return form;
    }

    private static byte[] Sound(Random random)
    {
        byte[] sound = new byte[random.Next(1, 400)];
        random.NextBytes(sound);
        return sound;
    }

    private static uint Edge(Random random) => random.Pick<uint>([0, 1, 2, 23, 24, 65536, 0x7FFFFFFF, 0x80000000, 0xFFFFFFF0, 0xFFFFFFFE, 0xFFFFFFFF]);

    private static void Id(MemoryStream file, string id) => file.Write([.. id.Select(c => (byte)c)]);

    private static void Number(MemoryStream file, uint number)
    {
        Span<byte> four = stackalloc byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(four, number);
        file.Write(four);
    }

    private static void Chunk(MemoryStream file, string id, byte[] body, uint stated)
    {
        Id(file, id);
        Number(file, stated);
        file.Write(body);
        if (body.Length % 2 == 1)
        {
            file.WriteByte(0);
        }
    }
}
