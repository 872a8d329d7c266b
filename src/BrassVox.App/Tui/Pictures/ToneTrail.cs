namespace BrassVox.App.Tui.Pictures;

/// <summary>
/// The last moments of one tone against what was asked: the middle of a column, or the centre of a vibrato, which moves
/// to and fro about the pitch that is meant and is no fault.
/// </summary>
/// <remarks>Rates of 4 to 7.5 Hz count as vibrato and 8 c to each side as the least (ours, to be tried with players).</remarks>
internal sealed class ToneTrail
{
    private const double SpanSeconds = 0.6;
    private const double LeastSpanSeconds = 0.45;
    private const double SlowestHz = 4.0;
    private const double FastestHz = 7.5;
    private const double LeastCents = 8.0;

    private readonly Queue<(double Seconds, double Cents)> _recent = new();
    private readonly List<double> _column = [];

    /// <summary>Rate in Hz and cents to each side of a vibrato now; null when there is none.</summary>
    public (double RateHz, double Cents)? Vibrato { get; private set; }

    /// <summary>Forgets everything.</summary>
    public void Clear()
    {
        _recent.Clear();
        _column.Clear();
        Vibrato = null;
    }

    /// <summary>Adds one frame's value.</summary>
    /// <param name="seconds">Time in seconds, rising.</param>
    /// <param name="cents">Cents from what was asked; null when not known, which ends a vibrato.</param>
    public void Add(double seconds, double? cents)
    {
        if (cents is not { } value)
        {
            _recent.Clear();
            Vibrato = null;
            return;
        }

        _column.Add(value);
        _recent.Enqueue((seconds, value));
        while (seconds - _recent.Peek().Seconds > SpanSeconds)
        {
            _recent.Dequeue();
        }
    }

    /// <summary>Ends a column: its middle, or the centre of the vibrato it lies in.</summary>
    public (double? Cents, bool IsVibrato) TakeColumn()
    {
        double? middle = null;
        if (_column.Count > 0)
        {
            _column.Sort();
            middle = _column[_column.Count / 2];
            _column.Clear();
        }

        Vibrato = FindVibrato(out double centre);
        return middle is not null && Vibrato is not null ? (centre, true) : (middle, false);
    }

    private (double RateHz, double Cents)? FindVibrato(out double centre)
    {
        centre = 0;
        if (_recent.Count < 8)
        {
            return null;
        }

        (double Seconds, double Cents)[] points = [.. _recent];
        double span = points[^1].Seconds - points[0].Seconds;
        if (span < LeastSpanSeconds)
        {
            return null;
        }

        double mean = points.Average(point => point.Cents);
        var crossings = new List<double>();
        for (int i = 1; i < points.Length; i++)
        {
            if ((points[i - 1].Cents < mean) != (points[i].Cents < mean))
            {
                crossings.Add(points[i].Seconds);
            }
        }

        if (crossings.Count < 4)
        {
            return null;
        }

        double rate = (crossings.Count - 1) / (2 * (crossings[^1] - crossings[0]));
        // The centre is the mean over whole cycles: between crossings of the same direction.
        int lastSame = crossings.Count - 1 - ((crossings.Count - 1) % 2);
        double[] whole = [.. points
            .Where(point => point.Seconds >= crossings[0] && point.Seconds < crossings[lastSame])
            .Select(point => point.Cents)];
        centre = whole.Average();
        double middle = centre;
        double extent = Math.Sqrt(2 * whole.Average(cents => (cents - middle) * (cents - middle)));
        return rate is >= SlowestHz and <= FastestHz && extent >= LeastCents ? (rate, extent) : null;
    }
}
