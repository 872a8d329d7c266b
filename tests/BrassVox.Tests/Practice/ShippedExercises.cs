using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;

namespace BrassVox.Tests.Practice;

/// <summary>The shipped exercises and every player they have to fit.</summary>
internal static class ShippedExercises
{
    public static ExerciseLibrary Library { get; } = ExerciseLibrary.Load([ExerciseLibrary.ShippedFolder]);

    public static IEnumerable<PlayerProfile> Players() =>
        from instrument in Enum.GetValues<Instrument>()
        from voice in Enum.GetValues<VoiceKind>()
        select PlayerProfile.Usual(instrument, voice);

    public static Exercise Find(string id) => Library.Find(id) ?? throw new InvalidOperationException($"No exercise {id}.");

    public static ResolvedExercise Resolve(string id, Instrument instrument = Instrument.Trombone, VoiceKind voice = VoiceKind.Low, Grade aim = Grade.II) =>
        ExerciseResolver.Resolve(Find(id), PlayerProfile.Usual(instrument, voice) with { Aim = aim }).Resolved
        ?? throw new InvalidOperationException($"{id} does not resolve for {instrument}, {voice}.");
}
