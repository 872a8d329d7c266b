namespace BrassVox.Analysis.Reports;

/// <summary>The zone that explains when the beats of a glide fell.</summary>
/// <param name="CentreHz">Middle of the zone: distance of the free harmonics in Hz.</param>
/// <param name="HalfHz">Half its width in Hz.</param>
/// <param name="IsCaught">True when the beats cannot be explained without a zone.</param>
internal readonly record struct LockFit(double CentreHz, double HalfHz, bool IsCaught)
{
    private const int FewestDips = 3;
    private const double CoarseHz = 0.2;
    private const double FineHz = 0.025;
    private const double WidestHz = 6.0;
    private const double CentreReachHz = 2.0;
    private const double StepSeconds = 0.01;

    // Standard deviation of the counted beats about the law, in beats, beyond which the law does not hold.
    private const double MostOffBeats = 0.25;

    // Without a zone the beats lie this many times as far off, in power, and by this much at the least, in beats.
    private const double ClearlyWorse = 3.0;
    private const double LeastOffBeats = 0.03;

    /// <summary>How far the held harmonic is drawn towards the other on the mean, in Hz.</summary>
    /// <param name="distanceHz">The other above it, both free, in Hz.</param>
    public double DrawnHz(double distanceHz)
    {
        double distance = distanceHz - CentreHz;
        return distance - (Math.Sign(distance) * Rate(distance, HalfHz));
    }

    /// <summary>Fits the middle and the width; null with fewer than three dips on a side or when the law does not fit.</summary>
    public static LockFit? Of(double[] dips, GlideMeeting meeting)
    {
        if (dips.Length < 2 * FewestDips)
        {
            return null;
        }

        double[] distance = [.. Enumerable.Range(0, 2 + (int)((dips[^1] - dips[0]) / StepSeconds)).Select(i => meeting.DistanceAt(dips[0] + (i * StepSeconds)))];
        double[] place = [.. dips.Select(x => (x - dips[0]) / StepSeconds)];
        double[] beats = new double[distance.Length];
        (double Off, double Centre, double Half) with = (double.PositiveInfinity, 0.0, 0.0);
        (double Off, double Centre, double Half) without = with;
        for (double centre = -CentreReachHz; centre <= CentreReachHz; centre += CoarseHz)
        {
            for (double half = 0.0; half <= WidestHz; half += CoarseHz)
            {
                Try(centre, half);
            }
        }

        (double middle, double width, double free) = (with.Centre, with.Half, without.Centre);
        for (double c = -CoarseHz; c <= CoarseHz; c += FineHz)
        {
            Try(free + c, 0.0);
            for (double h = -CoarseHz; h <= CoarseHz; h += FineHz)
            {
                Try(middle + c, Math.Max(0.0, width + h));
            }
        }

        return !(with.Off < MostOffBeats * MostOffBeats)
            ? null
            : new LockFit(
                with.Centre,
                with.Half,
                with.Half > 0.0 && without.Off > ClearlyWorse * with.Off && without.Off > LeastOffBeats * LeastOffBeats);

        void Try(double centre, double half)
        {
            double off = Off(distance, place, beats, centre, half);
            with = off < with.Off ? (off, centre, half) : with;
            without = half == 0.0 && off < without.Off ? (off, centre, half) : without;
        }
    }

    // Mean square of beats by the law against dips counted, an even offset taken out on either side; infinite when a side is short.
    private static double Off(double[] distance, double[] place, double[] beats, double centre, double half)
    {
        double before = Rate(distance[0] - centre, half);
        beats[0] = 0.0;
        for (int i = 1; i < distance.Length; i++)
        {
            double rate = Rate(distance[i] - centre, half);
            beats[i] = beats[i - 1] + (0.5 * StepSeconds * (before + rate));
            before = rate;
        }

        bool rising = distance[^1] > distance[0];
        double squares = 0.0;
        int first = 0;
        foreach (bool above in new[] { !rising, rising })
        {
            int next = first;
            double sum = 0.0;
            double side = 0.0;
            while (next < place.Length && (At(distance, place[next]) > centre) == above)
            {
                double off = At(beats, place[next]) - (next - first);
                sum += off;
                side += off * off;
                next++;
            }

            if (next - first < FewestDips)
            {
                return double.PositiveInfinity;
            }

            squares += side - (sum * sum / (next - first));
            first = next;
        }

        return squares / place.Length;
    }

    private static double Rate(double distanceHz, double half) => Math.Sqrt(Math.Max(0.0, (distanceHz * distanceHz) - (half * half)));

    private static double At(double[] values, double place)
    {
        int i = Math.Min((int)place, values.Length - 2);
        return values[i] + ((place - i) * (values[i + 1] - values[i]));
    }
}
