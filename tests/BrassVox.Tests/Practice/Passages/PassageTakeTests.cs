using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Passages;

/// <summary>Passages played by the real engine and judged through the real tracker. Truth is what was rendered.</summary>
public sealed class PassageTakeTests
{
    private static readonly PlayerProfile Player = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low);

    private static Passage Shipped(VoiceKind voice) => ShippedPassages.Load(ShippedPassages.First, Player with { Voice = voice }).Passage!;

    [Theory]
    [InlineData(VoiceKind.Low, 100)]
    [InlineData(VoiceKind.High, 100)]
    [InlineData(VoiceKind.Low, 60)]
    public void The_passage_played_as_written_is_as_asked_note_by_note(VoiceKind voice, double tempo)
    {
        PlayerProfile player = PlayerProfile.Usual(Instrument.Trombone, voice);
        ResolvedExercise turn = PassageExercise.Resolve(Shipped(voice), player, new PassageTurn(1, 6), new TakeOptions(TempoPercent: tempo));
        TakeResult result = Judged(turn, turn);
        Assert.True(result.AsAsked, string.Join("; ", result.Notes.Where(note => note.IsAsAsked == false)));
        Assert.All(result.Notes.Where(note => note.Cents is not null), note => Assert.Equal(0, note.Cents!.Value, 2.0));
        Assert.All(result.Notes.Where(note => note.LateSeconds is not null), note => Assert.InRange(note.LateSeconds!.Value, -0.1, 0.1));
    }

    [Fact]
    public void Wrong_pitches_and_late_notes_are_told_where_they_are()
    {
        Passage asked = PassageTextTests.Read("root: Bb2\ntempo: 60\nP: Bb2/2 C3/2 | D3/2 Bb2/2 |\nS: F3/2 G3/2 | A3/2 G3/2 |\n").Passage!;
        Passage made = PassageTextTests.Read("root: Bb2\ntempo: 60\nP: Bb2/2 C3/2 | D3-45/2 r/8 Bb2/4. |\nS: F3+33/2 G3/2 | A3/2 G3/2 |\n").Passage!;
        TakeResult result = Judged(Turn(asked), Turn(made));
        NoteResult Note(VoiceRole role, string at) => result.Notes.Single(note => note.Role == role && note.Label == at);
        Assert.False(result.AsAsked);
        Assert.Equal(33, Note(VoiceRole.Sung, "1.1").Cents!.Value, 2.0);
        Assert.Equal(-45, Note(VoiceRole.Played, "2.1").Cents!.Value, 2.0);
        Assert.Equal(0.5, Note(VoiceRole.Played, "2.3").LateSeconds!.Value, 0.08);
        Assert.False(Note(VoiceRole.Played, "2.3").IsAsAsked);
        Assert.True(Note(VoiceRole.Played, "1.1").IsAsAsked);
        Assert.True(Note(VoiceRole.Sung, "1.3").IsAsAsked);
    }

    [Fact]
    public void A_slow_player_is_followed_and_told_late()
    {
        Passage asked = Shipped(VoiceKind.Low);
        ResolvedExercise turn = PassageExercise.Resolve(asked, Player, new PassageTurn(1, 4), new TakeOptions());
        ResolvedExercise slow = PassageExercise.Resolve(asked, Player, new PassageTurn(1, 4), new TakeOptions(TempoPercent: 98));
        TakeResult result = Judged(turn, slow);
        NoteResult late = result.Notes.Single(note => note is { Role: VoiceRole.Played, Label: "4.1" });
        Assert.Equal(12 * ((1 / 0.98) - 1), late.LateSeconds!.Value, 0.1);
        Assert.All(result.Notes.Where(note => note.Cents is not null), note => Assert.Equal(0, note.Cents!.Value, 3.0));
    }

    [Fact]
    public void Help_is_withdrawn_after_two_clean_turns_and_not_given_back()
    {
        HelpLadder ladder = new();
        ladder = ladder.After(true).After(false).After(true).After(null).After(true);
        Assert.Equal(new HelpLadder(HelpStep.OtherTone), ladder);
        for (int i = 0; i < 20; i++)
        {
            ladder = ladder.After(true);
        }

        Assert.Equal(HelpStep.Nothing, ladder.Step);
    }

    [Fact]
    public void A_turn_holds_its_bars_its_help_and_its_click()
    {
        ResolvedExercise turn = PassageExercise.Resolve(Shipped(VoiceKind.Low), Player, new PassageTurn(2, 4, HelpStep.OtherTone), new TakeOptions(TempoPercent: 80));
        Assert.Equal(12 / 0.8, turn.TakeSeconds, 1e-9);
        Assert.Equal(VoiceRole.Played, turn.Steps[0].Sounding.Single().Role);
        Assert.Equal(12, turn.Beats.Count);
        Assert.Equal(3, turn.Beats.Count(beat => beat.IsFirst));
        Assert.Equal(4 / 0.8, turn.Beats[4].Seconds, 1e-9);
        ResolvedExercise sings = PassageExercise.Resolve(Shipped(VoiceKind.Low), Player, new PassageTurn(2, 4, HelpStep.Nothing), new TakeOptions(PlayerRole.Sings));
        Assert.Equal(VoiceRole.Played, sings.Steps[0].Sounding.Single().Role);
        Assert.Null(((PlayTask)sings.Steps[0].Task).Played);
    }

    /// <summary>Bb2 with F3 just: S-P is an octave under Bb2; with F4 it is Bb3 (exact arithmetic).</summary>
    [Fact]
    public void The_report_names_what_is_made_and_what_asks_for_care()
    {
        PassageReport report = PassageReport.Of(Shipped(VoiceKind.Low), Player, speakerLowestHz: 65);
        PassageMoment first = report.Moments[0];
        Assert.Equal(("1.1", "fifth"), (first.Place, first.Between));
        Assert.Equal(first.PlayedHz!.Value / 2, first.MadeHz!.Value, 1e-6);
        Assert.Equal([Care.Low], first.Cares);
        Assert.Contains(Care.Fog, report.Moments.Single(moment => moment.Place == "10.1").Cares);
        Assert.Null(report.Suggestion);
        Assert.Equal(12, report.DifficultyByBar.Count);

        PassageReport high = PassageReport.Of(Shipped(VoiceKind.Low), PlayerProfile.Usual(Instrument.Trombone, VoiceKind.High));
        Assert.Equal(1, high.Suggestion!.Octaves);
        Assert.Equal(0, high.Suggestion.OutsideThen);
        Assert.Contains(high.Suggestion.Changes, change => change.StartsWith("Bb2 + F3 made Bb1 (58 Hz); Bb2 + F4 makes Bb3 (233 Hz)", StringComparison.Ordinal));
    }

    private static ResolvedExercise Turn(Passage passage) => PassageExercise.Resolve(passage, Player, new PassageTurn(), new TakeOptions());

    private static TakeResult Judged(ResolvedExercise asked, ResolvedExercise made)
    {
        const int rate = OfflineEngine.SampleRateHz;
        var offline = new OfflineEngine();
        var waiting = new Queue<PairEvent>(PairScript.Model(made, offline.Engine.Parts, rate, rate / 10, 0));
        float[] sound = offline.Render(made.TakeSeconds + 0.4, () =>
        {
            while (waiting.TryPeek(out PairEvent next) && next.AtSample < offline.Engine.SamplesRendered + (4 * OfflineEngine.BlockSamples) && offline.Engine.TryPost(next))
            {
                waiting.Dequeue();
            }
        });
        return JudgedTake.Of(asked, 1, new RecordedTake(sound, rate, 0.1), (sampleRate, prior) => new DuetTracker(sampleRate, prior)).Result;
    }
}
