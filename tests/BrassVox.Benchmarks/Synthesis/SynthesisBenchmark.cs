using System.Diagnostics;
using System.Globalization;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Synthesis;

/// <summary>Speed of synthesis: the whole pair in times real time with what its parts cost, and one fixed job beside other renderers.</summary>
/// <remarks>Usage: synthesis TONES_FOLDER [JOBS_FOLDER]; the folder of jobs may also stand in BRASSVOX_REFERENCE_SPEED.</remarks>
internal static class SynthesisBenchmark
{
    private const int Rate = 48000;
    private const int Rounds = 7;

    internal static int Run(string[] arguments)
    {
        if (arguments is ["job", var output])
        {
            return Job(output);
        }

        if (arguments.Length == 0)
        {
            Console.Error.WriteLine("usage: synthesis TONES_FOLDER [JOBS_FOLDER]");
            return 2;
        }

        TonePresets presets = TonePresets.Load(arguments[0]);
        Pair(presets);
        Profile(presets);
        string? jobs = arguments.Length > 1 ? arguments[1] : Environment.GetEnvironmentVariable("BRASSVOX_REFERENCE_SPEED");
        if (jobs is null)
        {
            Console.WriteLine("No folder of jobs given and BRASSVOX_REFERENCE_SPEED is not set: the comparison with other renderers is left out.");
            return 0;
        }

        Compare(jobs);
        return 0;
    }

    private static void Pair(TonePresets presets)
    {
        Console.WriteLine("The whole pair: brass partials, voice with five formants, coupling, bell, limiter; one core, 48 kHz, blocks of 512; least of many short runs");
        Console.WriteLine("| state | times real time |");
        Console.WriteLine("|---|---|");
        Row("tuba and bass, separate, standing", "tuba", "bass", 0);
        Row("tuba and bass, coupled, standing", "tuba", "bass", 0.6f);
        Row("tuba and bass, coupled, alive, with vibrato (all amplitudes move)", "tuba", "bass", 0.6f, ("life", 1), ("sungVibratoCents", 50), ("playedVibratoCents", 10));
        Row("bass trombone on F1 and bass, coupled, alive, loud", "bass-trombone", "bass", 0.6f, ("life", 1), ("sungVibratoCents", 50), ("playedDynamicDb", 6));

        void Row(string name, string brass, string voice, float depth, params (string Id, float Value)[] set)
        {
            FlowPair pair = Make(presets, brass, voice, depth, set);
            float[] block = new float[512];
            double seconds = Least(() => pair.Render(block));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {name} | {512.0 / Rate / seconds:F0} |"));
        }
    }

    // What holds the coupled pair from the limit: the parts of one tick of 64 samples.
    private static void Profile(TonePresets presets)
    {
        const int Tick = PeakGuard.TickSamples;
        float[] real = new float[Tick], imaginary = new float[Tick], wave = new float[Tick];
        PhaseTrack phase = default;
        PartialBank bank = new(BrassTone.MostPartials);
        for (int k = 0; k < 64; k++)
        {
            bank.RealTarget[k] = 0.1f / (k + 1);
        }

        bank.Aim(64, 0);
        PeakGuard guard = new();
        guard.Prepare(Rate);
        FlowLevels levels = new(presets.BrassById("tuba"), presets.VoiceById("bass"), 273, Rate);
        FlowAim aim = new(58.27, 87.31, 0.6, 0, 0, 0, 0, 0, 1);
        FlowPair pair = Make(presets, "tuba", "bass", 0.6f);
        float[] block = new float[Tick];
        Console.WriteLine();
        Console.WriteLine("Profile, ns a tick of 64 samples");
        Console.WriteLine("| part | ns |");
        Console.WriteLine("|---|---|");
        Row("whole coupled pair, standing", Least(() => pair.Render(block)));
        Row("two phases", 2 * Least(() => phase.Fill(0.0012, 0.0012, Tick, real, imaginary)));
        Row("64 standing partials", Least(() => bank.Render(real, imaginary, wave, Tick)));
        Row("64 moving partials", Least(() =>
        {
            for (int k = 0; k < 64; k++)
            {
                bank.RealTarget[k] = bank.RealTarget[k] > 0 ? -0.001f : 0.001f;
            }

            bank.Aim(64, Tick);
            bank.Render(real, imaginary, wave, Tick);
        }));
        Row("limiter, nothing to limit", Least(() => guard.Push(wave)));
        Row("all amplitudes anew (once in eight ticks, while something moves)", Least(() => levels.Aim(aim, 512)) / 8);

        static void Row(string name, double seconds) =>
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {name} | {seconds * 1e9:F0} |"));
    }

