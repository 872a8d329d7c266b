using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>What may be said of a fitted pair: which tones are there, and whether the window decides their pitches.</summary>
internal readonly record struct FrameVerdict(PitchEstimate? Played, PitchEstimate? Sung, double? BeatRateHz, Separability Separability)
{
    /// <summary>The pair that should be looked at in place of an undeclared one, the lower tone first; null where none should.</summary>
    public (double Lower, double Upper, bool Surely)? Instead { get; init; }

    /// <summary>Variance in square cents of the pitch that the window decides less well.</summary>
    public double Variance { get; init; }

    // Power that K lines add, against the noise left near them. In noise alone the mean is about 2 (the fit has taken half
    // of the noise away), its spread falls as 1 / sqrt(K), and the search picks the best of a grid, much the larger one when nothing is declared:
    // 3 (1 + 4 / sqrt(K)) and 3 (1 + 10 / sqrt(K)) clear it.
    private const double PresentRatio = 3.0;
    private const double PresentSpreadDeclared = 4.0;
    private const double PresentSpreadSearched = 10.0;

    // Lines of its own have to hold this share of all the power: 23 dB down is less than an unsteady partial leaks.
    private const double WeakestShare = 5e-3;

    // A line is a tone's own when no line of the other lies nearer, in widths of a line.
    private const double OwnUnits = 1.0;

    // Share of the band that both tones explain, beyond what as many lines take of noise.
    private const double LeastShare = 0.1;

    // A pitch stands when the bound of the fit is under this many cents.
    private const double DecidedCents = 6.0;
    private const double ProfileStepCents = 2.0;

    // Nearer than 0.6 of a cycle per window the two lines are one (the Hann kernel there is still over 0.8): 3.75 Hz in 160 ms.
    private const double MeetingHz = 3.75;
    private const double MeetingUnits = 0.6;
    private const int HighestMeeting = 6;

    // Nearer than this at the unison, nothing but the timbre could tell the two tones' roles apart.
    private const double UnisonCents = 60.0;

    // How far players land from a declared note; a table value of ours, to be replaced by the log's.
    private const double DeclaredSpreadCents = 35.0;

    private const double LeastConfidence = 0.5;

    // Where nothing was declared, what stands out beside the pair and its coupling lines may be a tone that the pair misses: from this
    // share of what the weaker tone adds on. Set on the benchmark's own mixes (0.2 to 0.5 tried), checked on the recorded ones.
    private const double ForeignShare = 0.3;
    private const double BottomHz = 20.0;

    // What reads as S may be P+S of a voice that hardly sounds itself: declined when S-P adds this share of what S adds. A voice lower
    // than this part of P is not looked for so: its series holds that of P.
    private const double SumShare = 0.7;
    private const double LeastTruePart = 0.9;

    // A partial taken for a tone is that of a tone above this: lower ones have so many partials that one more goes unnoticed.
    private const double LowestHz = 40.0;

    private const double FastestBeatHz = 20.0;

    public static FrameVerdict Of(PairSearch search, Residual residual, PairFit fit, double bandPower, bool searched, bool free, bool moves, bool weighed = false)
    {
        double p = fit.PlayedHz;
        double s = fit.SungHz;
        double playedAlone = search.Explained(p, 0.0, PairSearch.TopHz);
        double sungAlone = search.Explained(0.0, s, PairSearch.TopHz);
        double both = search.Explained(p, s, PairSearch.TopHz, amplitudes: true);
        LineFit lines = search.Lines;
        residual.Take(lines);
        lines.Restore(spectrum: search.Spectrum);
        double ownHz = OwnUnits * search.LineHz;
        Tone played = Tone.Of(lines, residual, lines.PlayedNumber, both - sungAlone, ownHz);
        Tone sung = Tone.Of(lines, residual, lines.SungNumber, both - playedAlone, ownHz);
        bool anything = both / bandPower > LeastShare + (1.5 * lines.Count * search.LineShare);
        double spread = searched ? PresentSpreadSearched : PresentSpreadDeclared;
        bool playedThere = anything && played.IsThere(spread) && played.OwnShare > WeakestShare;
        bool sungThere = anything && sung.IsThere(spread) && sung.OwnShare > WeakestShare;
        bool meets = Meet(p, s, Math.Max(MeetingHz, MeetingUnits * search.LineHz)) is not null || (free && NearOctave(p, s));
        if (!playedThere && !sungThere && !(anything && meets && Tone.Of(lines, residual, null, both, ownHz).IsThere(spread)))
        {
            return new FrameVerdict(null, null, null, Separability.Silent);
        }

        bool root = free
            && ((playedThere && CommonRoot.Of(lines, lines.PlayedNumber, search.LineHz) is not null) || (sungThere && CommonRoot.Of(lines, lines.SungNumber, search.LineHz) is not null));
        double weaker = Math.Min(both - sungAlone, both - playedAlone);
        bool another = (free || moves) && playedThere && sungThere && residual.ForeignPower(p, s, BottomHz, PairSearch.TopHz) > ForeignShare * weaker;
        if (another && free)
        {
            // What the instrument makes of the two is no third tone.
            _ = residual.TakeProduct(lines, p, s);
            another = residual.ForeignPower(p, s, BottomHz, PairSearch.TopHz) > ForeignShare * weaker;
        }

        (double, double, bool)? instead = free && !meets && !weighed ? TrueSeries.Instead(search, p, s, both - sungAlone, both - playedAlone, both, bandPower, LowestHz) : null;
        (double sdPlayed, double sdSung) = Bounds(search, fit, Math.Max(played.Noise, sung.Noise));
        PitchEstimate? playedTone = sdPlayed <= DecidedCents ? new(p, played.LevelDb, played.Confidence) : null;
        PitchEstimate? sungTone = sdSung <= DecidedCents ? new(s, sung.LevelDb, sung.Confidence) : null;
        if (meets)
        {
            // Above the unison P keeps the harmonics that S does not touch.
            bool own = playedThere && s > 1.5 * p;
            return new FrameVerdict(own ? playedTone : null, null, null, Separability.NotSeparable);
        }

        if (moves && playedThere && sungThere && !meets && s > (1.0 + LeastTruePart) * p)
        {
            another |= search.Explained(p, s - p, PairSearch.TopHz) > both - ((1.0 - SumShare) * (both - playedAlone));
        }

        if (root || another || instead is not null)
        {
            return new FrameVerdict(null, null, null, Separability.NotSeparable) { Instead = instead };
        }

        if (!playedThere || !sungThere)
        {
            bool decided = Math.Sqrt(2.0 * (playedThere ? played.Noise / fit.CurvaturePlayed : sung.Noise / fit.CurvatureSung)) <= DecidedCents;
            PitchEstimate only = playedThere ? new(p, played.LevelDb, played.Confidence) : new(s, sung.LevelDb, sung.Confidence);
            return !decided ? new FrameVerdict(null, null, null, Separability.Silent)
                : playedThere ? new FrameVerdict(only, null, null, Separability.OneTone)
                : new FrameVerdict(null, only, null, Separability.OneTone);
        }

        return playedTone is not null && sungTone is not null
            ? new FrameVerdict(playedTone, sungTone, Beat(p, s), Separability.Separable) { Variance = Math.Pow(Math.Max(sdPlayed, sdSung), 2.0) }
            : Alone(playedTone, sungTone);
    }

    /// <summary>One tone of two that are there, or none: then nothing tells them apart.</summary>
    public static FrameVerdict Alone(PitchEstimate? played, PitchEstimate? sung) =>
        new(played, sung, null, played is null && sung is null ? Separability.NotSeparable : Separability.OneTone);

    /// <summary>The one tone of a fit whose S is left out, at its place of P; null when it is not there or the window does not decide its pitch.</summary>
    public static PitchEstimate? OfOne(PairSearch search, Residual residual, PairFit fit, double bandPower)
    {
        double alone = search.Explained(fit.PlayedHz, 0.0, PairSearch.TopHz, amplitudes: true);
        LineFit lines = search.Lines;
        residual.Take(lines);
        lines.Restore(search.Spectrum);
        Tone tone = Tone.Of(lines, residual, lines.PlayedNumber, alone, OwnUnits * search.LineHz);
        bool isThere = alone / bandPower > LeastShare + (1.5 * lines.Count * search.LineShare) && tone.IsThere(PresentSpreadDeclared);
        bool isDecided = fit.CurvaturePlayed > 0.0 && Math.Sqrt(2.0 * tone.Noise / fit.CurvaturePlayed) <= DecidedCents;
        return isThere && isDecided ? new PitchEstimate(fit.PlayedHz, tone.LevelDb, tone.Confidence) : null;
    }

    /// <summary>What may be said when a second channel has settled the sung pitch.</summary>
    public static FrameVerdict OfKnownSung(PairSearch search, Residual residual, PairFit fit, PitchEstimate sung)
    {
        double sungAlone = search.Explained(0.0, fit.SungHz, PairSearch.TopHz);
        double both = search.Explained(fit.PlayedHz, fit.SungHz, PairSearch.TopHz, amplitudes: true);
        LineFit lines = search.Lines;
        residual.Take(lines);
        lines.Restore(search.Spectrum);
        Tone played = Tone.Of(lines, residual, lines.PlayedNumber, both - sungAlone, OwnUnits * search.LineHz);
        bool decided = fit.CurvaturePlayed > 0.0 && Math.Sqrt(2.0 * played.Noise / fit.CurvaturePlayed) <= DecidedCents;
        bool meets = Meet(fit.PlayedHz, fit.SungHz) is not null;
        return decided && played.IsThere(PresentSpreadDeclared) && !(meets && fit.SungHz < 1.5 * fit.PlayedHz)
            ? new FrameVerdict(new PitchEstimate(fit.PlayedHz, played.LevelDb, played.Confidence), sung, Beat(fit.PlayedHz, fit.SungHz), Separability.Separable)
            : new FrameVerdict(null, sung, null, meets ? Separability.NotSeparable : Separability.OneTone);
    }

    /// <summary>Puts the tones into the roles that the declared notes give them; where both ways fit, declines.</summary>
    /// <remarks>Two harmonic series can change places without any change of the sound: only what is known beforehand tells them apart.</remarks>
    public FrameVerdict WithRolesChecked(DuetPrior prior)
    {
        if (Separability != Separability.Separable || Played is not { } p || Sung is not { } s)
        {
            return this;
        }

        double asIs = Misfit(p.FrequencyHz, prior.PlayedHz, prior.PlayedMoves) + Misfit(s.FrequencyHz, prior.SungHz, prior.SungMoves);
        double swapped = Misfit(s.FrequencyHz, prior.PlayedHz, prior.PlayedMoves) + Misfit(p.FrequencyHz, prior.SungHz, prior.SungMoves);
        if (prior is { PlayedHz: { } playedHz, SungHz: { } sungHz, PlayedMoves: true, SungMoves: true })
        {
            // Both may be far from where they were declared: the nearer way round.
            double Far(double asPlayed, double asSung) => Math.Abs(Cents.Between(playedHz, asPlayed)) + Math.Abs(Cents.Between(sungHz, asSung));
            return Far(s.FrequencyHz, p.FrequencyHz) < Far(p.FrequencyHz, s.FrequencyHz) ? this with { Played = s, Sung = p } : this;
        }

        bool declared = prior.PlayedHz is not null || prior.SungHz is not null;
        return !declared || swapped - asIs > RoleEvidence.Clear ? this
            : asIs - swapped > RoleEvidence.Clear ? this with { Played = s, Sung = p }
            : new FrameVerdict(null, null, BeatRateHz, Separability.NotSeparable);
    }

    /// <summary>Takes one tone alone for fog where the other, held, was declared on a harmonic of it: there it may sound and change nothing but the timbre.</summary>
    public FrameVerdict WithHiddenTone(DuetPrior prior)
    {
        bool isHidden = (Played, Sung) switch
        {
            ({ } heard, null) => !prior.SungMoves && prior.SungHz is { } sungHz && IsOnHarmonic(heard.FrequencyHz, sungHz),
            (null, { } heard) => !prior.PlayedMoves && prior.PlayedHz is { } playedHz && IsOnHarmonic(heard.FrequencyHz, playedHz),
            _ => false,
        };
        return isHidden && Separability == Separability.OneTone ? this with { Separability = Separability.NotSeparable } : this;
    }

    private static bool IsOnHarmonic(double heardHz, double declaredHz)
    {
        double k = Math.Round(declaredHz / heardHz);
        return k is >= 1.0 and <= HighestMeeting && Math.Abs(Cents.Between(k * heardHz, declaredHz)) < UnisonCents;
    }

    // Without declared notes a tone a little off the octave or twelfth may as well be one a little off the unison:
    // what tells them apart, its odd harmonics, lies hidden beside the other tone's.
    private static bool NearOctave(double lowerHz, double upperHz)
    {
        double k = Math.Round(upperHz / lowerHz);
        return k is 2.0 or 3.0 or 4.0 && Math.Abs(Cents.Between(k * lowerHz, upperHz)) < UnisonCents;
    }

    private static double Misfit(double hz, double? declaredHz, bool moves)
    {
        double away = declaredHz is { } declared && !moves ? Cents.Between(declared, hz) / DeclaredSpreadCents : 0.0;
        return 0.5 * away * away;
    }

    // Standard deviations in cents: noise over the curvature of the fit, the other pitch unknown as well.
    private static (double Played, double Sung) Bounds(PairSearch search, PairFit fit, double noise)
    {
        double product = fit.CurvaturePlayed * fit.CurvatureSung;
        double determinant = product - (fit.CurvatureCross * fit.CurvatureCross);
        if (fit.CurvaturePlayed > 0.0 && fit.CurvatureSung > 0.0 && determinant > PairFit.LeastQuadratic * product)
        {
            return (Math.Sqrt(2.0 * noise * fit.CurvatureSung / determinant), Math.Sqrt(2.0 * noise * fit.CurvaturePlayed / determinant));
        }

        (double played, double sung) = search.Profile(fit.PlayedHz, fit.SungHz, ProfileStepCents);
        return (played > 0.0 ? Math.Sqrt(2.0 * noise / played) : double.PositiveInfinity, sung > 0.0 ? Math.Sqrt(2.0 * noise / sung) : double.PositiveInfinity);
    }

    /// <summary>The harmonics by which one tone sits on a harmonic of the other, the first (unison) to the sixth, or null.</summary>
    public static (int Played, int Sung)? Meet(double playedHz, double sungHz, double meetingHz = MeetingHz)
    {
        bool above = sungHz >= playedHz;
        int k = (int)Math.Round(above ? sungHz / playedHz : playedHz / sungHz);
        double apartHz = above ? Math.Abs(sungHz - (k * playedHz)) : Math.Abs(playedHz - (k * sungHz));
        bool meets = k <= HighestMeeting && (apartHz < meetingHz || (k == 1 && Math.Abs(Cents.Between(playedHz, sungHz)) < UnisonCents));
        return !meets ? null : above ? (k, 1) : (1, k);
    }

    private static double? Beat(double playedHz, double sungHz)
    {
        for (int order = 2; order <= 12; order++)
        {
            for (int k = 1; k < order; k++)
            {
                double rate = Math.Abs((k * playedHz) - ((order - k) * sungHz));
                if (rate <= FastestBeatHz)
                {
                    return rate;
                }
            }
        }

        return null;
    }

    private readonly record struct Tone(double Ratio, double Confidence, double LevelDb, double Noise, int Lines, double OwnShare)
    {
        public bool IsThere(double spread) => Confidence > LeastConfidence && Ratio > PresentRatio * (1.0 + (spread / Math.Sqrt(Lines)));

        /// <summary>Sums over the lines whose number is set; over all lines when no numbers are given.</summary>
        public static Tone Of(LineFit lines, Residual residual, int[]? number, double addedPower, double ownHz)
        {
            double noise = 0.0;
            double present = 0.0;
            double power = 0.0;
            double own = 0.0;
            double all = 0.0;
            int count = 0;
            for (int i = 0; i < lines.Count; i++)
            {
                double linePower = 4.0 * ((lines.Re[i] * lines.Re[i]) + (lines.Im[i] * lines.Im[i]));
                all += linePower;
                if (number is not null && number[i] == 0)
                {
                    continue;
                }

                own += lines.NearestHz(i) > ownHz ? linePower : 0.0;

                count++;
                noise += residual.Noise[i];
                present += residual.Present[i];
                power += linePower;
            }

            return count == 0
                ? default
                : new Tone(
                    addedPower / ((2.0 * noise) + 1e-30),
                    Math.Clamp(1.0 - (noise / (present + 1e-30)), 0.0, 1.0),
                    10.0 * Math.Log10(power + 1e-30),
                    noise / count,
                    count,
                    own / (all + 1e-30));
        }
    }
}
