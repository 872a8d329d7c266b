using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Analysis.Bounds;
using BrassVox.Analysis.Tracking;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Bounds;

/// <summary>The tracker's error on synthetic pairs in white noise beside the bound of Cramer and Rao.</summary>
internal static class BoundsBenchmark
{
    private const int Rate = 8_000;
    private const int Harmonics = 8;
    private static readonly (string Name, double PlayedHz, double SungHz)[] Pairs =
    [
        ("Bb1+F2", 58.2705, 87.5),
        ("Bb1+D3", 58.2705, 146.2),
        ("Bb2+D3", 116.5409, 146.2),
        ("Bb2+F3", 116.5409, 174.0),
        ("Bb2+A3", 116.5409, 220.9),
    ];

    /// <summary>Arguments: <c>--trials N</c> (default 200), <c>--csv PATH</c>, <c>--plot PATH</c> (SVG).</summary>
    public static int Run(string[] args)
    {
        int trials = int.Parse(Value(args, "--trials") ?? "200", CultureInfo.InvariantCulture);
        List<BoundPoint> points = [];
        List<string> lines = ["pair,window_ms,snr_db,tone,bound_cents,rms_cents,ratio,declined_share,over_10_cents_share"];
        Console.WriteLine($"{trials} windows each, {Harmonics} harmonics falling as 1/n, both tones equally loud, noise white to {Rate / 2} Hz, seed 1.");
        Console.WriteLine("Declared notes are 15 cents off; each window is measured alone. rms: over windows in which the pitch was given.");
        Console.WriteLine($"{"pair",-8}{"ms",5}{"dB",5}   {"tone",-7}{"bound c",10}{"rms c",10}{"ratio",8}{"declined",10}{">10 c",8}");
        foreach ((string name, double playedHz, double sungHz) in Pairs)
        {
            foreach (int windowMs in new[] { 50, 100, 160 })
            {
                foreach (int snrDb in new[] { 10, 20, 40 })
                {
                    foreach (Row row in Measure(playedHz, sungHz, windowMs, snrDb, trials))
                    {
                        Console.WriteLine(FormattableString.Invariant(
                            $"{name,-8}{windowMs,5}{snrDb,5}   {row.Tone,-7}{row.BoundCents,10:0.000}{row.RmsCents,10:0.000}{row.RmsCents / row.BoundCents,8:0.00}{row.Declined,10:0.00}{row.Gross,8:0.00}"));
                        points.Add(new BoundPoint(windowMs, snrDb, row.BoundCents, row.RmsCents));
                        lines.Add(FormattableString.Invariant(
                            $"{name},{windowMs},{snrDb},{row.Tone},{row.BoundCents:R},{row.RmsCents:R},{row.RmsCents / row.BoundCents:R},{row.Declined:R},{row.Gross:R}"));
                    }
                }
            }
        }

        if (Value(args, "--csv") is { } path)
        {
            File.WriteAllLines(path, lines);
        }

        if (Value(args, "--plot") is { } plot)
        {
            File.WriteAllText(plot, BoundPlot.Svg(points));
        }

        Console.WriteLine();
        Console.WriteLine("Error over bound, all pairs and both tones: median, greatest");
        foreach (var group in points.GroupBy(x => (x.WindowMs, x.SnrDb)))
        {
            double[] ratios = [.. group.Select(x => x.RmsCents / x.BoundCents).Where(double.IsFinite).Order()];
            Console.WriteLine(FormattableString.Invariant(
                $"{group.Key.WindowMs,4} ms {group.Key.SnrDb,3} dB {ratios[ratios.Length / 2],8:0.00}{ratios[^1],8:0.00}"));
        }

        return 0;
    }

    private static IEnumerable<Row> Measure(double playedHz, double sungHz, int windowMs, int snrDb, int trials)
    {
        int samples = (Rate * windowMs / 1000) - 1;
        var random = new Random(1);
        var played = new Errors("played", playedHz);
        var sung = new Errors("sung", sungHz);
        for (int trial = 0; trial < trials; trial++)
        {
            HarmonicTone p = Tone(playedHz * Math.Pow(2.0, 0.01 * random.NextDouble()), random);
            HarmonicTone s = Tone(sungHz * Math.Pow(2.0, 0.01 * random.NextDouble()), random);
            double noiseRms = Math.Sqrt((p.Power + s.Power) * Math.Pow(10.0, -snrDb / 10.0));
            PairBound bound = CramerRao.PairHz(p, s, noiseRms, Rate, samples);
            var reader = new FrameReader(
                samples, Rate, 0.01, DuetPrior.Held(p.FundamentalHz * Cents.ToRatio(15.0), s.FundamentalHz * Cents.ToRatio(-15.0)));
            WindowReading reading = reader.Read(Sound(p, s, noiseRms, samples, random));
            played.Add(bound.PlayedHz, p.FundamentalHz, reading.First);
            sung.Add(bound.SungHz, s.FundamentalHz, reading.Second);
        }

        return [played.Row, sung.Row];
    }

    private static HarmonicTone Tone(double hz, Random random) => new(
        hz,
        [.. Enumerable.Range(1, Harmonics).Select(k => 0.1 / k)],
        [.. Enumerable.Range(1, Harmonics).Select(_ => 2.0 * Math.PI * random.NextDouble())]);

    private static float[] Sound(HarmonicTone p, HarmonicTone s, double noiseRms, int samples, Random random)
    {
        float[] sound = new float[samples];
        for (int n = 0; n < samples; n++)
        {
            double t = (n - (0.5 * (samples - 1))) / Rate;
            double noise = Math.Sqrt(-2.0 * Math.Log(1.0 - random.NextDouble())) * Math.Cos(2.0 * Math.PI * random.NextDouble());
            sound[n] = (float)(At(p, t) + At(s, t) + (noiseRms * noise));
        }

        return sound;
    }

    private static double At(HarmonicTone tone, double t)
    {
        double sum = 0.0;
        for (int k = 1; k <= tone.Amplitudes.Count; k++)
        {
            sum += tone.Amplitudes[k - 1] * Math.Cos((2.0 * Math.PI * k * tone.FundamentalHz * t) + tone.PhasesRadians[k - 1]);
        }

        return sum;
    }

    private static string? Value(string[] args, string name)
    {
        int at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? args[at + 1] : null;
    }

    private readonly record struct Row(string Tone, double BoundCents, double RmsCents, double Declined, double Gross);

    private sealed class Errors(string tone, double nearHz)
    {
        private double _boundSquares;
        private double _squares;
        private int _given;
        private int _gross;
        private int _all;

        public Row Row => new(
            tone,
            Math.Sqrt(_boundSquares / _all),
            _given > 0 ? Math.Sqrt(_squares / _given) : double.NaN,
            1.0 - ((double)_given / _all),
            (double)_gross / _all);

        public void Add(double boundHz, double trueHz, PitchEstimate? found)
        {
            _all++;
            double bound = boundHz * 1200.0 / Math.Log(2.0) / nearHz;
            _boundSquares += bound * bound;
            if (found is { } estimate)
            {
                double cents = Cents.Between(trueHz, estimate.FrequencyHz);
                _given++;
                _squares += cents * cents;
                _gross += Math.Abs(cents) > 10.0 ? 1 : 0;
            }
        }
    }
}
