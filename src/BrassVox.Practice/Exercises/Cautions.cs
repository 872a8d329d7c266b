namespace BrassVox.Practice.Exercises;

/// <summary>The words of each caution, in one place. Information, not medical advice; local rules and licensed practice go first.</summary>
/// <remarks>Sources: occupational guidance 85 dB(A) for 8 h, 94 dB(A) for 1 h; brass and eye pressure, doi 10.1007/s00417-010-1600-x; vocal fatigue of wind players, doi 10.1007/s00405-024-08755-1; block lengths are ours.</remarks>
public static class Cautions
{
    /// <summary>One caution in a sentence or two.</summary>
    /// <param name="caution">The caution.</param>
    public static string TextOf(Caution caution) => caution switch
    {
        Caution.Hearing => "Start quietly; one ear free. Guidance allows 85 dB(A) for eight hours, 94 for one.",
        Caution.LowTones => "Do not turn up to hear a low tone that your speaker cannot carry; use headphones or an octave higher.",
        Caution.Voice => "Play soft, sing full and easy; five minutes, then as much rest. Stop at pain, scratch or lost high notes; hoarse for weeks: see a laryngologist. Do not sing with a cold.",
        Caution.Lips => "Lips need rest as well: as long as you played.",
        Caution.Pressure => "Glaucoma, fresh eye or belly surgery, hernia, high blood pressure: ask a physician before long, loud or high notes.",
        _ => "Dizzy: stop and sit down. Nobody counts how long your breath is.",
    };

    /// <summary>One caution in a few words, where there is no room for <see cref="TextOf"/>.</summary>
    /// <param name="caution">The caution.</param>
    public static string ShortOf(Caution caution) => caution switch
    {
        Caution.Hearing => "start quietly, one ear free",
        Caution.LowTones => "low tones by headphones or an octave higher, never louder",
        Caution.Voice => "five minutes, then as much rest; stop at pain",
        Caution.Lips => "rest the lips as well",
        Caution.Pressure => "glaucoma, fresh surgery, hernia, high blood pressure: ask a physician first",
        _ => "dizzy: stop, sit down",
    };
}
