using System.Text.Json;
using BrassVox.Synthesis.Files;

namespace BrassVox.Synthesis.Living;

/// <summary>Bores as files: the instruments of the living system.</summary>
public static class BrassBoreFiles
{
    /// <summary>Loads every bore of a folder, lowest first.</summary>
    /// <param name="folder">The folder of bores.</param>
    /// <exception cref="DirectoryNotFoundException">The folder is missing.</exception>
    /// <exception cref="InvalidDataException">A file is not a bore; the message names file and place.</exception>
    public static IReadOnlyList<BrassBore> LoadAll(string folder)
    {
        List<BrassBore> bores = [];
        foreach (string file in Directory.GetFiles(folder, "*.json"))
        {
            bores.Add(Load(file));
        }

        bores.Sort((a, b) => a.LowestHz.CompareTo(b.LowestHz) is var order and not 0 ? order : string.CompareOrdinal(a.Id, b.Id));
        return bores;
    }

    internal static BrassBore Load(string file) => PresetJson.Read(file, BrassBoreJson.Default.BrassBore, Check);

    internal static void Save(BrassBore bore, string file) =>
        File.WriteAllText(file, JsonSerializer.Serialize(bore, BrassBoreJson.Default.BrassBore) + "\n");

    private static string? Check(BrassBore bore)
    {
        if (bore.FormatVersion != 1)
        {
            return "$.formatVersion: is 1";
        }

        if (string.IsNullOrWhiteSpace(bore.Id) || string.IsNullOrWhiteSpace(bore.Name) || string.IsNullOrWhiteSpace(bore.Source))
        {
            return "$: id, name and source are not empty";
        }

        if (!InRange(bore.NominalHz, 10, 1000) || !InRange(bore.LowestHz, 10, 5000) || !InRange(bore.HighestHz, bore.LowestHz, 5000))
        {
            return "$: nominalHz lies from 10 to 1000 Hz, lowestHz and highestHz from 10 to 5000 Hz and rise";
        }

        if (!InRange(bore.TemperatureC, -20, 50))
        {
            return "$.temperatureC: lies from -20 to 50";
        }

        LipSettings lips = bore.Lips;
        if (!InRange(lips.Q, 1, 20) || !InRange(lips.ClosingPressurePa, 10, 1e5) || !InRange(lips.RestOpeningMm, 0.01, 5) || !InRange(lips.WidthMm, 1, 50))
        {
            return "$.lips: q 1 to 20, closingPressurePa 10 to 100000, restOpeningMm 0.01 to 5, widthMm 1 to 50";
        }

        for (int i = 0; i < bore.Sections.Count; i++)
        {
            BoreSection section = bore.Sections[i];
            bool fits = InRange(section.LengthMm, 0.1, 10000) && InRange(section.StartRadiusMm, 0.1, 1000) && InRange(section.EndRadiusMm, 0.1, 1000);
            bool shaped = section.Shape switch
            {
                BoreShape.Cylinder => section.StartRadiusMm == section.EndRadiusMm && section.FlareExponent == 0,
                BoreShape.Cone => section.FlareExponent == 0,
                BoreShape.Bessel => section.EndRadiusMm > section.StartRadiusMm && InRange(section.FlareExponent, 0.1, 5),
                _ => false,
            };
            if (!fits || !shaped)
            {
                return $"$.sections[{i}]: lengths to 10000 mm, radii to 1000 mm; a cylinder keeps its radius, a Bessel horn widens with flareExponent 0.1 to 5";
            }
        }

        if (bore.Sections.Count == 0)
        {
            return "$.sections: holds at least one";
        }

        for (int i = 0; i < bore.Slots.Count; i++)
        {
            ColumnSlot slot = bore.Slots[i];
            int marks = BlowingState.Marks.Length;
            if (slot.SoundingHz.Count != marks || slot.LoudnessDb.Count != marks || !InRange(slot.LipHz, 5, 5000)
                || slot.SoundingHz.Any(hz => !InRange(hz, 5, 5000)) || (i > 0 && slot.Number <= bore.Slots[i - 1].Number))
            {
                return $"$.slots[{i}]: numbers rise; soundingHz and loudnessDb hold {marks} values each";
            }
        }

        return null;
    }

    private static bool InRange(double value, double low, double high) => value >= low && value <= high;
}
