using System.Numerics;
using BrassVox.Analysis;
using BrassVox.Analysis.Bleed;
using BrassVox.Analysis.Loudness;
using BrassVox.Analysis.Sensation;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using BrassVox.Theory;
using MathNet.Numerics.IntegralTransforms;

namespace BrassVox.Benchmarks.Ratios;

/// <summary>The jobs: what sounds beside a sum of sines, what listens beside a general-purpose transform, a meter beside a plain loop. Nothing here allocates much: what a collector takes is no ratio.</summary>
internal static class RatioJobs
{
    private const int RateHz = 48_000;
    private const int Block = 480;

    internal static IEnumerable<RatioJob> All()
    {
        TonePresets presets = TonePresets.Load(Path.Combine(Root(), "presets", "tones"));
        float[] block = new float[Block];
        const double blockSeconds = (double)Block / RateHz;
        (string Name, Action Work, double Seconds) sines = ("64 sines by Math.Sin", Sines(), blockSeconds);
        FlowPair still = Pair(presets, []);
        FlowPair alive = Pair(presets, [("life", 1), ("sungVibratoCents", 50), ("playedVibratoCents", 10)]);
        LivingPair living = new(BrassBore.LoadAll(Path.Combine(Root(), "presets", "bores")).Single(x => x.Id == "trombone"), presets.VoiceById("bass"), 1);
        Start(living);
        yield return Of("a coupled pair, standing", () => still.Render(block), blockSeconds, sines);
        yield return Of("a coupled pair, alive", () => alive.Render(block), blockSeconds, sines);
        yield return Of("the living system, coupled", () => living.Render(block), blockSeconds, sines);

        float[] sound = new float[2 * RateHz];
        still.Render(sound);
        (string Name, Action Work, double Seconds) transform = ("100 transforms of 8192 points a second, MathNet", Transform(sound), 0.01);
        yield return Of("both pitches, declared", () => TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(58.27, 87.31)), 2.0, transform);
        yield return Of("both pitches, the voice moves", () => TakeMeasurement.Frames(sound, RateHz, new DuetPrior(58.27, 87.31, SungMoves: true)), 2.0, transform);
        yield return Of("both pitches, nothing declared", () => TakeMeasurement.Frames(sound, RateHz, DuetPrior.Free), 2.0, transform);
        RoughnessMeter roughness = new(RateHz, 94);
        yield return Of("roughness", () => roughness.OverTake(sound), 2.0, transform);
        yield return Of("a drone looked for", () => BleedCheck.Measure(sound, sound, RateHz), 2.0, transform);

        (string Name, Action Work, double Seconds) loop = ("one multiplication and addition a sample", Loop(sound), 2.0);
        LoudnessMeter loudness = new(RateHz, 1);
        yield return Of("loudness by BS.1770", () => { loudness.Reset(); loudness.Push(sound); }, 2.0, loop);
    }

    /// <summary>The folder of the solution.</summary>
    internal static string Root()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "BrassVox.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("BrassVox.sln was not found above the benchmark.");
    }

    private static RatioJob Of(string name, Action own, double seconds, (string Name, Action Work, double Seconds) reference) =>
        new(name, own, seconds, reference.Name, reference.Work, reference.Seconds);

    private static FlowPair Pair(TonePresets presets, (string Id, float Value)[] set)
    {
        FlowPair pair = new(presets.BrassById("tuba"), presets.VoiceById("bass"), 1);
        foreach ((string id, float value) in set)
        {
            pair.Parameters.Single(x => x.Spec.Id == id).Target = value;
        }

        pair.CouplingDepth.Target = 0.6f;
        Start(pair);
        return pair;
    }

    private static void Start(IPairEngine pair)
    {
        pair.Prepare(new RenderFormat(RateHz, 2 * RateHz));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(58.27)));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(87.31)));
        pair.TryPost(PairEvent.Start());
    }

    private static Action Sines()
    {
        double[] sum = new double[Block];
        return () =>
        {
            Array.Clear(sum);
            for (int k = 1; k <= 64; k++)
            {
                for (int i = 0; i < Block; i++)
                {
                    sum[i] += Math.Sin(0.0076 * k * i) / k;
                }
            }
        };
    }

    private static Action Transform(float[] sound)
    {
        Complex[] points = new Complex[8192];
        return () =>
        {
            for (int i = 0; i < points.Length; i++)
            {
                points[i] = sound[i];
            }

            Fourier.Forward(points, FourierOptions.AsymmetricScaling);
        };
    }

    private static Action Loop(float[] sound)
    {
        double[] state = new double[1];
        return () =>
        {
            double y = state[0];
            foreach (float x in sound)
            {
                y = (0.999 * y) + x;
            }

            state[0] = y;
        };
    }
}
