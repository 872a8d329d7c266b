using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Exercises;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Before a take: what can hurt stands there whole, whatever else there is to say.</summary>
public sealed class ReadyTests
{
    [Fact]
    public void Every_caution_stands_whole_under_a_message_of_two_rows()
    {
        using var rig = new StandRig();
        int seen = 0;
        foreach (Exercise exercise in rig.Stand.Parts.Exercises.Exercises.Where(exercise => !exercise.IsListening))
        {
            ResolvedExercise resolved = ExerciseResolver.Resolve(exercise, rig.Stand.Profile).Resolved!;
            rig.Stand.Open(new PlayAlongRoom(rig.Stand, resolved));
            rig.Stand.Say(string.Join(' ', Enumerable.Repeat("news", 25)));
            string screen = StandTests.Joined(rig);
            Assert.Contains("Play soft, sing full and easy. Headphones keep the drone out of the microphone; one ear stays free.", screen, StringComparison.Ordinal);
            foreach (Caution caution in exercise.Cautions)
            {
                Assert.Contains(Cautions.ShortOf(caution), screen, StringComparison.Ordinal);
            }

            Assert.Equal(25, screen.Split(' ').Count(word => word == "news"));
            Assert.Contains("begin (Enter)", screen, StringComparison.Ordinal);
            seen++;
            rig.Stand.Back();
        }

        Assert.True(seen > 20);
    }

    /// <summary>Four steps alike stand once with how often; of two, two and one each group once. The counts are those of the preset files.</summary>
    [Fact]
    public void What_is_asked_several_times_running_stands_once()
    {
        using var rig = new StandRig();
        string Ready(string id)
        {
            Exercise exercise = rig.Stand.Parts.Exercises.Exercises.Single(exercise => exercise.Id == id);
            rig.Stand.Open(new PlayAlongRoom(rig.Stand, ExerciseResolver.Resolve(exercise, rig.Stand.Profile).Resolved!));
            return StandTests.Joined(rig);
        }

        const string Asked = "Hear the pair. When it has gone, sing its added tone, in any octave.";
        string four = Ready("sing-it-back");
        Assert.Contains($"4 times: {Asked}", four, StringComparison.Ordinal);
        Assert.Equal(2, four.Split(Asked).Length);
        string groups = Ready("overlap");
        Assert.Contains("2 times: Play; after two beats sing with it for 2 beats.", groups, StringComparison.Ordinal);
        Assert.Contains("2 times: Play; after two beats sing with it for 3 beats.", groups, StringComparison.Ordinal);
        Assert.Contains("Play; after two beats sing with it for 4 beats.", groups, StringComparison.Ordinal);
        Assert.DoesNotContain("times: Play; after two beats sing with it for 4", groups, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_shipped_exercise_has_a_short_name_of_its_own()
    {
        using var rig = new StandRig();
        Exercise[] all = [.. rig.Stand.Parts.Exercises.Exercises];
        Assert.All(all, exercise => Assert.InRange((exercise.ShortName ?? exercise.Name).Length, 1, Exercise.LongestShortName));
        Assert.Equal(all.Length, all.Select(exercise => exercise.InShort).Distinct().Count());
    }
}
