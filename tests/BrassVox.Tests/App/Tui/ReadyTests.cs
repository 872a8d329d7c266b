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

    [Fact]
    public void Every_shipped_exercise_has_a_short_name_of_its_own()
    {
        using var rig = new StandRig();
        Exercise[] all = [.. rig.Stand.Parts.Exercises.Exercises];
        Assert.All(all, exercise => Assert.InRange((exercise.ShortName ?? exercise.Name).Length, 1, Exercise.LongestShortName));
        Assert.Equal(all.Length, all.Select(exercise => exercise.InShort).Distinct().Count());
    }
}
