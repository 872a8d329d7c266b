using System.Globalization;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>How the takes of one interval in one register came out: the median take.</summary>
/// <param name="Family">The interval.</param>
/// <param name="Register">Where it was played.</param>
/// <param name="Takes">How many takes tell of it.</param>
/// <param name="Kind">In what respect the median take is worst.</param>
/// <param name="Value">How much, in cents, or in beats per second for <see cref="ErrorKind.Beats"/>.</param>
/// <param name="Role">The tone that is mostly at fault; null when that cannot be told.</param>
/// <param name="OffsetCents">Median offset, sign dropped, in cents; null when not told.</param>
/// <param name="WanderCents">Median spread in cents.</param>
/// <param name="DriftCents">Median drift, sign dropped, in cents.</param>
/// <param name="BeatsPerSecond">Median beats where the two cannot be told apart.</param>
public sealed record ErrorCell(
    IntervalFamily Family,
    PlayedRegister Register,
    int Takes,
    ErrorKind Kind,
    double Value,
    VoiceRole? Role,
    double? OffsetCents,
    double? WanderCents,
    double? DriftCents,
    double? BeatsPerSecond)
{
    /// <summary>How many takes told both pitches.</summary>
    public int ToldTakes { get; init; }

    /// <summary>How many lay mostly in fog, so that their beats are counted instead.</summary>
    public int FogTakes { get; init; }

    /// <summary>In how many takes a tone was another note than asked, or in another octave. It is left out of the cents, and told apart.</summary>
    public int OtherNoteTakes { get; init; }

    /// <summary>How many takes there are, those told and those in fog apart: 14, 14+5, +5.</summary>
    public string TakesInWords => string.Create(CultureInfo.InvariantCulture, $"{(ToldTakes > 0 || FogTakes == 0 ? $"{ToldTakes}" : "")}{(FogTakes > 0 ? $"+{FogTakes}" : "")}");

    /// <summary>Under how many beats a second the median of these takes was called still, as they were judged: in proportion to P, so that it is the same distance in cents in every register.</summary>
    public double StillBelowPerSecond { get; init; } = JudgedPair.StillBelowPerSecondAtBb2;

    /// <summary>Median of the takes' beats over what each was called still below, as exercises differ in that: 1 is the limit. Where takes are not known, <see cref="Value"/> over <see cref="StillBelowPerSecond"/>.</summary>
    public double BeatsOverStill
    {
        get => _beatsOverStill ?? (Value / StillBelowPerSecond);
        init => _beatsOverStill = value;
    }

    private readonly double? _beatsOverStill;

    // The narrowest limit of the shipped exercises.
    private const double SmallestFaultCents = 10;

    /// <summary>True when half of the takes or more had a tone on another note or in another octave: that comes before any cents.</summary>
    public bool IsMostlyOtherNote => OtherNoteTakes > 0 && 2 * OtherNoteTakes >= AllTakes;

    /// <summary>True when even the worst figure of the median take is a fault at no grade of the shipped exercises, and the notes are mostly those asked for.</summary>
    public bool IsSound => HasSoundFigure && !IsMostlyOtherNote;

    private bool HasSoundFigure => Kind == ErrorKind.Beats ? BeatsOverStill < 1 : Value < SmallestFaultCents;

    // A take of which the other note was all there is has no figure.
    private int AllTakes => Math.Max(Takes, OtherNoteTakes);

    /// <summary>The figure with its letter or unit: 21 w, 1.9 /s; "note" where the takes were mostly on another note.</summary>
    public string Figure => IsMostlyOtherNote ? "note" : Kind == ErrorKind.Beats
        ? string.Create(CultureInfo.InvariantCulture, $"{Value:0.0} /s")
        : string.Create(CultureInfo.InvariantCulture, $"{Value:0} {Kind.ToString()[..1].ToLowerInvariant()}");

    /// <summary>In words: fifth, E3-Bb3: the voice wanders 21 c. When that is no fault: it stands within 4 c.</summary>
    /// <param name="naming">The language of note names.</param>
    public string Words(NoteNaming naming) => $"{IntervalFamilies.Name(Family)}, {Register.Name(naming)}: {What}";

    /// <summary>In words, without saying where: the voice wanders 21 c.</summary>
    public string What => OtherNoteTakes == 0 ? Worst : IsMostlyOtherNote
        ? string.Create(CultureInfo.InvariantCulture, $"in {OtherNoteTakes} of {AllTakes} takes a tone was another note, or in another octave; what was told of the asked ones: {Worst}")
        : string.Create(CultureInfo.InvariantCulture, $"{Worst}; in {OtherNoteTakes} {(OtherNoteTakes == 1 ? "take" : "takes")} a tone was another note, or in another octave");

    private string Worst
    {
        get
        {
            if (HasSoundFigure)
            {
                return Kind == ErrorKind.Beats
                    ? string.Create(CultureInfo.InvariantCulture, $"it all but stands still: {Value:0.0} /s")
                    : string.Create(CultureInfo.InvariantCulture, $"it stands within {Value:0} c");
            }

            string who = Role switch
            {
                VoiceRole.Played => "the played tone",
                VoiceRole.Sung => "the voice",
                _ => "the pair",
            };
            string does = Kind switch
            {
                ErrorKind.Offset => string.Create(CultureInfo.InvariantCulture, $"is off by {Value:0} c"),
                ErrorKind.Wander => string.Create(CultureInfo.InvariantCulture, $"wanders {Value:0} c"),
                ErrorKind.Drift => string.Create(CultureInfo.InvariantCulture, $"drifts {Value:0} c"),
                _ => string.Create(CultureInfo.InvariantCulture, $"beats {Value:0.0} /s"),
            };
            return $"{who} {does}";
        }
    }
}
