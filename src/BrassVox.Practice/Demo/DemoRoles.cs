using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Demo;

/// <summary>Ensemble Kesselgrund, invented: a low-brass-and-horn sextet at A4 = 442 in a cold former boiler house. Nobody in it lives.</summary>
internal static class DemoRoles
{
    /// <summary>Name of the ensemble.</summary>
    public const string Ensemble = "Ensemble Kesselgrund";

    private const double A4Hz = 442;

    /// <summary>The roles.</summary>
    public static IReadOnlyList<DemoRole> All { get; } =
    [
        new(Who("Tuba-1", Instrument.Tuba, VoiceKind.Low, "A3"),
        [
            new("open-home-pair", SungOffsetCents: 5, SungSpreadCents: 4),
            new("open-home-pair", "F2", "C3", SungOffsetCents: 9),
            new("land-on-the-octave", "F2", "F3", SungOffsetCents: 18, SungSpreadCents: 4),
            new("land-on-the-octave", "Bb1", "Bb2", SungOffsetCents: 26, SungSpreadCents: 5),
            new("long-breath", SungDriftCents: -24),
        ], 0.35, 0.75, 0.2, 0, BodyTag.Breath, 4),
        new(Who("Trombone-2", Instrument.Trombone, VoiceKind.High, "Bb4"),
        [
            new("open-home-pair", "F3", "C4", SungOffsetCents: 6, SungSpreadCents: 34),
            new("open-home-pair", SungOffsetCents: 9),
            new("voice-crosses", "F3", "F3", PlayedOffsetCents: -6, PlayedSpreadCents: 9, SungSpreadCents: 14, PullCents: -3),
            new("voice-glides-to-the-octave", PlayedOffsetCents: -2, PullCents: -2.5),
            new("long-breath", "F3", "C4", SungSpreadCents: 16, SungDriftCents: -14),
        ], 0.4, 0.7, 0.25, 25, BodyTag.Throat, 4)
        {
            RestingWeek = 2,
            HasSpoiledTake = true,
        },
        new(Who("Euphonium-3", Instrument.Euphonium, VoiceKind.Low, "Bb3") with { ReadsTransposed = true, NoteNames = NoteNaming.German },
        [
            new("open-home-pair", SungOffsetCents: 10, SungSpreadCents: 8),
            new("open-home-pair", "F2", "C3", SungOffsetCents: 16),
            new("voice-glides-about-the-fifth", SungSpreadCents: 9, PullCents: -2),
            new("land-on-the-unison", "F3", "F3", SungOffsetCents: 12, SungSpreadCents: 3),
        ], 0.25, 0.8, 0.15, 45, BodyTag.Jaw, 3),
        new(Who("Horn-4", Instrument.Horn, VoiceKind.High, "A4") with { NoteNames = NoteNaming.Solfege, ReadsTransposed = true },
        [
            new("open-home-pair", SungOffsetCents: 24, SungSpreadCents: 20, SungDriftCents: 12),
            new("open-home-pair", "Bb3", "F4", SungOffsetCents: 22, SungSpreadCents: 16),
            new("played-tone-bends", SungSpreadCents: 16),
            new("enter-on-a-held-tone", PlayedOffsetCents: 6, SungOffsetCents: 14),
        ], 0.75, 0.85, 0.2, 10, BodyTag.Shoulders, 5),
        new(Who("Trumpet-5", Instrument.Trumpet, VoiceKind.Low, "A3"),
        [
            new("open-home-pair", SungOffsetCents: -19, SungSpreadCents: 12, SungDriftCents: -10),
            new("long-breath", SungOffsetCents: -14, SungDriftCents: -22),
            new("scale-under-the-voice", SungSpreadCents: 13, PlayedSpreadCents: 8),
        ], 0.2, 0.35, 0.8, 0, BodyTag.Lips, 3),
        new(Who("Teacher-0", Instrument.Trombone, VoiceKind.Low, "Bb3") with { Unit = DisplayUnit.Beats },
        [
            new("open-home-pair", SungOffsetCents: 3, SungSpreadCents: 3, SungDriftCents: -2),
            new("land-on-the-octave", SungOffsetCents: 4, SungSpreadCents: 2),
        ], 0.1, 0.95, 0.5, 15, BodyTag.TongueRoot, 2),
    ];

    private static Player Who(string name, Instrument instrument, VoiceKind voice, string registerChange) =>
        new(name, PlayerProfile.Usual(instrument, voice) with { A4Hz = A4Hz, RegisterChange = Pitch.Parse(registerChange) });
}
