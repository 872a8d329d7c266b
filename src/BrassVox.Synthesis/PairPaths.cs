using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>The paths of both tones of a pair, and the three ways in which two voices move. Immutable.</summary>
/// <param name="Played">Path of P.</param>
/// <param name="Sung">Path of S.</param>
/// <remarks>Beats become seconds at a tempo, so that paths stay locked to a click. Lines are straight in cents between their points.</remarks>
public sealed record PairPaths(PitchPath Played, PitchPath Sung)
{
    /// <summary>Parallel motion: both tones follow the line, the interval between them stays.</summary>
    /// <param name="playedHz">P at 0 cents, in Hz.</param>
    /// <param name="sungHz">S at 0 cents, in Hz.</param>
    /// <param name="beatsPerMinute">Tempo, 10 to 400.</param>
    /// <param name="line">Beats from 0, rising, and cents at each.</param>
    /// <exception cref="ArgumentException">An argument is out of range or a pitch leaves 5 to 20000 Hz.</exception>
    public static PairPaths Parallel(double playedHz, double sungHz, double beatsPerMinute, params ReadOnlySpan<(double Beat, double Cents)> line) =>
        new(Path(playedHz, beatsPerMinute, line, 1), Path(sungHz, beatsPerMinute, line, 1));

    /// <summary>Contrary motion: S follows the line, P its mirror image.</summary>
    /// <param name="playedHz">P at 0 cents, in Hz.</param>
    /// <param name="sungHz">S at 0 cents, in Hz.</param>
    /// <param name="beatsPerMinute">Tempo, 10 to 400.</param>
    /// <param name="line">Beats from 0, rising, and cents of S at each.</param>
    /// <exception cref="ArgumentException">An argument is out of range or a pitch leaves 5 to 20000 Hz.</exception>
    public static PairPaths Contrary(double playedHz, double sungHz, double beatsPerMinute, params ReadOnlySpan<(double Beat, double Cents)> line) =>
        new(Path(playedHz, beatsPerMinute, line, -1), Path(sungHz, beatsPerMinute, line, 1));

    /// <summary>Oblique motion: one tone holds while the other follows the line.</summary>
    /// <param name="playedHz">P at 0 cents, in Hz.</param>
    /// <param name="sungHz">S at 0 cents, in Hz.</param>
    /// <param name="moving">The tone that moves.</param>
    /// <param name="beatsPerMinute">Tempo, 10 to 400.</param>
    /// <param name="line">Beats from 0, rising, and cents at each.</param>
    /// <exception cref="ArgumentException">An argument is out of range or a pitch leaves 5 to 20000 Hz.</exception>
    public static PairPaths Oblique(
        double playedHz, double sungHz, VoiceRole moving, double beatsPerMinute, params ReadOnlySpan<(double Beat, double Cents)> line) =>
        new(
            Path(playedHz, beatsPerMinute, line, moving == VoiceRole.Played ? 1 : 0),
            Path(sungHz, beatsPerMinute, line, moving == VoiceRole.Sung ? 1 : 0));

    /// <summary>A line in steps: each pitch is held and left for the next by a short slide that ends on the beat.</summary>
    /// <param name="slideBeats">Length of the slides in beats, &gt; 0 and shorter than the shortest step.</param>
    /// <param name="line">Beats from 0, rising, and the cents reached at each.</param>
    /// <exception cref="ArgumentException">The slide does not fit between two points.</exception>
    public static (double Beat, double Cents)[] Steps(double slideBeats, params ReadOnlySpan<(double Beat, double Cents)> line)
    {
        List<(double Beat, double Cents)> points = [];
        for (int i = 0; i < line.Length; i++)
        {
            if (i > 0)
            {
                if (!(slideBeats > 0) || line[i].Beat - slideBeats <= line[i - 1].Beat)
                {
                    throw new ArgumentException($"A slide of {slideBeats} beats does not fit between beats {line[i - 1].Beat} and {line[i].Beat}.", nameof(slideBeats));
                }

                points.Add((line[i].Beat - slideBeats, line[i - 1].Cents));
            }

            points.Add(line[i]);
        }

        return [.. points];
    }

    private static PitchPath Path(double hz, double beatsPerMinute, ReadOnlySpan<(double Beat, double Cents)> line, int direction)
    {
        if (!(beatsPerMinute is >= 10 and <= 400))
        {
            throw new ArgumentOutOfRangeException(nameof(beatsPerMinute), beatsPerMinute, "A tempo lies from 10 to 400 beats per minute.");
        }

        if (direction == 0)
        {
            return PitchPath.Constant(hz);
        }

        var points = new (double, double)[line.Length];
        for (int i = 0; i < line.Length; i++)
        {
            points[i] = (line[i].Beat * 60 / beatsPerMinute, Cents.Above(hz, direction * line[i].Cents));
        }

        return new PitchPath(points);
    }
}
