using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>The K weighting of loudness measurement, as a function of frequency.</summary>
/// <remarks>Source: ITU-R BS.1770-4, tables 1 and 2 (coefficients for 48 kHz).</remarks>
internal static class KWeightingCurve
{
    /// <summary>Power gain at a frequency of 0 to 24000 Hz.</summary>
    internal static double PowerGain(double frequencyHz)
    {
        Complex back = Complex.Exp(new Complex(0, -2 * Math.PI * frequencyHz / 48000));
        Complex shelf = (1.53512485958697 + (back * (-2.69169618940638 + (back * 1.19839281085285))))
            / (1 + (back * (-1.69065929318241 + (back * 0.73248077421585))));
        Complex highPass = (1 + (back * (-2 + back)))
            / (1 + (back * (-1.99004745483398 + (back * 0.99007225036621))));
        double gain = (shelf * highPass).Magnitude;
        return gain * gain;
    }

    /// <summary>Mean square of a K-weighted signal from its loudness in LUFS (one channel).</summary>
    internal static double MeanSquare(double loudnessLufs) => Math.Pow(10, (loudnessLufs + 0.691) / 10);
}
