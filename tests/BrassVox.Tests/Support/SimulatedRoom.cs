namespace BrassVox.Tests.Support;

/// <summary>A loudspeaker, a room and a microphone made of a seed: direct sound, then noise dying away by 60 dB.</summary>
internal sealed class SimulatedRoom(int sampleRateHz, double delaySamples, double seconds, int seed)
{
    private const int HalfWidth = 32;

    /// <summary>What the microphone gets, <paramref name="tailSamples"/> longer than the sound.</summary>
    internal float[] Heard(ReadOnlySpan<float> sent, int tailSamples = 0)
    {
        double[] response = Response();
        float[] heard = new float[sent.Length + tailSamples];
        for (int k = 0; k < response.Length; k++)
        {
            if (response[k] != 0)
            {
                for (int n = k; n < heard.Length && n - k < sent.Length; n++)
                {
                    heard[n] += (float)(response[k] * sent[n - k]);
                }
            }
        }

        return heard;
    }

    private double[] Response()
    {
        var random = new Random(seed);
        int whole = (int)delaySamples;
        double[] response = new double[whole + HalfWidth + 1 + (int)(seconds * sampleRateHz)];
        for (int n = Math.Max(0, whole - HalfWidth); n <= whole + HalfWidth; n++)
        {
            double x = n - delaySamples;
            double sinc = Math.Abs(x) < 1e-9 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x);
            response[n] = sinc * (0.5 + (0.5 * Math.Cos(Math.PI * x / (HalfWidth + 1))));
        }

        for (int n = 1; n <= (int)(seconds * sampleRateHz); n++)
        {
            response[whole + n] += 0.2 * CalibratedSounds.Gauss(random) * Math.Pow(10, -3.0 * n / (seconds * sampleRateHz));
        }

        return response;
    }
}
