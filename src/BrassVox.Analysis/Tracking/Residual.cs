namespace BrassVox.Analysis.Tracking;

/// <summary>What a fit leaves of a window's spectrum, in total and near each line.</summary>
internal sealed class Residual(WindowSpectrum spectrum)
{
    // Integral of the squared Hann kernel over frequency, in units of one cycle per window.
    private const double KernelEnergy = 1.5;

    // A line's neighbourhood, to either side. The kernel itself ends at 2: what is counted beyond shows noise that no line can take up.
    private const double NearUnits = 2.5;

    // What is left counts as a line from this many times the geometric mean of all that is left.
    private const double StandsOut = 10.0;

    // Half the width of a line through a Hann window.
    private const double MainLobeUnits = 2.0;

    private const int BinsPerLog = 8;

    private readonly WindowSpectrum _spectrum = spectrum;
    private readonly float[] _re = new float[spectrum.Re.Length];
    private readonly float[] _im = new float[spectrum.Re.Length];
    private readonly CouplingProduct _product = new(spectrum);
    private double _meanLog;

    /// <summary>Mean |R|^2 near each line of the fit.</summary>
    public double[] Noise { get; } = new double[LineFit.MostLines];

    /// <summary>Mean |X|^2 near each line of the fit.</summary>
    public double[] Present { get; } = new double[LineFit.MostLines];

    /// <summary>Mean power of the window between two frequencies, as the sum of A^2 / 2 of its lines.</summary>
    public double BandPower(double bottomHz, double topHz) => Power(_spectrum.Re, _spectrum.Im, bottomHz, topHz);

    /// <summary>The same of what the last <see cref="Take"/> left.</summary>
    public double LeftPower(double bottomHz, double topHz) => Power(_re, _im, bottomHz, topHz);

    public void Take(LineFit lines)
    {
        _spectrum.Re.CopyTo(_re);
        _spectrum.Im.CopyTo(_im);
        double unitsPerBin = _spectrum.BinHz / _spectrum.ResolutionHz;
        for (int i = 0; i < lines.Count; i++)
        {
            double centre = lines.FrequencyHz[i] / _spectrum.BinHz;
            (int from, int to) = Around(centre, HannKernel.Reach / unitsPerBin);
            float lineRe = (float)lines.Re[i];
            float lineIm = (float)lines.Im[i];
            for (int bin = from; bin <= to; bin++)
            {
                float kernel = (float)HannKernel.At((bin - centre) * unitsPerBin);
                _re[bin] -= lineRe * kernel;
                _im[bin] -= lineIm * kernel;
            }
        }

        for (int i = 0; i < lines.Count; i++)
        {
            (int from, int to) = Around(lines.FrequencyHz[i] / _spectrum.BinHz, NearUnits / unitsPerBin);
            double left = 0.0;
            double present = 0.0;
            for (int bin = from; bin <= to; bin++)
            {
                left += (_re[bin] * _re[bin]) + (_im[bin] * _im[bin]);
                present += (_spectrum.Re[bin] * _spectrum.Re[bin]) + (_spectrum.Im[bin] * _spectrum.Im[bin]);
            }

            int bins = Math.Max(1, to - from + 1);
            Noise[i] = left / bins;
            Present[i] = present / bins;
        }
    }

    /// <summary>Takes away what the product of the two fitted tones explains of the last <see cref="Take"/>.</summary>
    /// <returns>The power explained, away from the tones' own lines.</returns>
    public double TakeProduct(LineFit lines, double playedHz, double sungHz) =>
        2.0 * _product.TakeFrom(_re, _im, lines, playedHz, sungHz) * _spectrum.BinHz / (_spectrum.ResolutionHz * KernelEnergy);

    /// <summary>Sets what <see cref="StandsOutAt"/> compares with: the geometric mean of what the last <see cref="Take"/> left in a band.</summary>
    public void Level(double bottomHz, double topHz) => _meanLog = MeanLog(bottomHz, topHz);

    /// <summary>How far what the last <see cref="Take"/> left near a frequency stands over that mean, as the logarithm of a power.</summary>
    public double StandsOutAt(double hz)
    {
        int bin = Math.Clamp((int)Math.Round(hz / _spectrum.BinHz), 1, _re.Length - 2);
        return Math.Log(Math.Max(Square(bin), Math.Max(Square(bin - 1), Square(bin + 1))) + 1e-30) - _meanLog;
    }

    /// <summary>Power of what stands out of the last <see cref="Take"/> and lies on no low line mP+nS: a tone that is not in the fit.</summary>
    public double ForeignPower(double playedHz, double sungHz, double bottomHz, double topHz)
    {
        double least = StandsOut * Math.Exp(MeanLog(bottomHz, topHz));
        (int from, int to) = Bins(bottomHz, topHz);
        double sum = 0.0;
        for (int bin = from; bin <= to; bin++)
        {
            if (Square(bin) is var square && square > least && !IsLine(bin * _spectrum.BinHz, playedHz, sungHz))
            {
                sum += square;
            }
        }

        return 2.0 * sum * _spectrum.BinHz / (_spectrum.ResolutionHz * KernelEnergy);
    }

    private double MeanLog(double bottomHz, double topHz)
    {
        (int from, int to) = Bins(bottomHz, topHz);
        double logs = 0.0;
        for (int bin = from; bin <= to;)
        {
            // One logarithm for eight bins: their product stays above 1e-240.
            double product = 1.0;
            for (int end = Math.Min(bin + BinsPerLog, to + 1); bin < end; bin++)
            {
                product *= Square(bin) + 1e-30;
            }

            logs += Math.Log(product);
        }

        return logs / (to - from + 1);
    }

    private (int From, int To) Bins(double bottomHz, double topHz) =>
        ((int)Math.Ceiling(bottomHz / _spectrum.BinHz), Math.Min(_re.Length - 1, (int)(topHz / _spectrum.BinHz)));

    private double Square(int bin) => ((double)_re[bin] * _re[bin]) + ((double)_im[bin] * _im[bin]);

    // A harmonic of either tone, or one of those shifted by the other tone once.
    private bool IsLine(double hz, double playedHz, double sungHz)
    {
        double near = MainLobeUnits * _spectrum.ResolutionHz;
        return OnSeries(hz, playedHz) || OnSeries(hz, sungHz)
            || OnSeries(hz - sungHz, playedHz) || OnSeries(hz + sungHz, playedHz)
            || OnSeries(hz - playedHz, sungHz) || OnSeries(hz + playedHz, sungHz);

        bool OnSeries(double at, double fundamentalHz) => Math.Abs(at - (fundamentalHz * Math.Round(at / fundamentalHz))) < near;
    }

    private (int From, int To) Around(double centre, double reach) =>
        (Math.Max(0, (int)Math.Ceiling(centre - reach)), Math.Min(_re.Length - 1, (int)Math.Floor(centre + reach)));

    private double Power(ReadOnlySpan<float> re, ReadOnlySpan<float> im, double bottomHz, double topHz)
    {
        (int from, int to) = Bins(bottomHz, topHz);
        double sum = 0.0;
        for (int bin = from; bin <= to; bin++)
        {
            sum += (re[bin] * re[bin]) + (im[bin] * im[bin]);
        }

        return 2.0 * sum * _spectrum.BinHz / (_spectrum.ResolutionHz * KernelEnergy);
    }
}
