using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class ShippedExercisesTests
{
    [Fact]
    public void Every_shipped_exercise_loads()
    {
        Assert.Empty(ShippedExercises.Library.Problems);
        int files = Directory.GetFiles(ExerciseLibrary.ShippedFolder, "*.json").Length;
        Assert.Equal(files, ShippedExercises.Library.Exercises.Count);
        Assert.True(files >= 7);
    }

    [Fact]
    public void Every_prerequisite_is_an_exercise_that_comes_before()
    {
        foreach (Exercise exercise in ShippedExercises.Library.Exercises)
        {
            foreach (string id in exercise.Prerequisites)
            {
                Exercise? before = ShippedExercises.Library.Find(id);
                Assert.True(before?.Number < exercise.Number, $"{exercise.Id} asks for {id} before it.");
            }
        }
    }

    [Fact]
    public void Every_exercise_resolves_for_every_instrument_and_voice()
    {
        foreach (PlayerProfile player in ShippedExercises.Players())
        {
            foreach (Exercise exercise in ShippedExercises.Library.Exercises)
            {
                Resolution resolution = ExerciseResolver.Resolve(exercise, player);
                Assert.True(resolution.Resolved is not null, $"{exercise.Id}, {player.Instrument}, {player.Voice}: {resolution.WhyNot}");
            }
        }
    }
}
