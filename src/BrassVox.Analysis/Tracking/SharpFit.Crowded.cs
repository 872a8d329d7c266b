namespace BrassVox.Analysis.Tracking;

/// <summary>Lines that coupling crowds: which of the played tone's lines still say where it is.</summary>
/// <remarks>
/// Beside a multiple of P the lines mP+nS of two coupled tones lie within a cycle per window of all of theirs. The sum of both series then
/// fits best where it takes some of that in: on rendered pairs, coupled by 0.8, P was told 14 cents off under a voice 30 cents low of 6:1,
/// although its own lower lines stood alone. The limits are ours, set on rendered pairs and looked at on the mixes with truth.
/// </remarks>
internal sealed partial class SharpFit
{
    // Nearer than a tenth of a cycle lines are one, beyond the other limit they do not touch.
    private const double LeastCrowdedUnits = 0.1;
    private const double MostCrowdedUnits = 1.6;

    // Power left a cycle to either side, of the line's own: 10 dB under it.
    private const double MostBeside = 0.1;

    // Where less than this of P counts it is read from all of its lines.
    private const double LeastClean = 0.01;

    private readonly bool[] _isClean = new bool[MostLines];
    private readonly float[] _restEven;
    private readonly float[] _restOdd;

    // The chosen lines still lie where the search put them.
    private bool Meets(double apartHz)
    {
        for (int i = 1; i < _count; i++)
        {
            if (_hz[i] - _hz[i - 1] < apartHz)
            {
                return true;
            }
        }

        return false;
    }

    // Where S lies nearer to a harmonic of P than the window tells apart, coupling puts lines mP+nS as near to all lines of both. Beside a fifth
    // P was told within a cent all the same.
    private static bool IsCrowded(PairFit fit, double unitHz) =>
        Math.Abs(Math.IEEERemainder(fit.SungHz, fit.PlayedHz)) / unitHz is > LeastCrowdedUnits and < MostCrowdedUnits;

    // Where as much is left beside a line as coupling leaves there, the line's own frequency is not what the fit says: it does not count for P.
    // S keeps all of its lines, since a vibrato leaves as much beside them.
    private void Weigh(double unitHz)
    {
        Rest(_even, _basisEven, _cos, _restEven);
        Rest(_odd, _basisOdd, _sin, _restOdd);
        double all = 0.0;
        double clean = 0.0;
        for (int i = 0; i < _count; i++)
        {
            if (_played[i] == 0)
            {
                continue;
            }

            double own = (_cos[i] * _cos[i]) + (_sin[i] * _sin[i]);
            _isClean[i] = Math.Max(Beside(_hz[i] - unitHz), Beside(_hz[i] + unitHz)) < MostBeside * own;
            double weight = own * _hz[i] * _hz[i];
            all += weight;
            clean += _isClean[i] ? weight : 0.0;
        }

        if (clean < LeastClean * all)
        {
            _isClean.AsSpan(0, _count).Fill(true);
        }
    }

    // Squared amplitude of one line in what is left.
    private double Beside(double hz)
    {
        Span<float> cosines = Row(_basisEven, _count);
        Span<float> sines = Row(_basisOdd, _count);
        Turn(hz, cosines, sines);
        double c = Dot(cosines, _restEven) / Dot(cosines, cosines);
        double s = Dot(sines, _restOdd) / Dot(sines, sines);
        return (c * c) + (s * s);
    }

    private void Rest(float[] sound, float[] basis, double[] amplitudes, float[] rest)
    {
        sound.AsSpan().CopyTo(rest);
        for (int i = 0; i < _count; i++)
        {
            AddScaled(Row(basis, i), (float)-amplitudes[i], rest);
        }
    }
}
