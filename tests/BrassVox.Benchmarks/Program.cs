using BrassVox.Benchmarks.Accuracy;
using BrassVox.Benchmarks.Audio;
using BrassVox.Benchmarks.Bounds;
using BrassVox.Benchmarks.Crash;
using BrassVox.Benchmarks.Fuzz;
using BrassVox.Benchmarks.Living;
using BrassVox.Benchmarks.Ratios;
using BrassVox.Benchmarks.Soak;
using BrassVox.Benchmarks.Streaming;

return (args.Length > 0 ? args[0] : "") switch
{
    "accuracy" => AccuracyBenchmark.Run(args[1..]),
    "living" => LivingReport.Run(args[1..]),
    "synthesis" => BrassVox.Benchmarks.Synthesis.SynthesisBenchmark.Run(args[1..]),
    "latency" => LatencyBenchmark.Run(args[1..]),
    "streaming" => StreamingBenchmark.Run(),
    "glides" => GlideBenchmark.Run(args[1..]),
    "bounds" => BoundsBenchmark.Run(args[1..]),
    "fuzz" => FuzzReport.Run(args[1..]),
    "ratios" => RatioReport.Run(args[1..]),
    "soak" when args.Length > 1 && args[1] == "--hours" => HoursReport.Run(args[2..]),
    "soak" => SoakReport.Run(args[1..]),
    "crash" => CrashHost.Run(args[1..]),
    _ => Unknown(),
};

static int Unknown()
{
    Console.Error.WriteLine("Name a benchmark: accuracy, glides, living, synthesis, latency, bounds, streaming, fuzz, ratios, soak, crash.");
    return 2;
}
