using System.Globalization;
using BrassVox.Analysis.Loudness;
using BrassVox.Analysis.Sensation;

namespace BrassVox.App.Cli;

/// <summary>What <c>measure --sensation</c> adds: roughness and fluctuation strength at an assumed level, loudness and true peak.</summary>
internal sealed record SensationReport(
    double FullScaleDbSpl, double? RoughnessAsper, double? FluctuationVacil, double? LoudnessLufs, double? TruePeakDbtp)
{
    public static SensationReport Of(float[] mono, int sampleRateHz, double fullScaleDbSpl)
    {
        var loudness = new LoudnessMeter(sampleRateHz, 1);
        loudness.Push(mono);
        var peak = new TruePeakMeter(sampleRateHz);
        peak.Push(mono);
        return new SensationReport(
            fullScaleDbSpl,
            Mean(new RoughnessMeter(sampleRateHz, fullScaleDbSpl).OverTake(mono)),
            Mean(new FluctuationMeter(sampleRateHz, fullScaleDbSpl).OverTake(mono)),
            Finite(loudness.IntegratedLufs, 1),
            Finite(peak.PeakDbtp, 1));
    }

    public string ToText()
    {
        string fluctuation = FluctuationVacil is { } vacil ? string.Create(CultureInfo.InvariantCulture, $"{vacil:F2} vacil") : "not told under 2 s";
        return string.Create(CultureInfo.InvariantCulture, $"grain    {RoughnessAsper ?? 0:F2} asper, swelling {fluctuation}, if full scale stands for {FullScaleDbSpl:F0} dB\n")
            + string.Create(CultureInfo.InvariantCulture, $"loud     {Said(LoudnessLufs)} LUFS, true peak {Said(TruePeakDbtp)} dBTP");
    }

    private static string Said(double? value) => value is { } v ? v.ToString("F1", CultureInfo.InvariantCulture) : "no";

    private static double? Mean(IReadOnlyList<double> values) => values.Count > 0 ? Math.Round(values.Average(), 3) : null;

    private static double? Finite(double value, int digits) => double.IsFinite(value) ? Math.Round(value, digits) : null;
}
