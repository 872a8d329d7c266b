using System.Globalization;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The rooms that Start opens, in the order of the work. A further room is one line here.</summary>
internal static class RoomList
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<RoomEntry> All { get; } =
    [
        new(1, "HEAR", "Explore", AboutExplore, stand => new ExploreRoom(stand)),
        new(2, "", "Listen", stand => Count(stand, exercise => exercise.IsListening, "to hear and to answer"), stand => new ListenMenuRoom(stand)),
        new(3, "PLAY", "Play along", stand => Count(stand, exercise => !exercise.IsListening, "to play and sing"), stand => new PlayMenuRoom(stand)),
        new(4, "", "Passage", _ => "Two Breaths, One Pipe, or a line of your own", stand => new PassageRoom(stand)),
        new(5, "LOOK BACK", "Takes", AboutTakes, stand => new TakesRoom(stand)),
        new(6, "", "Plan", AboutPlan, stand => new PlanRoom(stand)),
        new(7, "SHOW", "Stage", AboutStage, stand => new StageRoom(stand)),
        new(8, "READY", "Set-up", AboutSetUp, stand => new SetUpRoom(stand)),
    ];

    private static string AboutExplore(MusicStand stand)
    {
        PairSetting pair = stand.Memory.Now.Pair;
        return $"{pair.Described(VoiceRole.Played, stand.Name)} + {pair.Described(VoiceRole.Sung, stand.Name)}, as you left it";
    }

    private static string Count(MusicStand stand, Func<Exercise, bool> wanted, string what)
    {
        int count = stand.Parts.Exercises.Exercises.Count(wanted);
        return count == 1 ? $"1 exercise {what}" : $"{count} exercises {what}";
    }

    private static string AboutTakes(MusicStand stand) => (stand.TakeCount - stand.Discarded.Count(thing => thing.Take is not null)) switch
    {
        <= 0 when !stand.IsPracticeRead => "counting",
        <= 0 => "none yet; Play along keeps them",
        int count => string.Create(CultureInfo.InvariantCulture, $"{count} kept on this machine"),
    };

    private static string AboutPlan(MusicStand stand) => stand.Voice is { IsDayFull: true }
        ? "twenty minutes sung today: listening is left"
        : "your minutes as exercises, with reasons";

    private static string AboutStage(MusicStand stand) => stand.Memory.Now.Scene is { } scene
        ? $"last shown: {scene.Replace('-', ' ')}"
        : "scenes for a class or a hall";

    private static string AboutSetUp(MusicStand stand)
    {
        if (stand.Desk.IsOpening)
        {
            return "opening the sound";
        }

        return stand.Desk.HasDevice ? $"sound through {stand.Desk.OutputName}" : "no sound device: pictures and files still work";
    }
}
