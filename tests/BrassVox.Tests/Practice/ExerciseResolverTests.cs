using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class ExerciseResolverTests
{
    /// <summary>The curriculum's table of home pairs and of what S-P becomes (our own table; S-P is arithmetic in just tuning).</summary>
    [Theory]
    [InlineData(Instrument.Tuba, VoiceKind.Low, "Bb1", "F2", "Bb0")]
    [InlineData(Instrument.Tuba, VoiceKind.High, "Bb1", "F4", "D4")]
    [InlineData(Instrument.Trombone, VoiceKind.Low, "Bb2", "F3", "Bb1")]
    [InlineData(Instrument.Trombone, VoiceKind.High, "Bb2", "F4", "Bb3")]
    [InlineData(Instrument.Euphonium, VoiceKind.Low, "Bb2", "F3", "Bb1")]
    [InlineData(Instrument.Euphonium, VoiceKind.High, "Bb2", "F4", "Bb3")]
    [InlineData(Instrument.Horn, VoiceKind.Low, "F3", "C4", "F2")]
    [InlineData(Instrument.Horn, VoiceKind.High, "F3", "C4", "F2")]
    [InlineData(Instrument.Trumpet, VoiceKind.Low, "Bb3", "F3", "Bb1")]
    [InlineData(Instrument.Trumpet, VoiceKind.High, "Bb3", "F4", "Bb2")]
    public void Home_pairs_are_those_of_the_curriculum(Instrument instrument, VoiceKind voice, string played, string sung, string difference)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair", instrument, voice);
        Assert.Equal(Pitch.Parse(played), resolved.Pair.Played);
        Assert.Equal(Pitch.Parse(sung), resolved.Pair.Sung);
        NearestNote nearest = NearestNote.Of(Math.Abs(resolved.Pair.SungHz - resolved.Pair.PlayedHz), 440);
        Assert.Equal(Pitch.Parse(difference).MidiNumber, nearest.Note.MidiNumber);

        // Only where the octave is not the written one is there anything to say, and then it names the new S-P.
        bool isFifth = resolved.Pair.Sung.MidiNumber - resolved.Pair.Played.MidiNumber == 7;
        Assert.Equal(!isFifth, resolved.Notes.Any(note => note.Contains($"S-P is then {difference} (", StringComparison.Ordinal)));
    }

    /// <summary>Where the voice has to meet the played tone, P is raised or 2P is met (our own rule).</summary>
    [Theory]
    [InlineData(Instrument.Tuba, VoiceKind.Low, "F2", 0)]
    [InlineData(Instrument.Tuba, VoiceKind.High, "F2", 1)]
    [InlineData(Instrument.Trombone, VoiceKind.Low, "Bb2", 0)]
    [InlineData(Instrument.Trombone, VoiceKind.High, "F3", 0)]
    [InlineData(Instrument.Horn, VoiceKind.Low, "F3", 0)]
    [InlineData(Instrument.Trumpet, VoiceKind.High, "Bb3", 0)]
    public void A_voice_that_cannot_meet_the_played_tone_gets_another_one(Instrument instrument, VoiceKind voice, string played, int octaves)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("land-on-the-unison", instrument, voice);
        Assert.Equal(Pitch.Parse(played), resolved.Pair.Played);
        Assert.Equal(12 * octaves, resolved.Pair.Sung.MidiNumber - resolved.Pair.Played.MidiNumber);
    }

    [Fact]
    public void Every_sung_note_lies_in_the_players_range()
    {
        foreach (PlayerProfile player in ShippedExercises.Players())
        {
            foreach (Exercise exercise in ShippedExercises.Library.Exercises.Where(exercise => exercise.PlayAlong is not null))
            {
                ResolvedExercise resolved = ExerciseResolver.Resolve(exercise, player).Resolved!;
                IEnumerable<AskedSegment> sung = resolved.Steps.Select(step => ((PlayTask)step.Task).Sung).OfType<AskedPart>().SelectMany(part => part.Segments);
                Assert.All(sung.Where(segment => segment.Move != Move.Rest), segment =>
                    Assert.True(player.CanSing(segment.Note), $"{exercise.Id}, {player.Instrument}, {player.Voice}: {segment.Note}"));
            }
        }
    }

    [Fact]
    public void What_no_octave_brings_into_reach_is_refused_with_the_range()
    {
        PlayerProfile narrow = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low) with { LowestSung = Pitch.Parse("G3"), HighestSung = Pitch.Parse("A3") };
        Resolution resolution = ExerciseResolver.Resolve(ShippedExercises.Find("open-home-pair"), narrow);
        Assert.Null(resolution.Resolved);
        Assert.Contains("G3 to A3", resolution.WhyNot, StringComparison.Ordinal);
    }

    /// <summary>Just fifth 3:2 over the played root, and A4 = 442 (exact arithmetic).</summary>
    [Fact]
    public void Tuning_is_rooted_on_the_played_tone_and_follows_A4()
    {
        PlayerProfile player = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low) with { A4Hz = 442 };
        ResolvedPair just = ExerciseResolver.Resolve(ShippedExercises.Find("open-home-pair"), player).Resolved!.Pair;
        Assert.Equal(442 * Math.Pow(2, -23.0 / 12), just.PlayedHz, 1e-9);
        Assert.Equal(1.5, just.SungHz / just.PlayedHz, 1e-12);
        ResolvedPair equal = ExerciseResolver.Resolve(ShippedExercises.Find("open-home-pair"), player with { TuningName = "equal" }).Resolved!.Pair;
        Assert.Equal(Math.Pow(2, 7.0 / 12), equal.SungHz / equal.PlayedHz, 1e-12);
    }

    /// <summary>The glide of exercise 19 at 3.8 s: 380/450 of a just fourth above a just fifth (exact arithmetic on the file's own seconds).</summary>
    [Fact]
    public void A_glide_is_straight_in_cents()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("voice-glides-to-the-octave");
        AskedPart sung = ((PlayTask)resolved.Steps[0].Task).Sung!;
        double fifth = 1200 * Math.Log2(1.5);
        double fourth = 1200 * Math.Log2(4.0 / 3);
        Assert.Equal(fifth + (fourth * 3.3 / 4.5), Cents.Between(resolved.Pair.PlayedHz, sung.Path.FrequencyHz(3.8)), 1e-6);
        Assert.Equal(1200, Cents.Between(resolved.Pair.PlayedHz, sung.Path.FrequencyHz(6)), 1e-6);
        Assert.True(sung.Moves);
        Assert.False(((PlayTask)resolved.Steps[0].Task).Played!.Moves);
    }

    [Fact]
    public void Notes_chosen_by_hand_are_used_as_they_are()
    {
        ResolvedExercise resolved = ExerciseResolver.Resolve(
            ShippedExercises.Find("open-home-pair"), PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low), new PairChoice(Pitch.Parse("Eb2"), Pitch.Parse("G3"))).Resolved!;
        Assert.Equal(Pitch.Parse("Eb2"), resolved.Pair.Played);
        Assert.Equal(Pitch.Parse("G3"), resolved.Pair.Sung);
        Assert.Equal(2.5, resolved.Pair.SungHz / resolved.Pair.PlayedHz, 1e-12);
    }
}
