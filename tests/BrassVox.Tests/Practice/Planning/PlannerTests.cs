using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Practice.Profiles;
using BrassVox.Tests.Practice.Log;
using CsCheck;
using Xunit;

namespace BrassVox.Tests.Practice.Planning;

public sealed class PlannerTests
{
    private static readonly DateTimeOffset Now = LogRig.Monday.AddDays(15);
    private static readonly Player Trombonist = new("", PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low));

    [Fact]
    public void Minutes_are_shared_out_and_the_voice_is_warmed_up_and_rested() => Gen.Int[1, 90].Sample(minutes =>
    {
        IReadOnlyList<(PlanLineKind Kind, int Minutes)> blocks = DayDose.Blocks(minutes);
        Assert.Equal(Math.Clamp(minutes, DayDose.Fewest, DayDose.Most), blocks.Sum(block => block.Minutes));
        Assert.All(blocks, block => Assert.InRange(block.Minutes, 1, 15));
        Assert.All(blocks.Where(block => block.Kind == PlanLineKind.Playing), block => Assert.Equal(5, block.Minutes));
        int firstPlaying = Index(blocks, PlanLineKind.Playing);
        Assert.True(firstPlaying < 0 || (Index(blocks, PlanLineKind.WarmUp) >= 0 && Index(blocks, PlanLineKind.WarmUp) < firstPlaying));
        Assert.DoesNotContain(blocks.Zip(blocks.Skip(1)), pair => pair.First.Kind == PlanLineKind.Playing && pair.Second.Kind == PlanLineKind.Playing);
        Assert.True(blocks.Where(block => block.Kind is PlanLineKind.Playing or PlanLineKind.WarmUp).Sum(block => block.Minutes) * 60 <= VoiceLoad.FullDaySeconds);
    });

    [Fact]
    public void The_standard_dose_is_five_five_five_rest_five_three() => Assert.Equal(
        "Hearing 5, WarmUp 5, Playing 5, Rest 5, Playing 5, Review 3",
        string.Join(", ", DayDose.Blocks(PlanInputs.UsualMinutes).Select(block => $"{block.Kind} {block.Minutes}")));

    [Fact]
    public void The_first_day_begins_where_the_curriculum_does()
    {
        PracticePlan plan = Planner.Plan(Inputs());
        Assert.Equal([1, 10, 14], new[] { PlanLineKind.Hearing, PlanLineKind.WarmUp, PlanLineKind.Playing }.Select(kind => plan.Lines.First(line => line.Kind == kind).Exercises[0].Exercise.Number));
        Assert.All(plan.Lines, line => Assert.NotEmpty(line.Because));
        Assert.Null(plan.Body);
    }

    [Fact]
    public void What_fails_most_comes_first_with_its_reason()
    {
        PlanInputs inputs = Inputs(
            Take("good", 3, "long-breath", new SimulatedTone()),
            Take("a", 2, "open-home-pair", new SimulatedTone { SpreadCents = 30 }),
            Take("b", 1, "open-home-pair", new SimulatedTone { SpreadCents = 34 }));
        PracticePlan plan = Planner.Plan(inputs);
        PlanLine first = plan.Lines.First(line => line.Kind == PlanLineKind.Playing);
        Assert.Equal("open-home-pair", first.Exercises[0].Exercise.Id);
        Assert.StartsWith("its last 2 takes: the voice wanders 3", first.Because, StringComparison.Ordinal);
        Assert.Contains("0 of the last 2 takes came as asked", plan.Order, StringComparison.Ordinal);
        Assert.Equal(2, plan.Lines.Where(line => line.Kind == PlanLineKind.Playing).Select(line => line.Exercises[0].Exercise.Id).Distinct().Count());
    }

    [Fact]
    public void That_something_goes_well_is_no_reason_to_work_on_it()
    {
        PlanInputs inputs = Inputs([.. Enumerable.Range(0, 6).Select(day => Take($"a{day}", 6 - day, "open-home-pair", new SimulatedTone { OffsetCents = 3 }))]);
        Assert.All(Planner.Plan(inputs).Lines, line => Assert.DoesNotContain("stands within", line.Because, StringComparison.Ordinal));
        Assert.DoesNotContain("stands within", Planner.Plan(inputs).Order, StringComparison.Ordinal);
        PlanLine same = Planner.Plan(inputs with { Wishes = [], Minutes = 60 }).Lines.First(line => line.Kind == PlanLineKind.Playing && line.Exercises[0].Exercise.Id == "open-home-pair");
        Assert.Equal("to keep what stands", same.Because);
    }

    [Fact]
    public void A_take_spoiled_by_the_drone_is_no_reason()
    {
        LoggedTake spoiled = Take("a", 1, "long-breath", new SimulatedTone { SpreadCents = 60 });
        spoiled = spoiled with { Take = spoiled.Take with { Drone = new BrassVox.Practice.Sessions.DroneInTake(true, -3, -9) } };
        Assert.DoesNotContain(Planner.Plan(Inputs(spoiled)).Lines, line => line.Because.Contains("wanders", StringComparison.Ordinal));
    }

    /// <summary>A take that could not be judged counts neither way: with or without it the same reason and the same place.</summary>
    [Fact]
    public void What_was_not_measured_neither_punishes_nor_praises()
    {
        LoggedTake[] good = [.. Enumerable.Range(0, 3).Select(day => Take($"g{day}", 6 - day, "open-home-pair", new SimulatedTone { OffsetCents = 3 }))];
        LoggedTake[] unjudged = [.. Enumerable.Range(0, 3).Select(day => NotJudged(Take($"u{day}", 3 - day, "open-home-pair", new SimulatedTone { SpreadCents = 60 })))];
        PlanLine Line(params LoggedTake[] takes) => Planner.Plan(Inputs(takes) with { Minutes = 60 }).Lines.First(line => line.Kind == PlanLineKind.Playing && line.Exercises[0].Exercise.Id == "open-home-pair");
        Assert.Equal("to keep what stands", Line([.. good, .. unjudged]).Because);
        LoggedTake bad = Take("b", 5, "open-home-pair", new SimulatedTone { SpreadCents = 34 });
        Assert.StartsWith("its last judged take: the voice wanders", Line([bad, .. unjudged]).Because, StringComparison.Ordinal);
        Assert.StartsWith("its last take: the voice wanders", Line(unjudged[0] with { Take = unjudged[0].Take with { MadeAt = bad.Take.MadeAt.AddDays(-1) } }, bad).Because, StringComparison.Ordinal);

        // Where nothing was judged it stands where it stood: neither failed nor passed.
        Assert.Equal("not judged yet, 3 takes: too brief", Line(unjudged).Because);
        Assert.Equal("not judged yet: its take was too brief", Line(unjudged[0]).Because);
    }

    private static LoggedTake NotJudged(LoggedTake take) => take with { Take = take.Take with { Result = take.Take.Result with { AsAsked = null, Reached = null } } };

    [Fact]
    public void A_wish_goes_before_everything_and_a_swap_behind()
    {
        PlanInputs inputs = Inputs(Take("a", 1, "open-home-pair", new SimulatedTone { SpreadCents = 40 })) with { Wishes = ["long-breath"] };
        PlanLine first = Planner.Plan(inputs).Lines.First(line => line.Kind == PlanLineKind.Playing);
        Assert.Equal(("long-breath", "you sent it here from Takes"), (first.Exercises[0].Exercise.Id, first.Because));
        first = Planner.Plan(inputs with { Swapped = new HashSet<string> { "long-breath" } }).Lines.First(line => line.Kind == PlanLineKind.Playing);
        Assert.Equal("open-home-pair", first.Exercises[0].Exercise.Id);
    }

    [Fact]
    public void Throat_twice_in_four_days_makes_a_day_of_listening_unless_the_player_decides_otherwise()
    {
        PlanInputs inputs = Inputs() with { Notes = [Note(BodyTag.Throat, 3), Note(BodyTag.Throat, 1), Note(BodyTag.Jaw, 1)] };
        PracticePlan plan = Planner.Plan(inputs);
        Assert.StartsWith("throat on 2 of four days", plan.Body, StringComparison.Ordinal);
        Assert.All(plan.Lines, line => Assert.Contains(line.Kind, new[] { PlanLineKind.Hearing, PlanLineKind.Review }));
        Assert.Contains(Planner.Plan(inputs with { Choice = BodyChoice.AsPlanned }).Lines, line => line.Kind == PlanLineKind.Playing);
        Assert.Empty(Planner.Plan(inputs with { Choice = BodyChoice.Rest }).Lines);
        Assert.Null(Planner.Plan(inputs with { Notes = [Note(BodyTag.Throat, 4), Note(BodyTag.Throat, 1)] }).Body);
    }

    [Fact]
    public void After_twenty_sung_minutes_the_day_is_listening()
    {
        PracticePlan plan = Planner.Plan(Inputs() with { Spells = [new PracticeSpell(Now.AddHours(-1), "", "overlap", 1300, 1230)] });
        Assert.DoesNotContain(plan.Lines, line => line.Kind is PlanLineKind.Playing or PlanLineKind.WarmUp);
        Assert.Contains("sung today", plan.Body, StringComparison.Ordinal);
        Assert.Equal((1300 / 60.0, 1230 / 60.0), (plan.Week[1].DoneMinutes, plan.Week[1].SungMinutes));
    }

    [Fact]
    public void Every_player_gets_a_plan_for_any_number_of_minutes()
    {
        foreach (PlayerProfile profile in ShippedExercises.Players())
        {
            foreach (int minutes in new[] { 5, 10, 15, 20, 28, 38, 60 })
            {
                PracticePlan plan = Planner.Plan(Inputs() with { Player = new Player("", profile), Minutes = minutes });
                Assert.Equal(minutes, plan.Lines.Sum(line => line.Minutes));
                Assert.All(plan.Lines.Where(line => line.Kind is not PlanLineKind.Rest and not PlanLineKind.Review), line => Assert.NotEmpty(line.Exercises));
            }
        }
    }

    private static int Index(IReadOnlyList<(PlanLineKind Kind, int Minutes)> blocks, PlanLineKind kind) => blocks.ToList().FindIndex(block => block.Kind == kind);

    private static BodyNote Note(BodyTag tag, int daysAgo) => new(Now.AddDays(-daysAgo), "", tag);

    private static LoggedTake Take(string id, int daysAgo, string exercise, SimulatedTone sung) => new(LogRig.Record(id, Now.AddDays(-daysAgo), sung, exercise), []);

    private static PlanInputs Inputs(params LoggedTake[] takes) =>
        new(Trombonist, ShippedExercises.Library, takes, [.. takes.Select(take => PracticeSpell.Of(take.Take))], [], [], [], Now, TimeZoneInfo.Utc, PlanInputs.UsualMinutes);
}
