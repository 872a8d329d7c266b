namespace BrassVox.Analysis.Tracking;

/// <summary>Complex amplitudes of given lines by weighted least squares, read from a window's spectrum.</summary>
/// <remarks>
/// Minimises sum w |x - sum c_k e_k|^2 + ridge sum |c_k|^2. The normal equations hold the window's transform at the lines'
/// distances (real, narrow), their right side the spectrum at the lines; solved by a Cholesky factor inside its envelope.
/// Source: non-linear least squares for harmonic sums, M. G. Christensen and A. Jakobsson, Multi-Pitch Estimation, 2009 (from memory).
/// </remarks>
internal sealed class LineFit
{
    /// <summary>Most lines taken.</summary>
    public const int MostLines = 240;

    private const int MostNeighbours = 24;

    private readonly double[] _factor = new double[MostLines * MostNeighbours];
    private readonly int[] _first = new int[MostLines];
    private readonly double[] _rightRe = new double[MostLines];
    private readonly double[] _rightIm = new double[MostLines];
    private readonly double[] _workRe = new double[MostLines];
    private readonly double[] _workIm = new double[MostLines];
    private readonly double[] _energy = new double[MostLines];

    public double[] FrequencyHz { get; } = new double[MostLines];

    /// <summary>Harmonic number on P, 0 when the line does not hold P.</summary>
    public int[] PlayedNumber { get; } = new int[MostLines];

    /// <summary>Harmonic number on S, 0 when the line does not hold S.</summary>
    public int[] SungNumber { get; } = new int[MostLines];

    public double[] Re { get; } = new double[MostLines];

    public double[] Im { get; } = new double[MostLines];

    public int Count { get; private set; }

    /// <summary>Lists the harmonics of both tones up to a frequency, in rising order. A tone at 0 Hz is left out.</summary>
    public void List(double playedHz, double sungHz, double playedTopHz, double sungTopHz)
    {
        int count = 0;
        int m = playedHz > 0.0 ? 1 : int.MaxValue;
        int n = sungHz > 0.0 ? 1 : int.MaxValue;
        while (count < MostLines)
        {
            double nextPlayed = m == int.MaxValue || m * playedHz > playedTopHz ? double.MaxValue : m * playedHz;
            double nextSung = n == int.MaxValue || n * sungHz > sungTopHz ? double.MaxValue : n * sungHz;
            double next = Math.Min(nextPlayed, nextSung);
            if (next == double.MaxValue)
            {
                break;
            }

            bool fromPlayed = nextPlayed <= nextSung;
            FrequencyHz[count] = next;
            PlayedNumber[count] = fromPlayed ? m++ : 0;
            SungNumber[count] = fromPlayed ? 0 : n++;
            count++;
        }

        Count = count;
    }

    /// <summary>How many of the first <paramref name="count"/> lines lie further than <paramref name="apartHz"/> above the one before.</summary>
    public int Distinct(double apartHz, int count)
    {
        int distinct = 0;
        for (int i = 0; i < count; i++)
        {
            distinct += i == 0 || FrequencyHz[i] - FrequencyHz[i - 1] > apartHz ? 1 : 0;
        }

        return distinct;
    }

    /// <summary>Fits the listed lines; afterwards <see cref="Re"/> and <see cref="Im"/> hold half amplitudes.</summary>
    /// <returns>Mean power explained, window-weighted; A cos alone gives A^2 / 2.</returns>
    public double Solve(WindowSpectrum spectrum, double ridge, bool amplitudes)
    {
        double perUnit = 1.0 / spectrum.ResolutionHz;
        double energy = 0.0;
        for (int i = 0; i < Count; i++)
        {
            double hz = FrequencyHz[i];
            spectrum.Read(hz, out double re, out double im);
            _rightRe[i] = re;
            _rightIm[i] = im;
            int first = i;
            while (first > 0 && i - first < MostNeighbours - 1 && (hz - FrequencyHz[first - 1]) * perUnit < HannKernel.Reach)
            {
                first--;
            }

            _first[i] = first;
            int row = i * MostNeighbours;
            double workRe = re;
            double workIm = im;
            double diagonal = 1.0 + ridge;
            for (int j = first; j < i; j++)
            {
                int other = j * MostNeighbours;
                double value = HannKernel.At((hz - FrequencyHz[j]) * perUnit);
                for (int k = Math.Max(first, _first[j]); k < j; k++)
                {
                    value -= _factor[row + i - k] * _factor[other + j - k];
                }

                value /= _factor[other];
                _factor[row + i - j] = value;
                diagonal -= value * value;
                workRe -= value * _workRe[j];
                workIm -= value * _workIm[j];
            }

            double root = Math.Sqrt(Math.Max(diagonal, 0.1 * ridge));
            _factor[row] = root;
            _workRe[i] = workRe / root;
            _workIm[i] = workIm / root;
            energy += (_workRe[i] * _workRe[i]) + (_workIm[i] * _workIm[i]);
            _energy[i] = energy;
        }

        if (amplitudes)
        {
            BackSubstitute();
        }

        return 2.0 * energy;
    }

    /// <summary>Mean power that the first lines alone explain, once all are solved; lines rise, so these are a fit of their own.</summary>
    /// <param name="count">How many of them, 0 to <see cref="Count"/>.</param>
    public double ExplainedBy(int count) => count == 0 ? 0.0 : 2.0 * _energy[count - 1];

    /// <summary>How many lines lie at or below a frequency.</summary>
    public int CountBelow(double topHz)
    {
        int count = Count;
        while (count > 0 && FrequencyHz[count - 1] > topHz)
        {
            count--;
        }

        return count;
    }

    /// <summary>Distance of a line to the nearest other one, in Hz.</summary>
    public double NearestHz(int line) => Math.Min(
        line > 0 ? FrequencyHz[line] - FrequencyHz[line - 1] : double.PositiveInfinity,
        line + 1 < Count ? FrequencyHz[line + 1] - FrequencyHz[line] : double.PositiveInfinity);

    /// <summary>Takes the levelling out of the fitted amplitudes.</summary>
    public void Restore(WindowSpectrum spectrum)
    {
        for (int i = 0; i < Count; i++)
        {
            double gain = spectrum.GainAt(FrequencyHz[i]);
            Re[i] /= gain;
            Im[i] /= gain;
        }
    }

    private void BackSubstitute()
    {
        for (int i = 0; i < Count; i++)
        {
            Re[i] = _workRe[i];
            Im[i] = _workIm[i];
        }

        for (int i = Count - 1; i >= 0; i--)
        {
            int row = i * MostNeighbours;
            Re[i] /= _factor[row];
            Im[i] /= _factor[row];
            for (int j = _first[i]; j < i; j++)
            {
                Re[j] -= _factor[row + i - j] * Re[i];
                Im[j] -= _factor[row + i - j] * Im[i];
            }
        }
    }
}
