namespace BrassVox.Synthesis.Living;

/// <summary>
/// Lips on an air column: a mass on a spring that the pressure difference between mouth and mouthpiece pushes open, and the flow it lets through.
/// Runs on a fixed grid of steps; who plays it faster or slower transposes everything exactly. Allocates nothing after construction; one thread.
/// </summary>
/// <remarks>
/// Source: y'' + (w/Q) y' + w^2 (y - y0) = dp S/M, u = width max(y, 0) sqrt(2 |dp| / density) sign(dp), as used by Velut, Vergez, Gilbert and
/// Djahanbani, Acta Acustica 103 (2017), and printed by an open wind-acoustics toolbox. The lips move exactly for a force that holds for one step.
/// </remarks>
internal sealed class LipReed
{
    private const double Broken = 1e6;
    private readonly AirColumn _column;
    private readonly LipSettings _lips;
    private readonly double _step;
    private readonly double _conductancePerOpening;
    private double _keepPlace;
    private double _placeFromSpeed;
    private double _speedFromPlace;
    private double _keepSpeed;
    private double _placePerPressure;
    private double _place;
    private double _speed;
    private double _flow;
    private double _difference;

    /// <summary>Lips on a column.</summary>
    /// <param name="modes">Modes of the column, valves up.</param>
    /// <param name="lips">The lips.</param>
    /// <param name="density">Of the air, in kg/m3.</param>
    /// <param name="stepsPerSecond">Grid in Hz.</param>
    internal LipReed(IReadOnlyList<ColumnMode> modes, LipSettings lips, double density, double stepsPerSecond)
    {
        _column = new AirColumn(modes, stepsPerSecond);
        _lips = lips;
        _step = 1 / stepsPerSecond;
        _conductancePerOpening = lips.WidthMm * 0.001 * Math.Sqrt(2 / density);
        RestOpeningM = lips.RestOpeningMm * 0.001;
    }

    /// <summary>Rest opening now, in m.</summary>
    internal double RestOpeningM { get; set; }

    /// <summary>Opening of the lips in m; negative while they are shut.</summary>
    internal double OpeningM => RestOpeningM + _place;

    /// <summary>Pressure in the mouthpiece, in Pa.</summary>
    internal double MouthpiecePressure { get; private set; }

    /// <summary>Pressure 1 m from the bell, in Pa.</summary>
    internal double Radiated { get; private set; }

    /// <summary>True when the numbers have run away; <see cref="Rest"/> is then needed.</summary>
    internal bool IsBroken => !(Math.Abs(MouthpiecePressure) < Broken && Math.Abs(_place) < 1);

    /// <summary>Tunes the lips. Their mass follows from the closing pressure.</summary>
    internal void TuneLips(double resonanceHz)
    {
        double omega = 2 * Math.PI * resonanceHz;
        double damping = omega / (2 * _lips.Q);
        double turn = Math.Sqrt((omega * omega) - (damping * damping));
        double decay = Math.Exp(-damping * _step);
        (double sine, double cosine) = Math.SinCos(turn * _step);
        _keepPlace = decay * (cosine + (damping / turn * sine));
        _placeFromSpeed = decay * sine / turn;
        _speedFromPlace = -decay * omega * omega / turn * sine;
        _keepSpeed = decay * (cosine - (damping / turn * sine));
        _placePerPressure = _lips.RestOpeningMm * 0.001 / _lips.ClosingPressurePa;
    }

    /// <summary>Everything at rest.</summary>
    internal void Rest()
    {
        _column.Reset();
        _place = 0;
        _speed = 0;
        _flow = 0;
        _difference = 0;
        MouthpiecePressure = 0;
        Radiated = 0;
    }

    /// <summary>One step under a pressure in the mouth, in Pa.</summary>
    internal void Step(double mouthPressure)
    {
        double rest = _difference * _placePerPressure;
        double away = _place - rest;
        _place = rest + (_keepPlace * away) + (_placeFromSpeed * _speed);
        _speed = (_speedFromPlace * away) + (_keepSpeed * _speed);
        _column.Step(_flow, out double history, out double radiated);
        double conductance = _conductancePerOpening * Math.Max(RestOpeningM + _place, 0);
        _flow = LipValve.Flow(conductance, mouthPressure, history, _column.Prompt);
        MouthpiecePressure = history + (_column.Prompt * _flow);
        _difference = mouthPressure - MouthpiecePressure;
        Radiated = radiated + (_column.PromptRadiated * _flow);
    }
}
