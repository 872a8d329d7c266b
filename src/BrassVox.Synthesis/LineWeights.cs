namespace BrassVox.Synthesis;

/// <summary>Per-frequency factors that the sound thread looks up: what the bell lets out and how much a line counts towards loudness.</summary>
internal sealed class LineWeights
{
    private const double StepHz = 2;
    private readonly float[] _bell;
    private readonly float[] _loudness;
    private readonly float[] _both;

    internal LineWeights(double bellCornerHz, int sampleRateHz)
    {
        int count = (int)(sampleRateHz * 0.5 / StepHz) + 2;
        _bell = new float[count];
        _loudness = new float[count];
        _both = new float[count];
        for (int i = 0; i < count; i++)
        {
            double hz = Math.Min(i * StepHz, sampleRateHz * 0.4999);
            double ratio = BellRadiation.Ratio(hz, bellCornerHz, sampleRateHz);
            _bell[i] = (float)(ratio / Math.Sqrt(1 + (ratio * ratio)));
            _loudness[i] = (float)KWeightingCurve.PowerGain(Math.Min(hz, 23990));
            _both[i] = _bell[i] * _bell[i] * _loudness[i];
        }
    }

    /// <summary>Share of a line's amplitude that the bell lets out.</summary>
    internal float Bell(double frequencyHz) => Lookup(_bell, frequencyHz);

    /// <summary>K-weighted power of a line of unit power.</summary>
    internal float Loudness(double frequencyHz) => Lookup(_loudness, frequencyHz);

    /// <summary>K-weighted power of a line of unit power that goes through the bell.</summary>
    internal float LoudnessThroughBell(double frequencyHz) => Lookup(_both, frequencyHz);

    private static float Lookup(float[] table, double frequencyHz)
    {
        double place = Math.Abs(frequencyHz) / StepHz;
        int index = Math.Min((int)place, table.Length - 2);
        float part = (float)Math.Min(place - index, 1);
        return table[index] + (part * (table[index + 1] - table[index]));
    }
}
