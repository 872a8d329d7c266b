using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Finds the two fundamentals whose harmonics together explain most of a window.</summary>
internal sealed class PairSearch(WindowSpectrum spectrum)
{
    /// <summary>Highest partial read by the final fit, in Hz.</summary>
    public const double TopHz = Decimator.BandTopHz;

    // Half a spectral line's width at this frequency is about one grid step in cents: a coarser grid would step over the peak.
    private const double CoarseTopHz = 900.0;
    private const double CoarseStepCents = 12.5;

    // Keeps two lines that fall together from being given opposite, huge amplitudes.
    private const double Ridge = 1e-5;

    /// <summary>The same while different pairs are weighed against each other: lines that have to share one line of the sound gain less by it.</summary>
    public const double SearchRidge = 1e-2;

    private readonly WindowSpectrum _spectrum = spectrum;

    public LineFit Lines { get; } = new();

    public WindowSpectrum Spectrum => _spectrum;

    /// <summary>Width of one line in Hz: one cycle per window.</summary>
    public double LineHz => _spectrum.ResolutionHz;

    /// <summary>Share of the band that one line can take up.</summary>
    public double LineShare => _spectrum.ResolutionHz / TopHz;

    /// <summary>Power explained by the two tones; a tone at 0 Hz is left out.</summary>
    public double Explained(double playedHz, double sungHz, double topHz, bool amplitudes = false)
    {
        Lines.List(playedHz, sungHz, topHz, topHz);
        return Lines.Solve(_spectrum, Ridge, amplitudes);
    }

    /// <summary>The same with <see cref="SearchRidge"/>, each tone with a top of its own.</summary>
    public double Explained(double playedHz, double sungHz, double playedTopHz, double sungTopHz, bool amplitudes = false)
    {
        Lines.List(playedHz, sungHz, playedTopHz, sungTopHz);
        return Lines.Solve(_spectrum, SearchRidge, amplitudes);
    }

    /// <summary>Best pair on a grid around two declared pitches, refined.</summary>
    public PairFit Acquire(double playedHz, double sungHz, double reachCents)
    {
        int steps = (int)Math.Ceiling(reachCents / CoarseStepCents);
        double best = -1.0;
        (double P, double S) place = (playedHz, sungHz);
        for (int i = -steps; i <= steps; i++)
        {
            double p = Cents.Above(playedHz, i * CoarseStepCents);
            for (int j = -steps; j <= steps; j++)
            {
                double s = Cents.Above(sungHz, j * CoarseStepCents);
                double explained = Explained(p, s, CoarseTopHz);
                if (explained > best)
                {
                    best = explained;
                    place = (p, s);
                }
            }
        }

        PairFit rough = Refine(place.P, place.S, 8.0, CoarseTopHz, 3);
        return Refine(rough.PlayedHz, rough.SungHz, 4.0, TopHz, 4);
    }

    /// <summary>Climbs from a near pair to the best one by quadratic steps.</summary>
    public PairFit Refine(double playedHz, double sungHz, double stepCents, double topHz, int rounds)
    {
        double p = playedHz;
        double s = sungHz;
        double h = stepCents;
        PairFit fit = default;
        for (int round = 0; round < rounds; round++)
        {
            double up = Cents.ToRatio(h);
            double centre = Explained(p, s, topHz);
            double playedUp = Explained(p * up, s, topHz);
            double playedDown = Explained(p / up, s, topHz);
            double sungUp = Explained(p, s * up, topHz);
            double sungDown = Explained(p, s / up, topHz);
            double bothUp = Explained(p * up, s * up, topHz);
            double square = h * h;
            double hp = ((2.0 * centre) - playedUp - playedDown) / square;
            double hs = ((2.0 * centre) - sungUp - sungDown) / square;
            double hc = (playedUp + sungUp - centre - bothUp) / square;
            double gp = (playedUp - playedDown) / (2.0 * h);
            double gs = (sungUp - sungDown) / (2.0 * h);
            fit = new PairFit(p, s, centre, hp, hs, hc);
            (double dp, double ds) = Step(hp, hs, hc, gp, gs, 2.0 * h);
            p = Cents.Above(p, dp);
            s = Cents.Above(s, ds);
            double moved = Math.Max(Math.Abs(dp), Math.Abs(ds));
            if (moved < 1.0 && h <= 3.0)
            {
                break;
            }

            h = moved > h ? h : Math.Max(2.0, 0.5 * h);
        }

        return fit with { PlayedHz = p, SungHz = s };
    }

    /// <summary>Climbs by the played pitch alone, the sung one being known.</summary>
    public PairFit RefinePlayed(double playedHz, double sungHz, double stepCents, int rounds)
    {
        double p = playedHz;
        PairFit fit = default;
        for (int round = 0; round < rounds; round++)
        {
            double up = Cents.ToRatio(stepCents);
            double centre = Explained(p, sungHz, TopHz);
            double above = Explained(p * up, sungHz, TopHz);
            double below = Explained(p / up, sungHz, TopHz);
            double curvature = ((2.0 * centre) - above - below) / (stepCents * stepCents);
            fit = new PairFit(p, sungHz, centre, curvature, 0.0, 0.0);
            p = Cents.Above(p, Alone(curvature, (above - below) / (2.0 * stepCents), 2.0 * stepCents));
        }

        return fit with { PlayedHz = p };
    }

    /// <summary>
    /// Curvature by each pitch while the other may give way, for pairs whose harmonics fall together: there the surface is no
    /// quadratic (either line covers for the other) and the cross curvature means nothing.
    /// </summary>
    public (double Played, double Sung) Profile(double playedHz, double sungHz, double stepCents)
    {
        double centre = Explained(playedHz, sungHz, TopHz);
        double playedLoss = 0.0;
        double sungLoss = 0.0;
        for (int side = -1; side <= 1; side += 2)
        {
            double bestPlayed = 0.0;
            double bestSung = 0.0;
            double moved = Cents.ToRatio(side * stepCents);
            for (int give = -1; give <= 1; give++)
            {
                double other = Cents.ToRatio(give * stepCents);
                bestPlayed = Math.Max(bestPlayed, Explained(playedHz * moved, sungHz * other, TopHz));
                bestSung = Math.Max(bestSung, Explained(playedHz * other, sungHz * moved, TopHz));
            }

            playedLoss += 0.5 * (centre - bestPlayed);
            sungLoss += 0.5 * (centre - bestSung);
        }

        double perSquare = 2.0 / (stepCents * stepCents);
        return (playedLoss * perSquare, sungLoss * perSquare);
    }

    private static (double Played, double Sung) Step(double hp, double hs, double hc, double gp, double gs, double most)
    {
        double determinant = (hp * hs) - (hc * hc);
        if (hp > 0.0 && hs > 0.0 && determinant > PairFit.LeastQuadratic * hp * hs)
        {
            double dp = ((hs * gp) - (hc * gs)) / determinant;
            double ds = ((hp * gs) - (hc * gp)) / determinant;
            double longest = Math.Max(Math.Abs(dp), Math.Abs(ds));
            double scale = longest > most ? most / longest : 1.0;
            return (dp * scale, ds * scale);
        }

        return (Alone(hp, gp, most), Alone(hs, gs, most));
    }

    private static double Alone(double h, double g, double most) =>
        h > 0.0 ? Math.Clamp(g / h, -most, most) : g > 0.0 ? 0.5 * most : g < 0.0 ? -0.5 * most : 0.0;
}
