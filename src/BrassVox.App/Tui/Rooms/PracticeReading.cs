using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Start tells of the practice behind and before the player.</summary>
/// <param name="Voice">What was sung.</param>
/// <param name="Takes">How many takes the player has.</param>
/// <param name="Next">The first line of today's plan of which nothing is done; null when none is left.</param>
/// <param name="Plan">Today's plan.</param>
/// <param name="Trouble">What is wrong with the data folder or the log; null when all is well.</param>
internal sealed record PracticeReading(VoiceLoad Voice, int Takes, PlanLine? Next, PracticePlan Plan, string? Trouble)
{
    /// <summary>Reads it. Blocks on the disk; never throws for what a disk may do.</summary>
    /// <param name="store">The takes.</param>
    /// <param name="player">The player.</param>
    /// <param name="exercises">The curriculum.</param>
    /// <param name="time">The clock.</param>
    /// <param name="folder">The data folder.</param>
    /// <param name="decided">Lays over a plan's inputs what the player decided of it.</param>
    public static PracticeReading Read(TakeStore store, Player player, ExerciseLibrary exercises, TimeProvider time, string folder, Func<PlanInputs, PlanInputs> decided)
    {
        TakeListing listing = store.List(new TakeFilter(player.Name));
        string? trouble = FolderTrouble(folder) ?? (listing.Problems.Count > 0 ? listing.Problems[0] : null);
        try
        {
            PlanInputs inputs = decided(PlanInputs.Read(store.Log, player, exercises, time));
            PracticePlan plan = Planner.Plan(inputs);
            return new PracticeReading(VoiceLoad.Of(inputs.Spells, inputs.Now, inputs.Zone), listing.Takes.Count, inputs.FirstUndone(plan), plan, trouble);
        }
        catch (LogException fault)
        {
            var nothing = new PlanInputs(player, exercises, [], [], [], [], [], time.GetUtcNow(), time.LocalTimeZone, PlanInputs.UsualMinutes);
            PracticePlan plan = Planner.Plan(decided(nothing));
            return new PracticeReading(new VoiceLoad(0, 0, 0), listing.Takes.Count, nothing.FirstUndone(plan), plan, trouble ?? fault.Failure.Message);
        }
    }

    // A folder that is not there is made when there is something to keep.
    private static string? FolderTrouble(string folder)
    {
        try
        {
            if (File.Exists(folder))
            {
                return $"Nothing can be kept: {folder} is a file. Move it away, or name another data folder.";
            }

            if (Directory.Exists(folder))
            {
                using FileStream probe = new(Path.Combine(folder, $".probe-{Environment.ProcessId}"), FileMode.Create, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
            }

            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return $"Nothing can be kept in {folder}: {fault.Message}";
        }
    }
}
