using System.Text.Json.Serialization.Metadata;
using BrassVox.Synthesis.Files;

namespace BrassVox.Synthesis;

/// <summary>The instruments and voices found in a folder of presets.</summary>
public sealed class TonePresets
{
    private TonePresets(IReadOnlyList<BrassPreset> brass, IReadOnlyList<VoicePreset> voices)
    {
        Brass = brass;
        Voices = voices;
    }

    /// <summary>Instruments, lowest first.</summary>
    public IReadOnlyList<BrassPreset> Brass { get; }

    /// <summary>Voices, lowest first.</summary>
    public IReadOnlyList<VoicePreset> Voices { get; }

    /// <summary>Loads every file of <c>brass/</c> and <c>voices/</c> under a folder.</summary>
    /// <param name="folder">The folder of tones.</param>
    /// <exception cref="DirectoryNotFoundException">The folder or one of the two is missing.</exception>
    /// <exception cref="InvalidDataException">A file is not a preset; the message names file, line, place and what to try.</exception>
    public static TonePresets Load(string folder)
    {
        List<BrassPreset> brass = LoadAll(Path.Combine(folder, "brass"), TonePresetJson.Default.BrassPreset, TonePresetChecks.Check);
        List<VoicePreset> voices = LoadAll(Path.Combine(folder, "voices"), TonePresetJson.Default.VoicePreset, TonePresetChecks.Check);
        brass.Sort((a, b) => a.LowestHz.CompareTo(b.LowestHz) is var order and not 0 ? order : string.CompareOrdinal(a.Id, b.Id));
        voices.Sort((a, b) => a.LowestHz.CompareTo(b.LowestHz) is var order and not 0 ? order : string.CompareOrdinal(a.Id, b.Id));
        return new TonePresets(brass, voices);
    }

    /// <summary>The instrument of that id.</summary>
    /// <param name="id">Compared ordinally.</param>
    /// <exception cref="KeyNotFoundException">No such id; the message lists those that exist.</exception>
    public BrassPreset BrassById(string id) =>
        Brass.FirstOrDefault(preset => string.Equals(preset.Id, id, StringComparison.Ordinal))
        ?? throw new KeyNotFoundException($"no instrument '{id}'; there are: {string.Join(", ", Brass.Select(preset => preset.Id))}");

    /// <summary>The voice of that id.</summary>
    /// <param name="id">Compared ordinally.</param>
    /// <exception cref="KeyNotFoundException">No such id; the message lists those that exist.</exception>
    public VoicePreset VoiceById(string id) =>
        Voices.FirstOrDefault(preset => string.Equals(preset.Id, id, StringComparison.Ordinal))
        ?? throw new KeyNotFoundException($"no voice '{id}'; there are: {string.Join(", ", Voices.Select(preset => preset.Id))}");

    private static List<T> LoadAll<T>(string folder, JsonTypeInfo<T> type, Func<T, string?> check)
    {
        List<T> presets = [];
        foreach (string file in Directory.GetFiles(folder, "*.json").Order(StringComparer.Ordinal))
        {
            presets.Add(PresetJson.Read(file, type, check));
        }

        return presets;
    }
}
