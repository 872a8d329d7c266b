using BrassVox.Publishing.Tracks;
using Concentus;

namespace BrassVox.Publishing.Handouts;

/// <summary>The sound of a kept take, as a file that a browser plays. What was recorded before the take begins stays at home.</summary>
public static class TakeSound
{
    /// <summary>How long tones may ring on after what was asked, in seconds: as long as they are shown and given away.</summary>
    public const double RingsOnSeconds = 0.5;

    private const int BitsPerSecond = 96000;

    // Of 10: what the library calls best for music that is not made while it sounds.
    private const int ResamplerQuality = 10;

    /// <summary>Packs the take as Ogg Opus.</summary>
    /// <param name="samples">The whole recording, one channel, full scale 1.</param>
    /// <param name="sampleRateHz">Its rate in Hz.</param>
    /// <param name="fromSeconds">Where the take begins; what lies before the recording counts as its beginning.</param>
    /// <param name="toSeconds">Where it ends; null for the end of the recording.</param>
    /// <param name="title">Name for the tags.</param>
    /// <returns>The file; null where nothing was recorded there.</returns>
    public static byte[]? Opus(ReadOnlySpan<float> samples, int sampleRateHz, double fromSeconds, double? toSeconds, string title)
    {
        int from = (int)Math.Clamp(Math.Round(fromSeconds * sampleRateHz), 0, samples.Length);
        int to = toSeconds is { } end ? (int)Math.Clamp(Math.Round(end * sampleRateHz), from, samples.Length) : samples.Length;
        return to == from ? null : OpusFile.Of(AtOpusRate(samples[from..to], sampleRateHz), BitsPerSecond, [("TITLE", title), ("GENRE", "Practice")]);
    }

    private static ReadOnlySpan<float> AtOpusRate(ReadOnlySpan<float> samples, int sampleRateHz)
    {
        if (sampleRateHz == OpusFile.RateHz)
        {
            return samples;
        }

        using IResampler resampler = ResamplerFactory.CreateResampler(1, sampleRateHz, OpusFile.RateHz, ResamplerQuality);
        int delay = resampler.OutputLatencySamples;
        int wanted = (int)Math.Round((double)samples.Length * OpusFile.RateHz / sampleRateHz);
        float[] made = new float[wanted + delay];
        float[] padded = new float[samples.Length + resampler.InputLatency + 1];
        samples.CopyTo(padded);
        int taken = 0;
        int given = 0;
        while (given < made.Length && taken < padded.Length)
        {
            int more = padded.Length - taken;
            int room = made.Length - given;
            resampler.Process(0, padded.AsSpan(taken), ref more, made.AsSpan(given), ref room);
            if (more == 0 && room == 0)
            {
                break;
            }

            taken += more;
            given += room;
        }

        return made.AsSpan(delay);
    }
}
