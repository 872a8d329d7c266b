using BrassVox.Audio;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Section;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui;

/// <summary>What the screens need from the rest of the house.</summary>
/// <param name="Audio">The machine's sound.</param>
/// <param name="CreateEngine">Makes an unprepared engine with the tones of a player's instrument and voice.</param>
/// <param name="CreateTracker">Makes a tracker.</param>
/// <param name="Exercises">The exercises.</param>
/// <param name="DataFolder">Where answers and the last pair are kept.</param>
/// <param name="Ascii">True to use no sign beyond 0x7E, whatever the terminal says.</param>
/// <param name="Plain">True to print lines instead of drawing screens.</param>
internal sealed record TuiSetup(
    IAudioSystem Audio,
    Func<PlayerProfile, IPairEngine> CreateEngine,
    TrackerFactory CreateTracker,
    ExerciseLibrary Exercises,
    string DataFolder,
    bool Ascii = false,
    bool Plain = false)
{
    /// <summary>Makes the unprepared sound of a section, which slides to stillness or stays as entered; null where no tones are at hand.</summary>
    public Func<SectionReport, bool, SectionSound>? CreateSection { get; init; }
}
