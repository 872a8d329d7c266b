using System.Diagnostics;

namespace BrassVox.Benchmarks.Synthesis;

/// <summary>Builds the reference renderers of the same job, as far as their tools are installed.</summary>
internal static class References
{
    // Drives Faust's C output: no architecture file, no library.
    private const string FaustDriver = """
        #include <stdio.h>
        #include <stdlib.h>
        #include <string.h>
        #include <math.h>
        #define FAUSTFLOAT float
        typedef struct { void* uiInterface; void (*openTabBox)(void*, const char*); void (*openHorizontalBox)(void*, const char*); void (*openVerticalBox)(void*, const char*); void (*closeBox)(void*); void (*addButton)(void*, const char*, float*); void (*addCheckButton)(void*, const char*, float*); void (*addVerticalSlider)(void*, const char*, float*, float, float, float, float); void (*addHorizontalSlider)(void*, const char*, float*, float, float, float, float); void (*addNumEntry)(void*, const char*, float*, float, float, float, float); void (*addHorizontalBargraph)(void*, const char*, float*, float, float); void (*addVerticalBargraph)(void*, const char*, float*, float, float); void (*addSoundfile)(void*, const char*, const char*, void*); void (*declare)(void*, float*, const char*, const char*); } UIGlue;
        typedef struct { void* metaInterface; void (*declare)(void*, const char*, const char*); } MetaGlue;
        static inline int min(int a, int b) { return a < b ? a : b; }
        static inline int max(int a, int b) { return a > b ? a : b; }
        #include "job_faust.c"
        int main(int c, char** v) {
            enum { rate = 48000, count = 60 * rate };
            mydsp* dsp = newmydsp(); initmydsp(dsp, rate);
            float* out = malloc(sizeof(float) * count);
            for (int i = 0; i < count; i += 512) { float* block = out + i; int n = count - i < 512 ? count - i : 512; computemydsp(dsp, n, NULL, &block); }
            FILE* h = fopen(v[1], "wb"); int n = count * 4, t; short w; unsigned char H[44];
            memcpy(H, "RIFF", 4); t = 36 + n; memcpy(H + 4, &t, 4); memcpy(H + 8, "WAVEfmt ", 8); t = 16; memcpy(H + 16, &t, 4); w = 3; memcpy(H + 20, &w, 2); w = 1; memcpy(H + 22, &w, 2);
            t = rate; memcpy(H + 24, &t, 4); t = rate * 4; memcpy(H + 28, &t, 4); w = 4; memcpy(H + 32, &w, 2); w = 32; memcpy(H + 34, &w, 2); memcpy(H + 36, "data", 4); memcpy(H + 40, &n, 4);
            fwrite(H, 1, 44, h); fwrite(out, 4, count, h); fclose(h); return 0;
        }
        """;

    /// <summary>Names and shell commands, each writing a WAV file named $OUT.</summary>
    /// <param name="jobs">Folder with job.c, job.dsp and job.csd.</param>
    /// <param name="work">Folder to build in.</param>
    internal static List<(string Name, string Command)> Build(string jobs, string work)
    {
        List<(string, string)> built = [];
        Add("C, gcc -O3 -ffast-math -march=native", $"gcc -O3 -ffast-math -march=native '{jobs}/job.c' -lm -o '{work}/c_fast'", $"'{work}/c_fast' $OUT");
        Add("C, gcc -O2", $"gcc -O2 '{jobs}/job.c' -lm -o '{work}/c_o2'", $"'{work}/c_o2' $OUT");
        File.WriteAllText(Path.Combine(work, "faust_main.c"), FaustDriver);
        Add(
            "Faust, gcc -O3 -ffast-math -march=native",
            $"faust -lang c '{jobs}/job.dsp' -o '{work}/job_faust.c' && gcc -O3 -ffast-math -march=native '{work}/faust_main.c' -lm -o '{work}/faust_job'",
            $"'{work}/faust_job' $OUT");
        Add("Csound", "csound --version", $"csound -o $OUT '{jobs}/job.csd' </dev/null");
        return built;

        void Add(string name, string build, string command)
        {
            (int exitCode, string message) = Shell(build);
            if (exitCode == 0)
            {
                built.Add((name, command));
            }
            else
            {
                Console.WriteLine($"left out: {name}: {message.Trim().Split('\n')[^1]}");
            }
        }
    }

    /// <summary>Runs a shell line; its exit code and what it wrote to standard error.</summary>
    internal static (int ExitCode, string Errors) Shell(string line)
    {
        ProcessStartInfo start = new("bash") { RedirectStandardError = true, RedirectStandardOutput = true };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add(line);
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        string errors = process.StandardError.ReadToEnd();
        process.WaitForExit();
        output.Wait();
        return (process.ExitCode, errors);
    }
}
