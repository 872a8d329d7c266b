using BrassVox.App.Cli;
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
    public static IPairEngine Engine(TonePresets presets, PlayerProfile profile) => Engine(presets, profile.Instrument, profile.Voice);

    /// <summary>An unprepared engine with the tones of an instrument and a voice.</summary>
    /// <param name="presets">The presets.</param>
    /// <param name="instrument">The instrument.</param>
    /// <param name="voice">The voice.</param>
    /// <exception cref="KeyNotFoundException">A preset is missing.</exception>
    public static IPairEngine Engine(TonePresets presets, Instrument instrument, VoiceKind voice) => new FlowPair(
        presets.BrassById(InstrumentId(instrument)),
        presets.VoiceById(VoiceId(voice)),
        Seed);

    /// <summary>An unprepared engine of lips and air column with a player's bore and voice.</summary>
    /// <param name="presets">The presets.</param>
    /// <param name="bores">The bores.</param>
    /// <param name="profile">The player.</param>
    /// <exception cref="KeyNotFoundException">A preset is missing.</exception>
    public static IPairEngine LivingEngine(TonePresets presets, IReadOnlyList<BrassBore> bores, PlayerProfile profile) => new LivingPair(
        bores.FirstOrDefault(bore => string.Equals(bore.Id, InstrumentId(profile.Instrument), StringComparison.Ordinal))
            ?? throw new KeyNotFoundException($"no bore '{InstrumentId(profile.Instrument)}'; there are: {string.Join(", ", bores.Select(bore => bore.Id))}"),
        presets.VoiceById(VoiceId(profile.Voice)),
        Seed);

    private static string InstrumentId(Instrument instrument) => PlayerOptions.Hyphened(instrument.ToString());

    private static string VoiceId(VoiceKind voice) => voice == VoiceKind.Low ? "bass" : "alto";
}
