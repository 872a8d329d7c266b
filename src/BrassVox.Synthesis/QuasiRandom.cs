namespace BrassVox.Synthesis;

/// <summary>A slow wander without memory: a few sines at unrelated rates from 0.11 to 1.7 Hz with seeded phases; mean 0, standard deviation 1.</summary>
internal sealed class QuasiRandom
{
    private static readonly double[] RatesHz = [0.11, 0.27, 0.53, 0.97, 1.71];
    private readonly double[] _phases = new double[RatesHz.Length];

    internal QuasiRandom(int seed)
    {
        SeededNoise noise = new(seed);
        for (int i = 0; i < _phases.Length; i++)
        {
            _phases[i] = Math.PI * noise.Next();
        }
    }

    internal double At(double seconds)
    {
        double sum = 0;
        for (int i = 0; i < _phases.Length; i++)
        {
            sum += Math.Sin((2 * Math.PI * RatesHz[i] * seconds) + _phases[i]);
        }

        return sum * Math.Sqrt(2.0 / RatesHz.Length);
    }
}
