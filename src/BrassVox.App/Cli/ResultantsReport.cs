namespace BrassVox.App.Cli;

/// <summary>What <c>resultants --json</c> prints.</summary>
internal sealed record ResultantsReport(
    NoteReport Played,
    NoteReport Sung,
    string Tuning,
    double A4Hz,
    IntervalReport Interval,
    int Order,
    IReadOnlyList<ComponentReport> Components,
    IReadOnlyList<BeatReport> Beats);

/// <summary>A note and its frequency.</summary>
internal sealed record NoteReport(string Note, double FrequencyHz);

/// <summary>Distance from the played up to the sung tone, negative when the voice is below, beside the nearest just interval.</summary>
internal sealed record IntervalReport(string Name, double Cents, string JustRatio, double JustCents);

/// <summary>One line m P + n S.</summary>
internal sealed record ComponentReport(string Name, int Played, int Sung, int Order, double FrequencyHz, string Note, double Cents);

/// <summary>Two harmonics that beat.</summary>
internal sealed record BeatReport(int PlayedHarmonic, int SungHarmonic, double RateHz, double FrequencyHz);
