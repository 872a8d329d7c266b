using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>What still fails, by interval and register: the median take of each. Takes that are not scored or not judged and those of passages do not count. Pure.</summary>
/// <param name="Cells">The cells that have takes, by interval, then register.</param>
public sealed record ErrorMap(IReadOnlyList<ErrorCell> Cells)
{
    private static readonly ErrorKind[] InCents = [ErrorKind.Offset, ErrorKind.Wander, ErrorKind.Drift];

    /// <summary>The map of takes.</summary>
    /// <param name="takes">The takes.</param>
    public static ErrorMap Of(IEnumerable<LoggedTake> takes) => new([.. takes
        .Where(take => take.IsMapped)
        .GroupBy(take => (Family: IntervalFamilies.Of(take.Take.Played, take.Take.Sung), Register: PlayedRegister.Of(take.Take.Played)))
        .OrderBy(cell => cell.Key.Family).ThenBy(cell => cell.Key.Register.LowestMidi)
        .Select(cell => Cell(cell.Key.Family, cell.Key.Register, [.. cell.Select(take => TakeError.Of(take.Take))]))
        .OfType<ErrorCell>()]);

    /// <summary>How many takes the map leaves out only because they are of passages, many pairs each.</summary>
    /// <param name="takes">The takes.</param>
    public static int PassagesLeftOut(IEnumerable<LoggedTake> takes) => takes.Count(take => LeftOut.Of(take) == WhyLeftOut.OfPassage);

    /// <summary>Registers that have takes, low to high.</summary>
    public IReadOnlyList<PlayedRegister> Registers => [.. Cells.Select(cell => cell.Register).Distinct().OrderBy(register => register.LowestMidi)];

    /// <summary>Intervals that have takes, narrow to wide.</summary>
    public IReadOnlyList<IntervalFamily> Families => [.. Cells.Select(cell => cell.Family).Distinct().Order()];

    /// <summary>A cell; null when it has no takes.</summary>
    /// <param name="family">The interval.</param>
    /// <param name="register">The register.</param>
    public ErrorCell? Find(IntervalFamily family, PlayedRegister register) => Cells.FirstOrDefault(cell => cell.Family == family && cell.Register == register);

    private static ErrorCell? Cell(IntervalFamily family, PlayedRegister register, TakeError[] errors)
    {
        TakeError[] fog = [.. errors.Where(error => error.BeatsPerSecond is not null)];
        TakeError[] told = [.. errors.Where(error => error is { IsTold: true, BeatsPerSecond: null })];
        double? beats = MedianOf(fog, ErrorKind.Beats);
        double? offset = MedianOf(told, ErrorKind.Offset);
        double? wander = MedianOf(told, ErrorKind.Wander);
        double? drift = MedianOf(told, ErrorKind.Drift);
        if (fog.Length > told.Length)
        {
            return new ErrorCell(family, register, fog.Length, ErrorKind.Beats, beats!.Value, null, offset, wander, drift, beats)
            {
                ToldTakes = told.Length,
                FogTakes = fog.Length,
                OtherNoteTakes = errors.Count(error => error.IsOtherNote),
                StillBelowPerSecond = Median.Of([.. fog.Select(error => error.StillBelowPerSecond)]),
                BeatsOverStill = Median.Of([.. fog.Select(error => error.BeatsPerSecond!.Value / error.StillBelowPerSecond)]),
            };
        }

        if (told.Length == 0)
        {
            return null;
        }

        ErrorKind worst = InCents.MaxBy(kind => MedianOf(told, kind) ?? 0);
        VoiceRole? role = told.Select(error => error.Role).OfType<VoiceRole>().GroupBy(role => role).MaxBy(group => group.Count())?.Key;
        return new ErrorCell(family, register, told.Length, worst, MedianOf(told, worst) ?? 0, role, offset, wander, drift, beats) { ToldTakes = told.Length, FogTakes = fog.Length, OtherNoteTakes = errors.Count(error => error.IsOtherNote) };
    }

    private static double? MedianOf(TakeError[] errors, ErrorKind kind)
    {
        double[] values = [.. errors.Select(error => error.Value(kind)).OfType<double>()];
        return values.Length == 0 ? null : Median.Of(values);
    }
}
