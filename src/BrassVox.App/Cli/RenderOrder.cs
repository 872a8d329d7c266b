using BrassVox.Audio.Wav;

namespace BrassVox.App.Cli;

/// <summary>A rendering as it was asked for, notes already turned into Hz.</summary>
internal sealed record RenderOrder(
    double PlayedHz,
    double SungHz,
    double? GlidePlayedHz,
    double? GlideSungHz,
    double DetunePlayedCents,
    double DetuneSungCents,
    double DetuneSungHz,
    double Coupling,
    double LevelDb,
    double Seconds,
    bool IsLiving,
    string Instrument,
    string Voice,
    IReadOnlyList<string> Only,
    IReadOnlyList<string> Mute,
    IReadOnlyList<string> Settings,
    int Seed,
    int SampleRateHz,
    WavEncoding Encoding,
    bool WithStems,
    string Output);
