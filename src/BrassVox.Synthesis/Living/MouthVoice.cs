using System.Numerics;

namespace BrassVox.Synthesis.Living;

/// <summary>The sung tone as a pressure in the mouth: its lowest partials, as strong together as a sine of amplitude 1. One thread; allocates nothing after construction.</summary>
internal sealed class MouthVoice
{
    private const int Partials = 4;
    private readonly VoiceTone _voice;
    private readonly float[] _real = new float[VoiceTone.MostPartials];
    private readonly float[] _imaginary = new float[VoiceTone.MostPartials];
    private Colour _colour;
    private Complex _first;
    private Complex _second;
    private Complex _third;
    private Complex _fourth;
    private double _pointerReal;
    private double _pointerImaginary;
    private double _turnReal;
    private double _turnImaginary;

    internal MouthVoice(VoiceTone voice)
    {
        _voice = voice;
        Reset();
    }

    internal void Reset() => (_pointerReal, _pointerImaginary) = (1, 0);

    /// <summary>Sets pitch and colour for the steps to come.</summary>
    /// <param name="frequencyHz">Sung pitch in Hz.</param>
    /// <param name="vowel">Place between vowels.</param>
    /// <param name="register">0 chest, 1 falsetto.</param>
    /// <param name="colour">Share of the overtones, 0 to 1.</param>
    /// <param name="limitHz">Highest partial in Hz.</param>
    /// <param name="cyclesPerStep">Periods of the voice in one step.</param>
    internal void Aim(double frequencyHz, double vowel, double register, double colour, double limitHz, double cyclesPerStep)
    {
        var wanted = new Colour(frequencyHz, vowel, register, colour, limitHz);
        if (wanted != _colour)
        {
            _colour = wanted;
            Fill(wanted);
        }

        (_turnImaginary, _turnReal) = Math.SinCos(2 * Math.PI * cyclesPerStep);

        // Rounding would let the pointer's length wander.
        double length = 1 / Math.Sqrt((_pointerReal * _pointerReal) + (_pointerImaginary * _pointerImaginary));
        _pointerReal *= length;
        _pointerImaginary *= length;
    }

    /// <summary>Pressure one step on.</summary>
    internal double Step()
    {
        double x = (_pointerReal * _turnReal) - (_pointerImaginary * _turnImaginary);
        double y = (_pointerReal * _turnImaginary) + (_pointerImaginary * _turnReal);
        (_pointerReal, _pointerImaginary) = (x, y);
        (double real, double imaginary) = (_fourth.Real, _fourth.Imaginary);
        (real, imaginary) = ((real * x) - (imaginary * y) + _third.Real, (real * y) + (imaginary * x) + _third.Imaginary);
        (real, imaginary) = ((real * x) - (imaginary * y) + _second.Real, (real * y) + (imaginary * x) + _second.Imaginary);
        (real, imaginary) = ((real * x) - (imaginary * y) + _first.Real, (real * y) + (imaginary * x) + _first.Imaginary);
        return (real * x) - (imaginary * y);
    }

    private void Fill(in Colour colour)
    {
        int count = Math.Min(_voice.FillMouth(colour.FrequencyHz, colour.Vowel, colour.Register, colour.LimitHz, _real, _imaginary), Partials);
        double power = 1e-30;
        for (int i = 0; i < count; i++)
        {
            if (i > 0)
            {
                _real[i] *= (float)colour.Overtones;
                _imaginary[i] *= (float)colour.Overtones;
            }

            power += ((double)_real[i] * _real[i]) + ((double)_imaginary[i] * _imaginary[i]);
        }

        double scale = 1 / Math.Sqrt(power);
        _first = Amplitude(0, count, scale);
        _second = Amplitude(1, count, scale);
        _third = Amplitude(2, count, scale);
        _fourth = Amplitude(3, count, scale);
    }

    private Complex Amplitude(int index, int count, double scale) =>
        index < count ? new Complex(_real[index], _imaginary[index]) * scale : Complex.Zero;

    private readonly record struct Colour(double FrequencyHz, double Vowel, double Register, double Overtones, double LimitHz);
}
