using System.Globalization;
using System.Text.Json.Serialization;
using BrassVox.Analysis.Bleed;
using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Sessions;

/// <summary>Whether what the program played bleeds into a take, and what is left of it once it is taken out.</summary>
/// <param name="Bleeds">True when it was found in the take.</param>
/// <param name="ShareDb">Its share of the take before, in dB.</param>
/// <param name="LeftDb">What is left of it after, in dB of what it was; null when there was none.</param>
/// <param name="AloneSeconds">Where too much of it was left: the seconds after it had left, of what was asked of one tone, that were judged; null for none.</param>
/// <param name="AskedSeconds">The seconds asked of one tone, where <paramref name="AloneSeconds"/> is known.</param>
public sealed record DroneInTake(bool Bleeds, double ShareDb, double? LeftDb, double? AloneSeconds = null, double? AskedSeconds = null)
{
    /// <summary>What is left of the drone has to be this far under it, and what lies so far under it is taken for its remains.</summary>
    private const double EnoughDb = -20;

    /// <summary>What is under this share of the loudest sent (-80 dB) is silence.</summary>
    private const float SilentShare = 1e-4f;

    /// <summary>After what was sent has ended: a room that dies away by 60 dB in 2 s is 30 dB down (our choice), and a line that drops blocks has caught up.</summary>
    private const double DecaySeconds = 1.0;

    private const double LeastAloneSeconds = 0.5;

    /// <summary>A player never follows the drone's phase in half of the half seconds, whatever the pitch; ours.</summary>
    private const double FollowedMostly = 0.5;

    /// <summary>True when it was not there or could be taken out.</summary>
    [JsonIgnore]
    public bool IsTakenOut => !Bleeds || LeftDb <= EnoughDb;

    /// <summary>True when the pitches that are told are the player's alone.</summary>
    [JsonIgnore]
    public bool IsTrusted => IsTakenOut || AloneSeconds is not null;

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
        if (from == 0 || whole.Found is { Bleeds: true, IsTakenOut: true })
        {
            return whole;
        }

        (DroneInTake Found, float[] Take) alone = TakeOut(drone, take, sampleRateHz, drone[from..], take[from..]);
        (DroneInTake Found, float[] Take) found = alone.Found.Bleeds && (!whole.Found.Bleeds || alone.Found.IsTakenOut) ? alone : whole;

        // A path that jumps keeps no phase over the take: looked for between the jumps, and no filter takes it out.
        return !found.Found.Bleeds && BleedCheck.FollowedShare(drone.AsSpan(from), take.AsSpan(from), sampleRateHz) >= FollowedMostly
            ? (new DroneInTake(true, 0, 0), take)
            : found;
    }

    /// <summary>The stretches of a take in which the player alone was heard: nothing was sent, and what had been sent has come back and died away.</summary>
    /// <param name="drone">What was played, mono, from the same instant as the take.</param>
    /// <param name="takeSamples">Samples of the take.</param>
    /// <param name="sampleRateHz">Rate of both in Hz.</param>
    /// <param name="wayBackSeconds">Round trip from output to input, at least 0.</param>
    /// <returns>Stretches in seconds of the take, in order; those shorter than a window of measuring left out.</returns>
    public static IReadOnlyList<Window> Alone(float[] drone, int takeSamples, int sampleRateHz, double wayBackSeconds)
    {
        List<Window> found = [];
        float silent = drone.Length == 0 ? 0 : SilentShare * drone.Max(Math.Abs);
        int margin = (int)((DecaySeconds + wayBackSeconds) * sampleRateHz);
        int end = Math.Min(drone.Length, takeSamples);
        int since = 0;
        for (int i = 0; i <= end; i++)
        {
            if (i == end || Math.Abs(drone[i]) > silent)
            {
                if (i - since > LeastAloneSeconds * sampleRateHz)
                {
                    found.Add(new Window((double)since / sampleRateHz, (double)i / sampleRateHz));
                }

                since = i + 1 + margin;
            }
        }

        return found;
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
    public override string ToString() => Line("drone    ");

    /// <summary>One line for people, which speaks of a drone only where one sounded: else it was what the program sounded before the take, or a tone like it.</summary>
    /// <param name="hasDrone">True when the program sounded anything during the take.</param>
    public string Words(bool hasDrone) => hasDrone ? ToString() : Line("sound    what the program sounded before the take, or a tone like it, ");

    private string Line(string what) => !Bleeds
        ? $"{what}not heard in the take"
        : string.Create(CultureInfo.InvariantCulture, $"{what}bleeds into the take ({ShareDb:F1} dB of it); taken out, {LeftDb:F1} dB of it left")
            + (IsTakenOut ? string.Empty
                : AloneSeconds is { } alone ? string.Create(CultureInfo.InvariantCulture, $": too much to trust the pitches, so only {alone:0.0} s after it had left are judged; use headphones")
                : ": too much to trust the pitches, use headphones");
}