    private static void Compare(string jobs)
    {
        string work = Directory.CreateTempSubdirectory("brassvox-speed").FullName;
        try
        {
            List<(string Name, string Command)> programs = References.Build(jobs, work);
            // Begun through the host `dotnet` this process needs its assembly named; begun by itself it does not.
            bool isHosted = Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet";
            string self = $"'{Environment.ProcessPath}'{(isHosted ? $" '{typeof(SynthesisBenchmark).Assembly.Location}'" : "")} synthesis job $OUT";
            List<double>[] whole = [.. programs.Select(_ => new List<double>())];
            List<double> ours = [];
            List<double> oursWithStart = [];
            for (int round = 0; round < Rounds; round++)
            {
                for (int i = 0; i < programs.Count; i++)
                {
                    whole[i].Add(Time(programs[i].Command, work).Cpu);
                }

                (double cpu, string errors) = Time(self, work);
                oursWithStart.Add(cpu);
                ours.Add(double.Parse(errors.Split('\n').First(line => line.StartsWith("job ", StringComparison.Ordinal))[4..], CultureInfo.InvariantCulture));
            }

            double own = Median(ours);
            Console.WriteLine();
            Console.WriteLine($"The fixed job, 60 s of sound to a WAV file: CPU seconds, median (least) of {Rounds} rounds in turn");
            Console.WriteLine("| program | CPU s | times real time | its time over ours, start-up apart |");
            Console.WriteLine("|---|---|---|---|");
            Row("BrassVox, start-up apart", ours);
            Row("BrassVox, whole process", oursWithStart);
            for (int i = 0; i < programs.Count; i++)
            {
                Row(programs[i].Name, whole[i]);
            }

            void Row(string name, List<double> seconds) => Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"| {name} | {Median(seconds):F3} ({seconds.Min():F3}) | {60 / Median(seconds):F0} | {Median(seconds) / own:F2} ({seconds.Min() / ours.Min():F2}) |"));
        }
        finally
        {
            Directory.Delete(work, true);
        }
    }

    // In a process of its own: renders and writes once to warm up, then again, timed.
    private static int Job(string output)
    {
        SpecJob.Write(output, new SpecJob().Render(2));
        for (int i = 0; i < 20; i++)
        {
            new SpecJob().Render(1);
        }

        Thread.Sleep(150); // the compiler's second tier arrives
        new SpecJob().Render(2);
        using Process me = Process.GetCurrentProcess();
        TimeSpan before = me.TotalProcessorTime;
        SpecJob.Write(output, new SpecJob().Render(60));
        me.Refresh();
        Console.Error.WriteLine("job " + (me.TotalProcessorTime - before).TotalSeconds.ToString(CultureInfo.InvariantCulture));
        return 0;
    }

    private static (double Cpu, string Errors) Time(string command, string work)
    {
        string output = Path.Combine(work, "out.wav");
        (int exitCode, string errors) = References.Shell($"OUT='{output}'; TIMEFORMAT='cpu %U %S'; time {command}");
        if (exitCode != 0)
        {
            throw new InvalidOperationException($"{command}: {errors}");
        }

        string[] words = errors.Split('\n').Last(line => line.StartsWith("cpu ", StringComparison.Ordinal)).Split(' ');
        return (double.Parse(words[1], CultureInfo.InvariantCulture) + double.Parse(words[2], CultureInfo.InvariantCulture), errors);
    }

    private static FlowPair Make(TonePresets presets, string brass, string voice, float depth, params (string Id, float Value)[] set)
    {
        FlowPair pair = new(presets.BrassById(brass), presets.VoiceById(voice), 1);
        foreach ((string id, float value) in set)
        {
            pair.Parameters.Single(parameter => string.Equals(parameter.Spec.Id, id, StringComparison.Ordinal)).Target = value;
        }

        pair.CouplingDepth.Target = depth;
        pair.Prepare(new RenderFormat(Rate, 512));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(brass == "tuba" ? 58.2705 : 43.6535)));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(87.3071)));
        pair.TryPost(PairEvent.Start());
        return pair;
    }

    // Other work on the machine only ever adds time: the least of many runs, each shorter than a turn of the scheduler, is the figure that repeats.
    private static double Least(Action action)
    {
        for (int warm = 0; warm < 5; warm++)
        {
            for (int i = 0; i < 300; i++)
            {
                action();
            }

            Thread.Sleep(120);
        }

        int batch = 1;
        while (Elapsed(action, batch) < 150e-6)
        {
            batch *= 2;
        }

        double least = double.PositiveInfinity;
        for (int run = 0; run < 1500; run++)
        {
            least = Math.Min(least, Elapsed(action, batch) / batch);
        }

        return least;
    }

    private static double Elapsed(Action action, int times)
    {
        long start = Stopwatch.GetTimestamp();
        for (int i = 0; i < times; i++)
        {
            action();
        }

        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static double Median(List<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }
}
