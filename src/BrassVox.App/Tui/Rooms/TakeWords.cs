using System.Globalization;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Takes says of a take, and how it is heard again.</summary>
internal static class TakeWords
{
    /// <summary>When it was made, in the player's own time: Tue 2026-09-08 18:04.</summary>
    /// <param name="take">The take.</param>
    public static string When(TakeRecord take) => take.MadeAt.ToLocalTime().ToString("ddd yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A cell of the error map in the player's unit.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="unit">The unit shown first.</param>
    /// <param name="a4Hz">A4 in Hz.</param>
    public static string Figure(ErrorCell cell, DisplayUnit unit, double a4Hz) => unit == DisplayUnit.Beats && cell.Kind == ErrorKind.Offset
        ? string.Create(CultureInfo.InvariantCulture, $"{Beats(cell, a4Hz):0.0} /s o ({cell.TakesInWords})")
        : string.Create(CultureInfo.InvariantCulture, $"{cell.Figure} ({cell.TakesInWords})");

    /// <summary>Plays a take's sound.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="store">The store.</param>
    /// <param name="take">The take.</param>
    public static void Replay(MusicStand stand, TakeStore store, TakeRecord take)
    {
        string path = store.SoundPath(take);
        if (!File.Exists(path))
        {
            stand.Say(take.IsSimulated ? "This simulated take has figures only, no sound." : $"Its sound is not here any more: {path}");
        }
        else if (stand.Desk.TryReplay(() => TakeReading.Sound(path)))
        {
            stand.Say(stand.Heard("Your take, as the microphone heard it. Space is silence."));
        }
        else
        {
            stand.Say("The sound is still opening; again in a moment.");
        }
    }

    /// <summary>Beats that an offset makes in the middle of the register, at the nearest coincidence of a just pair (harmonics up to 6).</summary>
    private static double Beats(ErrorCell cell, double a4Hz)
    {
        double playedHz = EqualTemperament.FrequencyHz((cell.Register.Lowest.MidiNumber + cell.Register.Highest.MidiNumber) / 2.0, a4Hz);
        int harmonic = cell.Family switch
        {
            IntervalFamily.Unison => 1,
            IntervalFamily.Octave => 2,
            IntervalFamily.Twelfth or IntervalFamily.Fifth => 3,
            IntervalFamily.Fourth => 4,
            _ => 5,
        };
        return Math.Abs(Cents.Above(playedHz * harmonic, cell.Value) - (playedHz * harmonic));
    }
}
