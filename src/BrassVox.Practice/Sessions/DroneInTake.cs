using System.Globalization;
using System.Text.Json.Serialization;
using BrassVox.Analysis.Bleed;

namespace BrassVox.Practice.Sessions;

/// <summary>Whether what the program played bleeds into a take, and what is left of it once it is taken out.</summary>
/// <param name="Bleeds">True when it was found in the take.</param>
/// <param name="ShareDb">Its share of the take before, in dB.</param>
/// <param name="LeftDb">What is left of it after, in dB of what it was; null when there was none.</param>
public sealed record DroneInTake(bool Bleeds, double ShareDb, double? LeftDb)
{
    /// <summary>What is left of the drone has to be this far under it, and what lies so far under it is taken for its remains.</summary>
    private const double EnoughDb = -20;

    /// <summary>True when the pitches measured can be the player's alone.</summary>
    [JsonIgnore]
    public bool IsTrusted => !Bleeds || LeftDb <= EnoughDb;

    /// <summary>Looks for the drone and takes it out where it bleeds. Takes a while; not on a screen's or a sound's thread.</summary>
    /// <param name="drone">What was played, mono, full scale 1, from the same instant as the take.</param>
    /// <param name="take">What was recorded, mono, full scale 1.</param>
    /// <param name="sampleRateHz">Rate of both in Hz.</param>
    /// <param name="fromSeconds">Where the take begins: what sounds before, a word in the count-in or a tuning note, is no part of the check.</param>
    /// <returns>What was found, and the take without the drone or as it was.</returns>
    public static (DroneInTake Found, float[] Take) TakeOut(float[] drone, float[] take, int sampleRateHz, double fromSeconds = 0)
    {
        (DroneInTake Found, float[] Take) whole = TakeOut(drone, take, sampleRateHz, drone, take);
        int from = Math.Clamp((int)(fromSeconds * sampleRateHz), 0, Math.Min(drone.Length, take.Length));
        if (from == 0 || whole.Found is { Bleeds: true, IsTrusted: true })
        {
            return whole;
        }

        (DroneInTake Found, float[] Take) alone = TakeOut(drone, take, sampleRateHz, drone[from..], take[from..]);
        return alone.Found.Bleeds && (!whole.Found.Bleeds || alone.Found.IsTrusted) ? alone : whole;
    }

    private static (DroneInTake Found, float[] Take) TakeOut(float[] drone, float[] take, int sampleRateHz, float[] learnedDrone, float[] learnedTake)
    {
        BleedReading reading = BleedCheck.Measure(learnedDrone, learnedTake, sampleRateHz);
        if (!reading.Bleeds || BleedFilter.Learn(learnedDrone, learnedTake, sampleRateHz) is not { } filter)
        {
            return (new DroneInTake(false, Math.Round(reading.ShareDb, 1), null), take);
        }

        return (new DroneInTake(true, Math.Round(reading.ShareDb, 1), Math.Round(filter.LeftDb, 1)), filter.Clean(drone, take, EnoughDb));
    }

    /// <summary>One line for people.</summary>
    public override string ToString() => !Bleeds
        ? "drone    not heard in the take"
        : string.Create(CultureInfo.InvariantCulture, $"drone    bleeds into the take ({ShareDb:F1} dB of it); taken out, {LeftDb:F1} dB of it left")
            + (IsTrusted ? string.Empty : ": too much to trust the pitches, use headphones");
}
