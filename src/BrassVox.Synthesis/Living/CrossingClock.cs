namespace BrassVox.Synthesis.Living;

/// <summary>Frequency of a steady tone from the upward crossings of a signal through its own running mean, timed between steps.</summary>
internal struct CrossingClock
{
    private readonly double _meanPart;
    private double _mean;
    private double _last;
    private double _steps;
    private double _firstAt;
    private double _lastAt;

    /// <summary>A clock whose mean follows over a number of steps.</summary>
    internal CrossingClock(double meanSteps) => _meanPart = 1 / meanSteps;

    /// <summary>Whole periods timed since <see cref="Restart"/>.</summary>
    internal int Periods { get; private set; }

    /// <summary>Mean length of these periods in steps; 0 when there is none.</summary>
    internal readonly double PeriodSteps => Periods > 0 ? (_lastAt - _firstAt) / Periods : 0;

    /// <summary>Forgets the periods, keeps the mean.</summary>
    internal void Restart()
    {
        Periods = -1;
        _steps = 0;
    }

    /// <summary>Takes the next value.</summary>
    internal void Step(double value)
    {
        _mean += (value - _mean) * _meanPart;
        double now = value - _mean;
        if (_last < 0 && now >= 0)
        {
            double at = _steps - (now / (now - _last));
            if (Periods < 0)
            {
                _firstAt = at;
            }

            Periods++;
            _lastAt = at;
        }

        _last = now;
        _steps++;
    }
}
