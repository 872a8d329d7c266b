namespace BrassVox.Analysis.Tracking;

/// <summary>Transform of the Hann window, 1 at zero, against distance in units of one cycle per window.</summary>
/// <remarks>Source: sinc(x) / (1 - x^2), the textbook transform of a raised cosine.</remarks>
internal static class HannKernel
{
    /// <summary>Beyond this distance the kernel counts as zero; its side lobes there are under -50 dB.</summary>
    public const double Reach = 5.0;

    private const int StepsPerUnit = 256;
    private static readonly float[] Table = Tabulate();

    public static double At(double distance)
    {
        double place = Math.Abs(distance) * StepsPerUnit;
        int step = (int)place;
        return step >= Table.Length - 1 ? 0.0 : Table[step] + ((place - step) * (Table[step + 1] - Table[step]));
    }

    private static float[] Tabulate()
    {
        float[] table = new float[(int)(Reach * StepsPerUnit) + 2];
        for (int i = 0; i < table.Length; i++)
        {
            double x = (double)i / StepsPerUnit;
            table[i] = (float)(x switch
            {
                0.0 => 1.0,
                1.0 => 0.5,
                _ => Math.Sin(Math.PI * x) / (Math.PI * x) / (1.0 - (x * x)),
            });
        }

        return table;
    }
}
