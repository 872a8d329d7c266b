using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>Complex amplitudes of a voice's partials: a glottal pulse through the formants of a vowel, free and as the mouth holds it behind the lips.</summary>
internal sealed class VoiceTone
{
    /// <summary>Most partials of the free voice.</summary>
    internal const int MostPartials = 128;

    /// <summary>Most partials of the pressure in the mouth.</summary>
    internal const int MostMouthPartials = 24;

    private const double StepHz = 8;
    private const double HighestHz = 12000;
    private readonly Complex[] _chest;
    private readonly Complex[] _falsetto;
    private readonly Complex[][] _tract;
    private readonly double[] _topsHz;

    internal VoiceTone(VoicePreset preset)
    {
        GlottalPulse pulse = new(preset.ChestRd);
        _chest = Harmonics(pulse);
        _falsetto = Harmonics(new GlottalPulse(preset.FalsettoRd));

        // Gains are set so that the spectrum at a comfortable pitch, source included, has its peaks at the printed levels.
        double referenceHz = Math.Sqrt(preset.LowestHz * preset.HighestHz);
        _tract = new Complex[preset.Vowels.Count][];
        _topsHz = new double[preset.Vowels.Count];
        for (int v = 0; v < preset.Vowels.Count; v++)
        {
            var response = new Complex[(int)(HighestHz / StepHz) + 2];
            for (int i = 0; i < response.Length; i++)
            {
                response[i] = Response(preset.Vowels[v], pulse, referenceHz, i * StepHz);
            }

            _tract[v] = response;
            _topsHz[v] = TopHz(response, pulse, referenceHz);
        }
    }

    /// <summary>Fills the free voice: amplitudes of partials at a pitch; returns how many.</summary>
    /// <param name="fundamentalHz">Pitch.</param>
    /// <param name="vowel">Place between vowels.</param>
    /// <param name="register">0 chest, 1 falsetto.</param>
    /// <param name="limitHz">No partial at or above it.</param>
    /// <param name="real">Real parts.</param>
    /// <param name="imaginary">Imaginary parts.</param>
    internal int Fill(double fundamentalHz, double vowel, double register, double limitHz, Span<float> real, Span<float> imaginary)
    {
        int from = Math.Clamp((int)vowel, 0, _tract.Length - 1);
        int to = Math.Min(from + 1, _tract.Length - 1);
        double part = vowel - from;
        double limit = Math.Min(limitHz, _topsHz[from] + (part * (_topsHz[to] - _topsHz[from])));
        int count = Math.Min(Math.Min(MostPartials, real.Length), (int)(limit / fundamentalHz));
        for (int n = 0; n < count; n++)
        {
            double hz = (n + 1) * fundamentalHz;
            Complex response = At(_tract[from], hz);
            if (part > 0)
            {
                response += part * (At(_tract[to], hz) - response);
            }

            Complex amplitude = Source(n, register) * response * Math.Min(1, (limit - hz) / (0.07 * limit));
            real[n] = (float)amplitude.Real;
            imaginary[n] = (float)amplitude.Imaginary;
        }

        return count;
    }

    /// <summary>Fills the pressure in the closed mouth: the flow of the voice fills it, so each partial falls by its number; the vowel colours it half as much as in free air.</summary>
    /// <remarks>Our simplification: a closed cavity integrates flow; lips and mouthpiece damp what lies above 1.5 kHz.</remarks>
    internal int FillMouth(double fundamentalHz, double vowel, double register, double limitHz, Span<float> real, Span<float> imaginary)
    {
        int count = Math.Min(Fill(fundamentalHz, vowel, register, limitHz, real[..MostMouthPartials], imaginary[..MostMouthPartials]), MostMouthPartials);
        for (int n = 0; n < count; n++)
        {
            double hz = (n + 1) * fundamentalHz;
            double fade = 1 / ((n + 1) * (1 + (hz * hz / (1500.0 * 1500.0))));
            Complex source = (Source(n, register) + new Complex(real[n], imaginary[n])) * fade;
            real[n] = (float)source.Imaginary;
            imaginary[n] = (float)-source.Real;
        }

        return count;
    }

    private Complex Source(int index, double register) =>
        register == 0 ? _chest[index] : _chest[index] + (register * (_falsetto[index] - _chest[index]));

    private static Complex[] Harmonics(GlottalPulse pulse)
    {
        var harmonics = new Complex[MostPartials];
        for (int n = 1; n <= MostPartials; n++)
        {
            harmonics[n - 1] = pulse.Harmonic(n);
        }

        return harmonics;
    }

    // Above this all partials lie more than 80 dB under the strongest.
    private static double TopHz(Complex[] response, GlottalPulse pulse, double referenceHz)
    {
        double strongest = 0;
        double top = HighestHz;
        for (int i = response.Length - 1; i > 0; i--)
        {
            strongest = Math.Max(strongest, Level(i));
        }

        for (int i = response.Length - 1; i > 0 && Level(i) < 1e-4 * strongest; i--)
        {
            top = i * StepHz;
        }

        return top;

        double Level(int index) => response[index].Magnitude * pulse.Harmonic(Math.Max(1, index * StepHz / referenceHz)).Magnitude;
    }

    private static Complex At(Complex[] table, double frequencyHz)
    {
        double place = frequencyHz / StepHz;
        int index = Math.Min((int)place, table.Length - 2);
        return table[index] + ((place - index) * (table[index + 1] - table[index]));
    }

    // The first formant lets steady flow through (a low-pass resonance); the higher ones add their peaks and nothing below.
    private static Complex Response(Vowel vowel, GlottalPulse pulse, double referenceHz, double frequencyHz)
    {
        Complex sum = Complex.Zero;
        for (int i = 0; i < vowel.Formants.Count; i++)
        {
            Formant formant = vowel.Formants[i];
            double center = formant.FrequencyHz;
            double width = formant.BandwidthHz;
            double source = pulse.Harmonic(Math.Max(1, center / referenceHz)).Magnitude;
            double first = pulse.Harmonic(Math.Max(1, vowel.Formants[0].FrequencyHz / referenceHz)).Magnitude;
            double gain = Math.Pow(10, formant.LevelDb / 20) * first / source;
            Complex below = new((center * center) - (frequencyHz * frequencyHz), frequencyHz * width);
            sum += i == 0
                ? gain * center * width / below
                : gain * new Complex(0, frequencyHz * width) / below * (i % 2 == 0 ? 1 : -1);
        }

        return sum;
    }
}
