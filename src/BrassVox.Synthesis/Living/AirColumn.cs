using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace BrassVox.Synthesis.Living;

/// <summary>
/// The modes of an air column as a running filter: flow at the lips in, pressure at the lips and outside out. Exact for a flow that runs in
/// straight lines between steps. Allocates nothing after construction; one thread.
/// </summary>
internal sealed class AirColumn
{
    private const int Width = 8;

    // Eight modes at a time lie together: turn, state, weight in the pressure, weight outside, each real and imaginary.
    private const int TurnReal = 0;
    private const int TurnImaginary = Width;
    private const int StateReal = 2 * Width;
    private const int StateImaginary = 3 * Width;
    private const int PressureReal = 4 * Width;
    private const int PressureImaginary = 5 * Width;
    private const int RadiatedReal = 6 * Width;
    private const int RadiatedImaginary = 7 * Width;
    private const int Group = 8 * Width;
    private readonly double[] _groups;

    /// <summary>Prepares modes for a step rate in Hz.</summary>
    internal AirColumn(IReadOnlyList<ColumnMode> modes, double stepsPerSecond)
    {
        _groups = new double[(modes.Count + Width - 1) / Width * Group];
        double step = 1 / stepsPerSecond;
        for (int i = 0; i < modes.Count; i++)
        {
            Complex pole = modes[i].Pole;
            Complex turn = Complex.Exp(pole * step);
            Complex first = (turn - 1) / pole;
            Complex now = (turn - 1 - (pole * step)) / (pole * pole * step);

            // The newest flow goes straight to the outputs; what remains of it enters the state, which is scaled so that it enters with 1.
            Complex enter = (turn * now) + first - now;
            Complex pressure = 2 * modes[i].Pressure;
            Complex radiated = 2 * modes[i].Radiated;
            Prompt += (pressure * now).Real;
            PromptRadiated += (radiated * now).Real;
            Span<double> group = _groups.AsSpan(i / Width * Group, Group);
            int lane = i % Width;
            (group[TurnReal + lane], group[TurnImaginary + lane]) = (turn.Real, turn.Imaginary);
            (group[PressureReal + lane], group[PressureImaginary + lane]) = ((pressure * enter).Real, (pressure * enter).Imaginary);
            (group[RadiatedReal + lane], group[RadiatedImaginary + lane]) = ((radiated * enter).Real, (radiated * enter).Imaginary);
        }
    }

    /// <summary>Pressure at the lips per flow within the same step.</summary>
    internal double Prompt { get; }

    /// <summary>Radiated pressure per flow within the same step.</summary>
    internal double PromptRadiated { get; }

    internal void Reset()
    {
        for (int i = 0; i < _groups.Length; i += Group)
        {
            _groups.AsSpan(i + StateReal, 2 * Width).Clear();
        }
    }

    /// <summary>One step on: takes the flow of the step before; gives both pressures without the prompt part of the flow to come.</summary>
    internal void Step(double lastFlow, out double pressure, out double radiated)
    {
        ref double groups = ref MemoryMarshal.GetArrayDataReference(_groups);
        Vector512<double> flow = Vector512.Create(lastFlow);
        Vector512<double> pressures = default;
        Vector512<double> pressuresBack = default;
        Vector512<double> outside = default;
        Vector512<double> outsideBack = default;
        for (nuint at = 0; at < (nuint)_groups.Length; at += Group)
        {
            Vector512<double> turnReal = Vector512.LoadUnsafe(ref groups, at + TurnReal);
            Vector512<double> turnImaginary = Vector512.LoadUnsafe(ref groups, at + TurnImaginary);
            Vector512<double> real = Vector512.LoadUnsafe(ref groups, at + StateReal);
            Vector512<double> imaginary = Vector512.LoadUnsafe(ref groups, at + StateImaginary);
            Vector512<double> nextReal = Vector512.FusedMultiplyAdd(real, turnReal, Vector512.FusedMultiplyAdd(-imaginary, turnImaginary, flow));
            Vector512<double> nextImaginary = Vector512.FusedMultiplyAdd(imaginary, turnReal, real * turnImaginary);
            nextReal.StoreUnsafe(ref groups, at + StateReal);
            nextImaginary.StoreUnsafe(ref groups, at + StateImaginary);
            pressures = Vector512.FusedMultiplyAdd(nextReal, Vector512.LoadUnsafe(ref groups, at + PressureReal), pressures);
            pressuresBack = Vector512.FusedMultiplyAdd(nextImaginary, Vector512.LoadUnsafe(ref groups, at + PressureImaginary), pressuresBack);
            outside = Vector512.FusedMultiplyAdd(nextReal, Vector512.LoadUnsafe(ref groups, at + RadiatedReal), outside);
            outsideBack = Vector512.FusedMultiplyAdd(nextImaginary, Vector512.LoadUnsafe(ref groups, at + RadiatedImaginary), outsideBack);
        }

        pressure = Vector512.Sum(pressures - pressuresBack);
        radiated = Vector512.Sum(outside - outsideBack);
    }
}
