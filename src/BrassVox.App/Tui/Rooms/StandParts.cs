using BrassVox.App.Tui.Sound;
using BrassVox.Audio;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Section;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What a stand is made of.</summary>
/// <param name="Desk">The sound.</param>
/// <param name="Audio">The machine's sound, for lists of devices and for the microphone.</param>
/// <param name="Memory">What is remembered.</param>
/// <param name="CreateEngine">Makes an unprepared engine for a player.</param>
/// <param name="CreateTracker">Makes a tracker.</param>
/// <param name="Exercises">The exercises.</param>
/// <param name="DataFolder">Folder of takes.</param>
/// <param name="Time">The clock that dates takes.</param>
/// <param name="NoColour">True when NO_COLOR asks for none.</param>
internal sealed record StandParts(
    Desk Desk,
    IAudioSystem Audio,
    Memory Memory,
    Func<PlayerProfile, IPairEngine> CreateEngine,
    TrackerFactory CreateTracker,
    ExerciseLibrary Exercises,
    string DataFolder,
    TimeProvider Time,
    bool NoColour)
{
    /// <summary>Makes the unprepared sound of a section, which slides to stillness or stays as entered; null where no tones are at hand.</summary>
    public Func<SectionReport, bool, SectionSound>? CreateSection { get; init; }
}
