namespace BrassVox.Analysis.Tracking;

/// <summary>Beats per second of two nearly coinciding partials, from the swell of their common envelope over the last two seconds.</summary>
/// <remarks>
/// The squared envelope of two lines is a constant and one cosine at their distance (exact). The last stretch is fitted by
/// constant, slope and one sinusoid at each rate of a grid; the rate stands when the sinusoid explains most of what moves.
/// The limits are ours, chosen on synthetic beats with noise and on single recorded tones, which must give no rate.
/// </remarks>
internal sealed class BeatMeter(double hopSeconds)
{
    private const double LongestSeconds = 2.0;
    private const double SlowestHz = 0.5;
    private const double FastestHz = 15.0;
    private const double GridHz = 0.05;

    // A stretch must hold this many beats before their rate is told.
    private const double LeastBeats = 1.5;

    // A shorter stretch holds as much of the attack and of the voice's wander as of its beats: on the recorded mixes every
    // rate from less was wrong.
    private const double LeastSeconds = 1.0;

    private const double LeastShare = 0.8;

    // A rate is that of the whole stretch only while it holds: its older and its newer part may differ by little.
    private const double PartShare = 0.65;
    private const double MostChangeHz = 0.15;

    // Depth of the swell in the squared envelope, as share of its mean: 0.2 is two lines 20 dB apart.
    private const double LeastDepth = 0.2;

    private readonly double[] _swell = new double[(int)(LongestSeconds / hopSeconds)];
    private int _count;
    private (int Played, int Sung) _pair;

    /// <summary>Forgets the envelope.</summary>
    public void Clear() => _count = 0;

    /// <summary>Adds the squared envelope of one hop; another pair of harmonics starts anew.</summary>
    public void Add(int playedHarmonic, int sungHarmonic, double squaredEnvelope)
    {
        if (_pair != (playedHarmonic, sungHarmonic))
        {
            _pair = (playedHarmonic, sungHarmonic);
            _count = 0;
        }

        if (_count == _swell.Length)
        {
            Array.Copy(_swell, 1, _swell, 0, _count - 1);
            _count--;
        }

        _swell[_count++] = squaredEnvelope;
    }

    /// <summary>Beats per second, or null when no steady beat is there.</summary>
    public double? Rate()
    {
        double seconds = _count * hopSeconds;
        double lowest = Math.Max(SlowestHz, LeastBeats / seconds);
        if (seconds < LeastSeconds || lowest >= FastestHz)
        {
            return null;
        }

        (double share, double depth, double rate) best = (0.0, 0.0, 0.0);
        int steps = (int)((FastestHz - lowest) / GridHz);
        for (int i = 0; i <= steps; i++)
        {
            double rate = lowest + (i * GridHz);
            (double share, double depth) = Fit(_swell.AsSpan(0, _count), rate);
            if (share > best.share)
            {
                best = (share, depth, rate);
            }
        }

        bool atEdge = best.rate <= lowest + (0.5 * GridHz);
        return best.share >= LeastShare && best.depth >= LeastDepth && !atEdge && Holds(best.rate) ? best.rate : null;
    }

    private bool Holds(double rateHz)
    {
        int part = (int)(PartShare * _count);
        return Holds(_swell.AsSpan(0, part), rateHz) && Holds(_swell.AsSpan(_count - part, part), rateHz);
    }

    // The part's own best rate lies no further off than it may: what lies further fits worse.
    private bool Holds(ReadOnlySpan<double> part, double rateHz)
    {
        double within = 0.0;
        double beyond = 0.0;
        for (double away = -2.0 * MostChangeHz; away <= 2.001 * MostChangeHz; away += GridHz)
        {
            double share = Fit(part, rateHz + away).Share;
            if (Math.Abs(away) <= MostChangeHz + (0.5 * GridHz))
            {
                within = Math.Max(within, share);
            }
            else
            {
                beyond = Math.Max(beyond, share);
            }
        }

        return within >= LeastShare && within > beyond;
    }

    /// <summary>A rate that nothing here beats as fast as, or null when that cannot be said: what a slow curve leaves of two full seconds is small.</summary>
    public double? SlowerThan()
    {
        if (_count < _swell.Length)
        {
            return null;
        }

        double mean = 0.0;
        Span<double> rest = stackalloc double[_count];
        for (int i = 0; i < _count; i++)
        {
            rest[i] = _swell[i];
            mean += _swell[i] / _count;
        }

        TakeSlowCurve(rest);
        double power = 0.0;
        foreach (double x in rest)
        {
            power += x * x / _count;
        }

        // A swell of the least depth that counts has this much power about its mean.
        return power < 0.5 * LeastDepth * LeastDepth * mean * mean ? LeastBeats / LongestSeconds : null;
    }

    // Takes out what polynomials up to the fourth degree explain: about one and a half slow turns over the stretch.
    private static void TakeSlowCurve(Span<double> y)
    {
        int n = y.Length;
        Span<double> before = stackalloc double[n];
        Span<double> now = stackalloc double[n];
        before.Clear();
        now.Fill(1.0);
        double normBefore = 1.0;
        for (int degree = 0; degree <= 4; degree++)
        {
            double norm = 0.0;
            double dot = 0.0;
            for (int i = 0; i < n; i++)
            {
                norm += now[i] * now[i];
                dot += now[i] * y[i];
            }

            for (int i = 0; i < n; i++)
            {
                double t = (2.0 * i / (n - 1)) - 1.0;
                y[i] -= dot / norm * now[i];
                (before[i], now[i]) = (now[i], (t * now[i]) - (norm / normBefore * before[i]));
            }

            normBefore = norm;
        }
    }

    // Least squares of constant, slope, cosine and sine; share of the moving part that cosine and sine explain.
    private (double Share, double Depth) Fit(ReadOnlySpan<double> swell, double rateHz)
    {
        int n = swell.Length;
        double middle = 0.5 * (n - 1);
        double step = 2.0 * Math.PI * rateHz * hopSeconds;
        double turnCos = Math.Cos(step);
        double turnSin = Math.Sin(step);
        double c = Math.Cos(-middle * step);
        double s = Math.Sin(-middle * step);
        double sy = 0, syy = 0, sty = 0, stt = 0, sc = 0, scc = 0, sss = 0, sts = 0, scy = 0, ssy = 0;
        for (int i = 0; i < n; i++)
        {
            double y = swell[i];
            double t = i - middle;
            sy += y;
            syy += y * y;
            sty += t * y;
            stt += t * t;
            sc += c;
            scc += c * c;
            sss += s * s;
            sts += t * s;
            scy += c * y;
            ssy += s * y;
            (c, s) = ((c * turnCos) - (s * turnSin), (c * turnSin) + (s * turnCos));
        }

        // Even (constant, cosine) and odd (slope, sine) parts are orthogonal about the middle.
        double mean = sy / n;
        double moving = syy - (sy * mean) - (sty * sty / stt);
        double evenRight = scy - (sc * mean);
        double evenLeft = scc - (sc * sc / n);
        double oddRight = ssy - (sts * sty / stt);
        double oddLeft = sss - (sts * sts / stt);
        if (moving <= 1e-9 * syy || evenLeft <= 0.0 || oddLeft <= 0.0)
        {
            return (0.0, 0.0);
        }

        double explained = (evenRight * evenRight / evenLeft) + (oddRight * oddRight / oddLeft);
        double amplitude = Math.Sqrt(Math.Pow(evenRight / evenLeft, 2.0) + Math.Pow(oddRight / oddLeft, 2.0));
        return (explained / moving, amplitude / mean);
    }
}
