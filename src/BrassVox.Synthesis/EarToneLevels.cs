namespace BrassVox.Synthesis;

/// <summary>How loud the ear-made tones are added.</summary>
/// <param name="BoostDb">Over the published level, in dB; at <see cref="PairParameters.EarTonesOffDb"/> they are off.</param>
/// <param name="ListeningLevelDbSpl">Sound pressure level at which -23 dBFS (root mean square) is heard.</param>
internal readonly record struct EarToneLevels(double BoostDb, double ListeningLevelDbSpl)
{
    /// <summary>Amplitudes of S - P and 2P - S from those of the two fundamentals.</summary>
    internal (double Quadratic, double Cubic) Amplitudes(double playedAmplitude, double sungAmplitude)
    {
        if (BoostDb <= PairParameters.EarTonesOffDb || playedAmplitude <= 0 || sungAmplitude <= 0)
        {
            return (0, 0);
        }

        double toDbSpl = ListeningLevelDbSpl - FlowLevels.ReferenceLufs;
        double played = Db(playedAmplitude) + toDbSpl;
        double sung = Db(sungAmplitude) + toDbSpl;
        return (
            Amplitude(EarTones.QuadraticLevelDbSpl(played, sung) + BoostDb - toDbSpl),
            Amplitude(EarTones.CubicLevelDbSpl(played, sung) + BoostDb - toDbSpl));
    }

    private static double Db(double amplitude) => 20 * Math.Log10(amplitude / Math.Sqrt(2));

    // Never louder than -30 dBFS: an illustration, not an alarm.
    private static double Amplitude(double db) => Math.Sqrt(2) * Math.Pow(10, Math.Min(db, -30) / 20);
}
