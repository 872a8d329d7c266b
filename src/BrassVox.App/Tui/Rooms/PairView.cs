using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Reads what is drawn of a pair: from the engine while it sounds, from the microphone, or as asked in silence.</summary>
internal static class PairView
{
    private const double UnknownDb = -30;
    private const int MostPartials = 32;
    private const int SilentOrder = 3;

    /// <summary>The pair as it sounds from the engine.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="playedHz">P now, in Hz.</param>
    /// <param name="sungHz">S now, in Hz.</param>
    /// <param name="scale">The axis; what lies beyond it is not read.</param>
    public static PairSpectrum OfEngine(IPairEngine engine, double playedHz, double sungHz, PairScale scale)
    {
        double highest = (scale.LastMultiple + 0.5) * scale.PlayedHz;
        double[] played = [.. Numbers(playedHz, highest).Select(n => engine.PartialLevelDbfs(VoiceRole.Played, n))];
        double[] sung = [.. Numbers(sungHz, highest).Select(n => engine.PartialLevelDbfs(VoiceRole.Sung, n))];
        ResultantLevel[] resultants = [.. engine.Parts
            .Skip(2)
            .Select(part => new ResultantLevel(part.Played, part.Sung, engine.Read(part.Index).LevelDbfs))];
        return new PairSpectrum(playedHz, sungHz, true, played, sung, resultants) { FloorDb = -90 };
    }

    /// <summary>The pair as asked, nothing sounding: every mark hollow.</summary>
    /// <param name="playedHz">P in Hz.</param>
    /// <param name="sungHz">S in Hz.</param>
    /// <param name="scale">The axis.</param>
    /// <param name="parts">The parts that could sound.</param>
    public static PairSpectrum OfSilence(double playedHz, double sungHz, PairScale scale, IReadOnlyList<PairPart> parts)
    {
        double highest = (scale.LastMultiple + 0.5) * scale.PlayedHz;
        double[] played = [.. Numbers(playedHz, highest).Select(_ => UnknownDb)];
        double[] sung = [.. Numbers(sungHz, highest).Select(_ => UnknownDb)];
        ResultantLevel[] resultants = [.. parts
            .Skip(2)
            .Where(part => Math.Abs(part.Played) + Math.Abs(part.Sung) <= SilentOrder)
            .Select(part => new ResultantLevel(part.Played, part.Sung, UnknownDb))];
        return new PairSpectrum(playedHz, sungHz, true, played, sung, resultants) { FloorDb = 0 };
    }

    /// <summary>The pair as the microphone hears it.</summary>
    /// <param name="listener">The microphone.</param>
    /// <param name="playedHz">P as measured, in Hz.</param>
    /// <param name="sungHz">S as measured in Hz, or null in fog.</param>
    /// <param name="scale">The axis.</param>
    /// <param name="parts">The parts that could be made.</param>
    public static PairSpectrum OfMicrophone(
        Listener listener, double playedHz, double? sungHz, PairScale scale, IReadOnlyList<PairPart> parts)
    {
        double highest = (scale.LastMultiple + 0.5) * scale.PlayedHz;
        double[] played = new double[Numbers(playedHz, highest).Count()];
        listener.MeasurePartials(playedHz, played);
        double[] sung = new double[sungHz is { } hz ? Numbers(hz, highest).Count() : 0];
        List<ResultantLevel> resultants = [];
        if (sungHz is { } s)
        {
            listener.MeasurePartials(s, sung);
            foreach (PairPart part in parts.Skip(2).Where(part => Math.Abs(part.Played) + Math.Abs(part.Sung) <= SilentOrder))
            {
                double line = (part.Played * playedHz) + (part.Sung * s);
                if (line > 20 && line < highest && IsAlone(line, playedHz, s))
                {
                    resultants.Add(new ResultantLevel(part.Played, part.Sung, listener.MeasureLine(line)));
                }
            }
        }

        return new PairSpectrum(playedHz, sungHz ?? playedHz, sungHz is not null, played, sung, resultants) { FloorDb = -80 };
    }

    /// <summary>True when no partial of either tone lies so near that its level would be read in place of the line's.</summary>
    private static bool IsAlone(double line, double playedHz, double sungHz)
    {
        const double ReachHz = 12.0;
        double fromPlayed = Math.Abs(line - (playedHz * Math.Max(1, Math.Round(line / playedHz))));
        double fromSung = Math.Abs(line - (sungHz * Math.Max(1, Math.Round(line / sungHz))));
        return fromPlayed > ReachHz && fromSung > ReachHz;
    }

    private static IEnumerable<int> Numbers(double hz, double highest)
    {
        int count = (int)Math.Clamp(Math.Floor(highest / hz), 1, MostPartials);
        return Enumerable.Range(1, count);
    }
}
