using System.Diagnostics;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using static BrassVox.Benchmarks.Living.LivingRig;

namespace BrassVox.Benchmarks.Living;

/// <summary>Figures of the living system as tables on stdout, and as CSV in a folder when one is named.</summary>
internal static class LivingReport
{
    internal static int Run(string[] arguments)
    {
        switch (arguments)
        {
            case ["calibrate", .. var only]:
                Calibrate(only);
                return 0;
            case []:
            case ["pitch" or "capture" or "coupling" or "slots" or "speed", ..]:
            case ["all", ..]:
                Report(arguments.Length > 0 ? arguments[0] : "all", arguments.Length > 1 ? arguments[1] : null);
                return 0;
            default:
                Console.Error.WriteLine("living [all|speed|pitch|slots|coupling|capture] [FOLDER for CSV], or living calibrate [ID]");
                return 2;
        }
    }

    private static void Report(string part, string? folder)
    {
        VoicePreset voice = Voice("bass");
        Section("speed", writer => SpeedTable.Print(voice), null);
        Section("pitch", writer => PitchTable.Print(voice, writer), folder);
        Section("slots", writer => SlotTable.Print(voice, writer), folder);
        Section("coupling", writer => CouplingTable.Print(voice), null);
        Section("capture", writer => CaptureTable.Print(voice, writer), folder);

        void Section(string name, Action<StreamWriter?> print, string? csvFolder)
        {
            if (part != "all" && part != name)
            {
                return;
            }

            using StreamWriter? writer = csvFolder is null ? null : new StreamWriter(Path.Combine(csvFolder, $"living-{name}.csv"));
            print(writer);
            Console.WriteLine();
        }
    }

    // Writes the slots of one bore, or of all, into the presets.
    private static void Calibrate(string[] only)
    {
        foreach (string file in Directory.GetFiles(BoresFolder, (only is [var id] ? id : "*") + ".json"))
        {
            BrassBore bore = BrassBoreFiles.Load(file);
            var watch = Stopwatch.StartNew();
            ColumnMode[] modes = bore.FindModes();
            List<ColumnSlot> slots = Calibration.Run(bore, modes);
            BrassBoreFiles.Save(bore with { Slots = slots }, file);
            Console.WriteLine(Text($"{bore.Id}: {slots.Count} slots in {watch.Elapsed.TotalSeconds:F1} s; sounding pitch over resonance at pp, p, mf, f, ff"));
            foreach (ColumnSlot slot in slots)
            {
                ColumnMode mode = modes[slot.Number - 1];
                double resonance = mode.Pole.Imaginary / (2 * Math.PI);
                string ratios = string.Join(' ', slot.SoundingHz.Select(hz => Text($"{hz / resonance:F4}")));
                Console.WriteLine(Text($"  {slot.Number,2} resonance {resonance,8:F2} Hz Q {mode.Q:F0} lips {slot.LipHz / resonance:F3} {ratios}"));
            }
        }
    }
}
