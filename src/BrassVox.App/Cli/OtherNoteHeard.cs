using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>Another note than the one named, found where that one was not: the file measured once more with that tone left open.</summary>
/// <param name="Role">The tone that was left open: played or sung.</param>
/// <param name="FrequencyHz">Its middle pitch in Hz.</param>
/// <param name="Note">The nearest note.</param>
/// <param name="Cents">How far above that note, in cents.</param>
/// <param name="FramesShare">Share of the frames that then give both pitches, 0 to 1.</param>
internal sealed record OtherNoteHeard(string Role, double FrequencyHz, string Note, double Cents, double FramesShare)
{
    // Most of what sounds. Farther than this nobody is out of tune: it is another note. Ours.
    private const double Most = 0.5;
    private const double OtherNoteCents = 150;

    /// <summary>Looks for it; null where both named notes were found in most of what sounds, where one was not named or moves, and where nothing else stands out.</summary>
    /// <param name="mono">The sound, full scale 1.</param>
    /// <param name="sampleRateHz">Its rate in Hz.</param>
    /// <param name="prior">What was named.</param>
    /// <param name="frames">What was found under it.</param>
    /// <param name="a4Hz">A4 in Hz.</param>
    public static OtherNoteHeard? Of(float[] mono, int sampleRateHz, DuetPrior prior, IReadOnlyList<AnalysisFrame> frames, double a4Hz)
    {
        if (prior is not { PlayedHz: { } played, SungHz: { } sung, PlayedMoves: false, SungMoves: false })
        {
            return null;
        }

        double sounding = frames.Count(frame => frame.Separability != Separability.Silent);
        return (IsMissing(frame => frame.Sung) ? Look(VoiceRole.Sung, prior with { SungHz = null }, sung, played) : null)
            ?? (IsMissing(frame => frame.Played) ? Look(VoiceRole.Played, prior with { PlayedHz = null }, played, sung) : null);

        bool IsMissing(Func<AnalysisFrame, PitchEstimate?> tone) =>
            frames.Count(frame => tone(frame) is not null || frame.Separability == Separability.NotSeparable) < Most * sounding;

        // Only of what is missing: beside a tone that is there a free one is found at any of its lines.
        OtherNoteHeard? Look(VoiceRole role, DuetPrior open, double namedHz, double otherHz)
        {
            (double Open, double Other)[] both =
            [
                .. TakeMeasurement.Frames(mono, sampleRateHz, open).Where(frame => frame is { Played: not null, Sung: not null })
                    .Select(frame => role == VoiceRole.Played
                        ? (frame.Played!.Value.FrequencyHz, frame.Sung!.Value.FrequencyHz)
                        : (frame.Sung!.Value.FrequencyHz, frame.Played!.Value.FrequencyHz)),
            ];
            if (both.Length < Most * sounding)
            {
                return null;
            }

            double hz = Median.Of([.. both.Select(pair => pair.Open)]);
            bool isOther = Math.Abs(Theory.Cents.Between(namedHz, hz)) > OtherNoteCents
                && Math.Abs(Theory.Cents.Between(otherHz, Median.Of([.. both.Select(pair => pair.Other)]))) <= OtherNoteCents;
            NearestNote nearest = NearestNote.Of(hz, a4Hz);
            return isOther
                ? new OtherNoteHeard(role == VoiceRole.Played ? "played" : "sung", Math.Round(hz, 4), nearest.Note.ToString(), Math.Round(nearest.Cents, 2), Math.Round((double)both.Length / frames.Count, 4))
                : null;
        }
    }
}
