using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>What is drawn of a pair: where its lines lie and how strong they are.</summary>
/// <param name="PlayedHz">P in Hz, &gt; 0.</param>
/// <param name="SungHz">S in Hz, &gt; 0; not drawn while <paramref name="SungKnown"/> is false.</param>
/// <param name="SungKnown">False when the two cannot be told apart: fog.</param>
/// <param name="PlayedDb">Level of P's partials from the first, in dB on any common scale.</param>
/// <param name="SungDb">Level of S's partials from the first, on the same scale.</param>
/// <param name="Resultants">The resultants that sound.</param>
internal sealed record PairSpectrum(
    double PlayedHz,
    double SungHz,
    bool SungKnown,
    IReadOnlyList<double> PlayedDb,
    IReadOnlyList<double> SungDb,
    IReadOnlyList<ResultantLevel> Resultants)
{
    /// <summary>Weaker than the strongest line by more than this is drawn hollow, in dB. Ours, to be tried with players.</summary>
    public const double StrongWithinDb = 20.0;

    /// <summary>Weaker than the strongest line by more than this is not drawn, in dB. Ours, to be tried with players.</summary>
    public const double DrawnWithinDb = 45.0;

    private readonly double _loudestDb = PlayedDb
        .Concat(SungKnown ? SungDb : [])
        .Concat(Resultants.Select(line => line.LevelDb))
        .DefaultIfEmpty(double.NegativeInfinity)
        .Max();

    /// <summary>The strongest line counts as no weaker than this, in dB: so that silence draws nothing, and a pair that is only asked for draws hollow.</summary>
    public double FloorDb { get; init; } = double.NegativeInfinity;

    /// <summary>Level of the strongest line, in dB.</summary>
    public double StrongestDb => Math.Max(_loudestDb, FloorDb);

    /// <summary>True when a level is drawn at all.</summary>
    /// <param name="levelDb">Level on the spectrum's scale.</param>
    public bool IsDrawn(double levelDb) => levelDb >= StrongestDb - DrawnWithinDb;

    /// <summary>True when a level is drawn solid.</summary>
    /// <param name="levelDb">Level on the spectrum's scale.</param>
    public bool IsStrong(double levelDb) => levelDb >= StrongestDb - StrongWithinDb;

    /// <summary>How neighbouring partials of the two tones meet, lowest first; empty in fog.</summary>
    public IReadOnlyList<PartialMeeting> Meetings()
    {
        if (!SungKnown)
        {
            return [];
        }

        var marks = new List<(double Hz, VoiceRole Role, int Number)>();
        Add(marks, VoiceRole.Played, PlayedHz, PlayedDb);
        Add(marks, VoiceRole.Sung, SungHz, SungDb);
        marks.Sort((a, b) => a.Hz.CompareTo(b.Hz));
        var meetings = new List<PartialMeeting>();
        for (int i = 1; i < marks.Count; i++)
        {
            var (low, high) = (marks[i - 1], marks[i]);
            Meeting kind = BeatingPairs.Classify(low.Hz, high.Hz);
            if (low.Role != high.Role && kind != Meeting.Apart)
            {
                (int played, int sung) = low.Role == VoiceRole.Played ? (low.Number, high.Number) : (high.Number, low.Number);
                meetings.Add(new PartialMeeting(played, sung, high.Hz - low.Hz, kind));
            }
        }

        return meetings;
    }

    private void Add(List<(double, VoiceRole, int)> marks, VoiceRole role, double hz, IReadOnlyList<double> levels)
    {
        for (int i = 0; i < levels.Count; i++)
        {
            if (IsDrawn(levels[i]))
            {
                marks.Add(((i + 1) * hz, role, i + 1));
            }
        }
    }
}
