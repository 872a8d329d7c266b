using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;

namespace BrassVox.App;

/// <summary>Which preset tones stand for a player's instrument and voice.</summary>
internal static class PlayerTones
{
    private const int Seed = 1;

    /// <summary>An unprepared engine with a player's tones.</summary>
    /// <param name="presets">The presets.</param>
    /// <param name="profile">The player.</param>
    /// <exception cref="KeyNotFoundException">A preset is missing.</exception>
    public static IPairEngine Engine(TonePresets presets, PlayerProfile profile) => new FlowPair(
        presets.BrassById(InstrumentId(profile)),
        presets.VoiceById(VoiceId(profile)),
        Seed);

    /// <summary>An unprepared engine of lips and air column with a player's bore and voice.</summary>
    /// <param name="presets">The presets.</param>
    /// <param name="bores">The bores.</param>
    /// <param name="profile">The player.</param>
    /// <exception cref="KeyNotFoundException">A preset is missing.</exception>
    public static IPairEngine LivingEngine(TonePresets presets, IReadOnlyList<BrassBore> bores, PlayerProfile profile) => new LivingPair(
        bores.FirstOrDefault(bore => string.Equals(bore.Id, InstrumentId(profile), StringComparison.Ordinal))
            ?? throw new KeyNotFoundException($"no bore '{InstrumentId(profile)}'; there are: {string.Join(", ", bores.Select(bore => bore.Id))}"),
        presets.VoiceById(VoiceId(profile)),
        Seed);

    private static string InstrumentId(PlayerProfile profile) => profile.Instrument.ToString().ToLowerInvariant();

    private static string VoiceId(PlayerProfile profile) => profile.Voice == VoiceKind.Low ? "bass" : "alto";
}
