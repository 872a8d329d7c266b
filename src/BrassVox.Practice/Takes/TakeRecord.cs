using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;

namespace BrassVox.Practice.Takes;

/// <summary>All that is kept of a take beside its sound. Its JSON is what the take folder holds and what the command line prints.</summary>
/// <param name="FormatVersion">2; 1 is read as well.</param>
/// <param name="Id">Name of the take and of its files.</param>
/// <param name="MadeAt">When it was kept.</param>
/// <param name="SoundFile">Name of the sound file beside it, or of the file that was judged.</param>
/// <param name="SampleRateHz">Rate of the sound in Hz.</param>
/// <param name="StartSeconds">Where in the sound the take begins, in seconds.</param>
/// <param name="ExerciseId">The exercise.</param>
/// <param name="ExerciseNumber">Its place in the curriculum; 0 for a passage.</param>
/// <param name="ExerciseName">Its name.</param>
/// <param name="Player">The player's profile.</param>
/// <param name="Played">P of the pair.</param>
/// <param name="PlayedHz">P in Hz.</param>
/// <param name="Sung">S of the pair.</param>
/// <param name="SungHz">S in Hz.</param>
/// <param name="Tuning">Name of the tuning in force.</param>
/// <param name="Notes">What was changed to fit the player.</param>
/// <param name="Result">What the take came to.</param>
/// <param name="Said">What the player said before looking; null when nothing was said.</param>
/// <param name="Frames">Frames in order of time; empty where they are left out.</param>
/// <param name="PlayerName">Name of the player's profile; null for the only one.</param>
/// <param name="IsSimulated">True for a take that nobody played.</param>
/// <param name="Drone">Whether the program's own sound was in the take; null when that could not be looked for.</param>
/// <param name="Expected">The number the player expected before the take; null when none was said.</param>
public sealed record TakeRecord(
    int FormatVersion,
    string Id,
    DateTimeOffset MadeAt,
    string SoundFile,
    int SampleRateHz,
    double StartSeconds,
    string ExerciseId,
    int ExerciseNumber,
    string ExerciseName,
    PlayerProfile Player,
    Theory.Pitch Played,
    double PlayedHz,
    Theory.Pitch Sung,
    double SungHz,
    string Tuning,
    IReadOnlyList<string> Notes,
    TakeResult Result,
    Saying? Said,
    IReadOnlyList<TakeFrame> Frames,
    string? PlayerName = null,
    bool IsSimulated = false,
    DroneInTake? Drone = null,
    Prediction? Expected = null)
{
    /// <summary>The version that is written.</summary>
    public const int Version = 2;

    private const string FormerPassageId = "own-passage";
    private const int FormerPassageNumber = 33;

    /// <summary>The exercise as it is named to people: number and name, or the name alone of a passage, which has no number.</summary>
    [JsonIgnore]
    public string Heading => ExerciseNumber > 0 ? string.Create(CultureInfo.InvariantCulture, $"{ExerciseNumber} {ExerciseName}") : ExerciseName;

    /// <summary>True for a take of a passage.</summary>
    [JsonIgnore]
    public bool IsOfPassage => ExerciseNumber == PassageExercise.NoNumber;

    /// <summary>The record as it is written now: takes of passages once were all "own-passage", number 33, which is no exercise.</summary>
    public TakeRecord Present() => ExerciseId == FormerPassageId && ExerciseNumber == FormerPassageNumber
        ? this with { ExerciseId = PassageExercise.IdOf(ExerciseName), ExerciseNumber = PassageExercise.NoNumber }
        : this;

    /// <summary>A record of a judged take.</summary>
    /// <param name="judged">The take.</param>
    /// <param name="said">What the player said; null when nothing.</param>
    /// <param name="id">The take's id.</param>
    /// <param name="soundFile">Name of the sound file, without a folder.</param>
    /// <param name="madeAt">When it was made.</param>
    /// <param name="withFrames">False leaves the frames out.</param>
    public static TakeRecord Of(JudgedTake judged, Saying? said, string id, string soundFile, DateTimeOffset madeAt, bool withFrames)
    {
        ResolvedPair pair = judged.Exercise.Pair;
        Exercise exercise = judged.Exercise.Exercise;
        return new TakeRecord(
            Version, id, madeAt, soundFile, judged.Recorded.SampleRateHz, Math.Round(judged.Recorded.StartSeconds, 6),
            exercise.Id, exercise.Number, exercise.Name, judged.Exercise.Profile,
            pair.Played, Math.Round(pair.PlayedHz, 6), pair.Sung, Math.Round(pair.SungHz, 6), pair.Tuning.Name,
            judged.Exercise.Notes, judged.Result, said, withFrames ? [.. judged.Frames.Select(TakeFrame.Of)] : [], Drone: judged.Drone, Expected: judged.Expected);
    }

    /// <summary>The record as JSON text, the same bytes in every culture. Numbers that are not finite never occur in it.</summary>
    /// <param name="indented">True for people.</param>
    public string ToJson(bool indented)
    {
        using var bytes = new MemoryStream();
        using (var writer = new Utf8JsonWriter(bytes, new JsonWriterOptions { Indented = indented, NewLine = "\n" }))
        {
            JsonSerializer.Serialize(writer, this, TakeJson.Default.TakeRecord);
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    /// <summary>A safe, sortable id: time in UTC, exercise, number of the take.</summary>
    internal static string IdOf(DateTimeOffset madeAt, string exerciseId, int number) => string.Create(
        CultureInfo.InvariantCulture, $"{madeAt.ToUniversalTime():yyyyMMdd'T'HHmmss'Z'}-{exerciseId}-{number}");
}
