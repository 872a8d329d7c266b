namespace BrassVox.Synthesis.Living;

/// <summary>An instrument of the living system: its bore, the lips of its player, and the slots that the calibration found.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Id">The same id as the instrument's tone preset.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Source">Where the geometry comes from.</param>
/// <param name="NominalHz">Fundamental of the harmonic row, valves up and slide in, in Hz.</param>
/// <param name="LowestHz">Lowest usual pitch in Hz.</param>
/// <param name="HighestHz">Highest usual pitch in Hz.</param>
/// <param name="TemperatureC">Temperature of the air in the bore, in degrees Celsius.</param>
/// <param name="Lips">The lips.</param>
/// <param name="Sections">The bore from the rim of the mouthpiece to the bell.</param>
/// <param name="Slots">The slots by rising number, derived from the rest by calibration; empty before that.</param>
public sealed record BrassBore(
    int FormatVersion,
    string Id,
    string Name,
    string Source,
    double NominalHz,
    double LowestHz,
    double HighestHz,
    double TemperatureC,
    LipSettings Lips,
    IReadOnlyList<BoreSection> Sections,
    IReadOnlyList<ColumnSlot> Slots)
{
    /// <summary>Modes that the running column has.</summary>
    internal const int ModeCount = 64;

    /// <summary>Steps a second of the simulation with valves up and slide in.</summary>
    internal const double GridHz = 96000;

    /// <summary>Loads every file of a folder, lowest instrument first.</summary>
    /// <param name="folder">The folder of bores.</param>
    /// <exception cref="DirectoryNotFoundException">No such folder.</exception>
    /// <exception cref="InvalidDataException">A file is not a bore; the message names file and place.</exception>
    public static IReadOnlyList<BrassBore> LoadAll(string folder) => BrassBoreFiles.LoadAll(folder);

    /// <summary>The air in the bore.</summary>
    internal Air Air => new(TemperatureC);

    /// <summary>Computes the modes of the column; takes some tenths of a second.</summary>
    internal ColumnMode[] FindModes() => ColumnModes.Find(new Bore(Sections, Air), Air, NominalHz, ModeCount);

    /// <summary>Index of the slot for a pitch: the lowest one that reaches it with valves or slide, which only lengthen the tube.</summary>
    /// <param name="frequencyHz">Pitch in Hz.</param>
    internal int SlotFor(double frequencyHz)
    {
        const double Reach = 1.015;
        for (int i = 0; i < Slots.Count; i++)
        {
            if (frequencyHz <= Slots[i].SoundingHz[2] * Reach)
            {
                return i;
            }
        }

        return Slots.Count - 1;
    }
}
