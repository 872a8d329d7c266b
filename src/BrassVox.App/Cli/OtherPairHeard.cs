using BrassVox.Analysis;
using BrassVox.Practice.Judging;

namespace BrassVox.App.Cli;

/// <summary>Two other tones than the two named: the file measured once more with no note named.</summary>
/// <param name="Tones">The tones that stood apart.</param>
/// <param name="FramesShare">Share of the frames in which they did, 0 to 1.</param>
internal sealed record OtherPairHeard(OpenTones Tones, double FramesShare)
{
    // Most of what sounds; another note than any that is out of tune; as steady as a vibrato. Ours.
    private const double Most = 0.5;
    private const double OtherNoteCents = 150;
    private const double SteadyCents = 50;

    /// <summary>Looks for them; null where both named notes were found in most of what sounds, where one was not named or moves, and where no two steady tones stand out.</summary>
    /// <param name="mono">The sound, full scale 1.</param>
    /// <param name="sampleRateHz">Its rate in Hz.</param>
    /// <param name="prior">What was named.</param>
    /// <param name="frames">What was found under it.</param>
    /// <param name="a4Hz">A4 in Hz.</param>
    public static OtherPairHeard? Of(float[] mono, int sampleRateHz, DuetPrior prior, IReadOnlyList<AnalysisFrame> frames, double a4Hz)
    {
        double sounding = Math.Max(1, frames.Count(frame => frame.Separability != Separability.Silent));
        if (prior is not { PlayedHz: { } played, SungHz: { } sung, PlayedMoves: false, SungMoves: false } || frames.Count(frame => Apart(frame) is not null) >= Most * sounding)
        {
            return null;
        }

        (double Lower, double Upper)[] apart = [.. TakeMeasurement.Frames(mono, sampleRateHz, DuetPrior.Free).Select(Apart).OfType<(double, double)>()];
        if (apart.Length < Most * sounding)
        {
            return null;
        }

        double[] lower = [.. apart.Select(tones => tones.Lower)];
        double[] upper = [.. apart.Select(tones => tones.Upper)];
        bool isNamed = IsNear(Median.Of(lower), Math.Min(played, sung), OtherNoteCents) && IsNear(Median.Of(upper), Math.Max(played, sung), OtherNoteCents);
        return isNamed || !IsSteady(lower) || !IsSteady(upper) ? null : new OtherPairHeard(OpenTones.Of(lower, upper, a4Hz), Math.Round((double)apart.Length / frames.Count, 4));
    }

    /// <summary>True when these are what was heard as another note in place of one that was named, and the other that was.</summary>
    /// <param name="other">That note.</param>
    /// <param name="prior">What was named.</param>
    public bool BearsOut(OtherNoteHeard other, DuetPrior prior)
    {
        double named = (other.Role == MeasureReport.PlayedName ? prior.SungHz : prior.PlayedHz) ?? 0;
        return IsNear(Tones.LowerHz, Math.Min(named, other.FrequencyHz), OtherNoteCents) && IsNear(Tones.UpperHz, Math.Max(named, other.FrequencyHz), OtherNoteCents);
    }

    private static (double Lower, double Upper)? Apart(AnalysisFrame frame) => frame switch
    {
        { Played: { } played, Sung: { } sung } => (Math.Min(played.FrequencyHz, sung.FrequencyHz), Math.Max(played.FrequencyHz, sung.FrequencyHz)),
        { RolesOpen: { } open } => (open.Lower.FrequencyHz, open.Upper.FrequencyHz),
        _ => null,
    };

    private static bool IsSteady(double[] hz)
    {
        double middle = Median.Of([.. hz]);
        return hz.Count(one => IsNear(one, middle, SteadyCents)) >= Most * hz.Length;
    }

    private static bool IsNear(double hz, double otherHz, double cents) => Math.Abs(Theory.Cents.Between(otherHz, hz)) <= cents;
}
