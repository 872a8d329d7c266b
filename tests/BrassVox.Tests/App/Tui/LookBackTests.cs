using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Takes, plan, players and body notes by keys alone, over a log that a test filled.</summary>
public sealed class LookBackTests
{
    [Fact]
    public void The_map_shows_where_it_fails_and_chooses_what_is_listed()
    {
        using StandRig rig = With(rig => new PracticeLog(rig).Enter(
            LogRig.Record("a", LogRig.Monday, new SimulatedTone { SpreadCents = 30 }),
            LogRig.Record("b", LogRig.Monday.AddDays(14), new SimulatedTone { SpreadCents = 20 }),
            LogRig.Record("c", LogRig.Monday.AddDays(15), new SimulatedTone { OffsetCents = 14 }, "land-on-the-octave")));
        rig.Press("5");
        Until(rig, "3 kept here");
        Assert.Contains("fifth       25 w (2)", rig.Screen(), StringComparison.Ordinal);
        Assert.Matches("WEEKS  fifth, Bb2-E3   (29|30|31) w   rest   (19|20|21) w", rig.Screen());
        rig.Press("Tab", "Down").Run(0.04);
        string screen = rig.Screen();
        Assert.Contains("octave, Bb2-E3: the pair beats", screen, StringComparison.Ordinal);
        Assert.Contains("24 Octave landing", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("14 Open home pair", screen, StringComparison.Ordinal);
        rig.Press("Right").Run(0.04);
        Assert.Contains("No register beyond", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_take_of_a_passage_is_listed_and_said_to_be_out_of_the_map()
    {
        using StandRig rig = With(folder => new PracticeLog(folder).Enter(
            LogRig.Record("a", LogRig.Monday, new SimulatedTone { SpreadCents = 30 }),
            LogRig.Record("b", LogRig.Monday.AddDays(1), new SimulatedTone { SpreadCents = 20 }) with { ExerciseId = "passage-own", ExerciseName = "Own", ExerciseNumber = 0 }));
        rig.Press("5");
        Until(rig, "2 kept here, 1 in the map, 1 of passages");
        rig.Press("Tab").Run(0.04);
        Assert.Contains("1 of passages, many pairs each, is not in the map.", StandTests.Joined(rig), StringComparison.Ordinal);
        Assert.DoesNotContain(" Own ", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void One_take_is_laid_over_another_and_what_changed_is_told()
    {
        using StandRig rig = With(folder =>
        {
            foreach ((double offset, int number) in new[] { (-20.0, 1), (8.0, 2) })
            {
                JudgedTake take = LogRig.Judged(new SimulatedTone { OffsetCents = offset / 2 }, new SimulatedTone { OffsetCents = offset }) with { Number = number };
                Assert.NotNull(new TakeStore(folder, TimeProvider.System).Keep(take, null).Record);
            }
        });
        rig.Press("5");
        Until(rig, "2 kept here");
        rig.Press("k").Run(0.04);
        Assert.Contains("kept under", rig.Screen(), StringComparison.Ordinal);
        rig.Press("k").Run(0.04);
        Assert.Contains("No take is kept under", rig.Screen(), StringComparison.Ordinal);
        bool olderFirst = rig.Screen().IndexOf("-20 o", StringComparison.Ordinal) < rig.Screen().IndexOf("+8 o", StringComparison.Ordinal);
        // Whichever is chosen first: the older one lies under the newer.
        rig.Press(olderFirst ? "Up" : "Down", "k", olderFirst ? "Down" : "Up", "k").Run(0.04);
        Assert.IsType<TwoTakesRoom>(rig.Stand.Top);
        Until(rig, "-20 c, then +8 c: 12 c nearer");
        Assert.True(SpinWait.SpinUntil(() => !rig.Screen().Contains("Reading", StringComparison.Ordinal), TimeSpan.FromSeconds(10)));
        string screen = rig.Screen();
        Canvas canvas = rig.Canvas();
        bool Lane(int top, params char[] signs) => Enumerable.Range(top, 5).Any(row => canvas.Row(row).Skip(14).Any(signs.Contains));
        Assert.True(Lane(3, Glyphs.High, Glyphs.Low, Glyphs.Middle) && Lane(3, Glyphs.OtherHigh, Glyphs.OtherMiddle, Glyphs.OtherLow), screen);
        Assert.True(Lane(10, Glyphs.High, Glyphs.Low, Glyphs.Middle) && Lane(10, Glyphs.OtherHigh, Glyphs.OtherMiddle, Glyphs.OtherLow), screen);
        Assert.All(Enumerable.Range(0, 24), row => Assert.DoesNotContain('?', canvas.Row(row, ascii: true)));
    }

    [Fact]
    public void A_take_is_written_as_a_handout_by_one_key_and_it_is_said_where()
    {
        using StandRig rig = With(folder => Assert.NotNull(new TakeStore(folder, TimeProvider.System).Keep(LogRig.Judged(sung: new SimulatedTone { OffsetCents = 22 }), null).Record));
        string folder = rig.Stand.Parts.DataFolder;
        rig.Press("5");
        Until(rig, "1 kept here");
        rig.Press("n", "x", ".", "p", "d", "f", "Enter").Run(0.04);
        Assert.Contains("A handout is .html; end its name so.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape", "n", "Enter");
        Until(rig, "Handout written");
        string file = Assert.Single(Directory.GetFiles(Path.Combine(folder, "exported"), "*.html"));
        string html = File.ReadAllText(file);
        Assert.Contains("+22&nbsp;c", html, StringComparison.Ordinal);
        Assert.DoesNotContain("audio/ogg", html, StringComparison.Ordinal);
        Assert.Equal(["handout", "handout with sound"], rig.Stand.Top.Choices.Select(choice => choice.Label).Where(label => label.StartsWith("handout", StringComparison.Ordinal)));

        // A place that cannot be written is named, and the room stays.
        File.Delete(file);
        Directory.Delete(Path.Combine(folder, "exported"));
        File.WriteAllText(Path.Combine(folder, "exported"), "a file");
        rig.Press("n", "Enter");
        Until(rig, "The handout could not be kept");
        Assert.IsType<TakesRoom>(rig.Stand.Top);
    }

    [Fact]
    public void All_that_was_noted_of_a_take_stands_on_its_own_page()
    {
        string id = "";
        using StandRig rig = With(folder =>
        {
            var store = new TakeStore(folder, TimeProvider.System);
            id = store.Keep(LogRig.Judged(), null).Record!.Id;
            store.Log.Add(new BodyNote(LogRig.Monday, "", BodyTag.Throat, id), new BodyNote(LogRig.Monday, "", BodyTag.TongueRoot, id), new BodyNote(LogRig.Monday, "", BodyTag.Shoulders, id));
        });
        rig.Press("5");
        Until(rig, "1 kept here");
        rig.Press("Enter");
        Until(rig, "BEATS");
        Assert.Contains("BODY throat, tongue root, shoulders", StandTests.Joined(rig), StringComparison.Ordinal);
        rig.Press("y", "1").Run(0.04);
        Assert.Contains("BODY throat, tongue root, shoulders, jaw", StandTests.Joined(rig), StringComparison.Ordinal);
        rig.Press("Escape", "Enter");
        Until(rig, "BEATS");
        Assert.Contains("BODY throat, tongue root, shoulders, jaw", StandTests.Joined(rig), StringComparison.Ordinal);
    }

    [Fact]
    public void A_body_note_is_one_key_and_stays_with_its_take()
    {
        using StandRig rig = With(folder => new PracticeLog(folder).Enter(LogRig.Record("a", LogRig.Monday)));
        rig.Press("5");
        Until(rig, "1 kept here");
        rig.Press("y");
        Assert.IsType<BodyRoom>(rig.Stand.Top);
        rig.Press("2").Run(0.04);
        Assert.IsType<TakesRoom>(rig.Stand.Top);
        Assert.Contains("tongue", rig.Screen(), StringComparison.Ordinal);
        Assert.True(SpinWait.SpinUntil(() => rig.Stand.Log.BodyNotes(TakeFilter.All).Count == 1, TimeSpan.FromSeconds(10)));
        Assert.Equal(("a", BodyTag.TongueRoot), (rig.Stand.Log.BodyNotes(TakeFilter.All)[0].TakeId, rig.Stand.Log.BodyNotes(TakeFilter.All)[0].Tag));
    }

    [Fact]
    public void A_body_note_between_takes_stands_under_its_day_and_is_deleted_like_a_take()
    {
        using StandRig rig = With(folder => new PracticeLog(folder).Add(new BodyNote(LogRig.Monday, "", BodyTag.Jaw)));
        rig.Press("5");
        Until(rig, "between takes");
        Assert.Matches("between takes +jaw", rig.Screen());
        Assert.Contains("Noted between takes: it belongs to this day", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Delete").Run(0.04);
        Assert.DoesNotMatch("between takes +jaw", rig.Screen());
        rig.Press("z").Run(0.04);
        Assert.Contains("The body note is back.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Delete").Run(0.04);
        Assert.Null(rig.Stand.EmptyDiscarded());
        Assert.Empty(rig.Stand.Log.BodyNotes(TakeFilter.All));
    }

    [Fact]
    public void Takes_says_how_many_takes_were_not_judged()
    {
        using StandRig rig = With(folder =>
        {
            var take = LogRig.Record("a", LogRig.Monday);
            new PracticeLog(folder).Enter(take, take with { Id = "b", Result = take.Result with { AsAsked = null, Reached = null, Pair = take.Result.Pair with { FogSeconds = 7, SeparableSeconds = 0 } } });
        });
        rig.Press("5");
        Until(rig, "2 kept here, 1 in the map, 1 not judged");
        Assert.Contains("? in fog", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Tab").Run(0.04);
        Assert.Contains("1 take could not be judged and counts neither for nor against you: 1 lay in fog", StandTests.Joined(rig), StringComparison.Ordinal);
    }

    [Fact]
    public void The_plan_tells_singing_in_one_rounding_beside_what_a_day_holds()
    {
        using StandRig rig = With(folder => new PracticeLog(folder).Add(new PracticeSpell(DateTimeOffset.UtcNow, "", "open-home-pair", 130, 58, false)));
        rig.Press("6");
        Until(rig, "TODAY");
        Assert.Contains("sung 0 min of your 20 today; this block 0 of 5 min, then rest 5", rig.Screen(), StringComparison.Ordinal);
        Assert.Matches(@"singing .*<1", rig.Screen());
        Assert.DoesNotContain("sung so far", rig.Screen(), StringComparison.Ordinal);
    }

    /// <summary>Start counts what is still being written when it begins to read; what lies there already is not told alone.</summary>
    [Fact]
    public void Start_tells_of_a_take_that_was_still_being_kept()
    {
        using StandRig rig = With(_ => { });
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Stand.IsPracticeRead, TimeSpan.FromSeconds(20)));
        rig.Stand.Log.Enter(LogRig.Record("a", LogRig.Monday));
        var released = new TaskCompletionSource();
        rig.Stand.Await("The take", Late(released.Task, () => rig.Stand.Log.Enter(LogRig.Record("b", LogRig.Monday.AddDays(1)))));
        rig.Stand.ReadPractice();
        SpinWait.SpinUntil(() => rig.Run(0.04).Stand.TakeCount > 0, WithoutWaiting);
        released.SetResult();
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Stand.TakeCount > 0, TimeSpan.FromSeconds(20)));
        Assert.Equal(2, rig.Stand.TakeCount);
    }

    [Fact]
    public void The_choice_of_exercises_tells_of_a_take_that_was_still_being_kept()
    {
        using StandRig rig = With(_ => { });
        var released = new TaskCompletionSource();
        rig.Stand.Await("The take", Late(released.Task, () => rig.Stand.Log.Enter(LogRig.Record("a", LogRig.Monday))));
        rig.Press("3");
        bool SaysSo(string words) => rig.Run(0.04).Screen(200, 60).Contains(words, StringComparison.Ordinal);
        SpinWait.SpinUntil(() => SaysSo("not yet"), WithoutWaiting);
        released.SetResult();
        Assert.True(SpinWait.SpinUntil(() => SaysSo("not yet"), TimeSpan.FromSeconds(20)));
        Assert.True(SaysSo("1 take, "));
    }

    [Fact]
    public void The_plan_tells_of_minutes_that_were_still_being_written()
    {
        using StandRig rig = With(_ => { });
        var released = new TaskCompletionSource();
        rig.Stand.Await("The minutes", Late(released.Task, () => rig.Stand.Log.Add(new PracticeSpell(DateTimeOffset.UtcNow, "", "open-home-pair", 130, 58, false))));
        rig.Press("6");
        SpinWait.SpinUntil(() => rig.Run(0.04).Screen().Contains("TODAY", StringComparison.Ordinal), WithoutWaiting);
        released.SetResult();
        Until(rig, "TODAY");
        Assert.Matches(@"singing .*<1", rig.Screen());
    }

    [Fact]
    public void The_plan_has_reasons_begins_its_line_and_takes_what_Takes_sends()
    {
        using StandRig rig = With(folder => new PracticeLog(folder).Enter(LogRig.Record("a", DateTimeOffset.UtcNow.AddDays(-2), exercise: "long-breath")));
        rig.Press("5");
        Until(rig, "1 kept here");
        while (rig.Stand.Top.Choices[rig.Stand.Top.MarkedIndex].Label != "send to Plan")
        {
            rig.Press("PageUp");
        }

        rig.Press("PageDown").Run(0.04);
        Assert.True(SpinWait.SpinUntil(() => rig.Stand.Log.Wishes("").Count == 1, TimeSpan.FromSeconds(10)));
        rig.Press("Escape", "6");
        Until(rig, "TODAY");
        Assert.Contains("you sent it here from Takes", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("one block of singing is full", rig.Screen(), StringComparison.Ordinal);
        rig.Press(",").Run(0.04);
        Assert.Contains("23 min a day", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("one block of singing is full", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Up", "Up", "Up", "Enter").Run(0.04);
        Assert.IsType<ListenRoom>(rig.Stand.Top);
        rig.Press("Escape");
        Until(rig, "TODAY");
        rig.Press("Down", "Down", "Down", "Enter").Run(0.04);
        Assert.Contains("17 Long breath", rig.Screen(), StringComparison.Ordinal);
        Assert.IsType<PlayAlongRoom>(rig.Stand.Top);
    }

    /// <summary>The throat twice makes a day of listening; what the player makes of that holds in every room, for this player and this day.</summary>
    [Fact]
    public void What_was_decided_of_a_day_holds_until_it_ends()
    {
        var time = new ManualTime();
        time.Advance(TimeSpan.FromDays(60.5));
        DateTimeOffset noon = time.GetUtcNow();
        string folder = Directory.CreateTempSubdirectory("brassvox-stand-").FullName;
        new PracticeLog(folder).Add(new BodyNote(noon.AddDays(-1), "", BodyTag.Throat, null), new BodyNote(noon, "", BodyTag.Throat, null));
        using var rig = new StandRig(dataFolder: folder, time: time);
        rig.Press("6");
        Until(rig, "1 keep that   2 rest today   3 as planned");
        Assert.DoesNotContain("A day of rest.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("2").Run(0.04);
        Assert.Contains("A day of rest.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape");
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Stand is { IsPracticeRead: true, Next: null }, TimeSpan.FromSeconds(20)));
        rig.Press("6");
        Until(rig, "A day of rest.");
        rig.Press("Escape").Run(0.04);
        time.Advance(TimeSpan.FromDays(1));
        rig.Press("6");
        Until(rig, "1 keep that   2 rest today   3 as planned");
        Assert.DoesNotContain("A day of rest.", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_body_page_lists_a_note_that_was_still_being_written()
    {
        using StandRig rig = With(_ => { });
        var released = new TaskCompletionSource();
        rig.Stand.Await("The note", Late(released.Task, () => rig.Stand.Log.Add(new BodyNote(DateTimeOffset.UtcNow, "", BodyTag.Shoulders, null))));
        rig.Press("y");
        bool Says(string words) => rig.Run(0.04).Screen(80, 40).Contains(words, StringComparison.Ordinal);
        SpinWait.SpinUntil(() => Says("nothing yet"), WithoutWaiting);
        released.SetResult();
        Assert.True(SpinWait.SpinUntil(() => Says("NOTED"), TimeSpan.FromSeconds(20)));
        Assert.Matches(@"NOTED[\s\S]*shoulders", rig.Screen(80, 40));
    }

    [Fact]
    public void A_studio_has_players_and_each_their_own_takes()
    {
        using StandRig rig = With(folder => new PracticeLog(folder).Enter(LogRig.Record("a", LogRig.Monday)));
        rig.Press("8", "8", "Enter").Run(0.04);
        Assert.IsType<PlayersRoom>(rig.Stand.Top);
        rig.Press("n", "K", "i", "m", "Enter").Run(0.04);
        Assert.Equal("Kim", rig.Stand.PlayerName);
        rig.Press("Down", "Right").Run(0.04);
        Assert.Contains("[Gb2]", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape", "Escape");
        Assert.StartsWith("START   Kim   ", rig.Screen(), StringComparison.Ordinal);
        rig.Press("5");
        Until(rig, "Play along keeps takes here");
        Assert.Equal("Gb2", new PlayerFiles(rig.Folder).Read("Kim")!.Profile.LowestSung.ToString());
        Assert.Equal("Kim", new PlayerFiles(rig.Folder).CurrentName);
    }

    [Fact]
    public void Players_stand_in_the_order_in_which_Right_comes_to_them_and_no_name_is_cut()
    {
        using StandRig rig = With(_ => { });
        rig.Press("8", "8", "Enter").Run(0.04);
        foreach (string name in new[] { "Aldatrombone", "Bertatrombone", "Carotrombone", "Doratrombone", "Ediatrombone" })
        {
            rig.Press("n").Press([.. name.Select(letter => letter.ToString())]).Press("Enter").Run(0.04);
        }

        for (int i = 0; i < 6; i++)
        {
            string line = rig.Screen().Split('\n')[4].TrimEnd();
            Assert.Matches(" and [1-9] more$", line);
            string[] shown = line[line.IndexOf('[', StringComparison.Ordinal)..].Split("   ");
            Assert.All(shown[..^1], name => Assert.Matches(@"^\[?([A-E][a-z]+trombone|\(no name\))\]?$", name));
            rig.Press("Right").Run(0.04);
            Assert.Contains($"[{shown[1]}]", rig.Screen(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_kept_take_can_be_looked_at_and_heard_again()
    {
        string id = "";
        using StandRig rig = With(folder => id = new TakeStore(folder, TimeProvider.System).Keep(
            LogRig.Judged() is var judged ? judged with { Recorded = new BrassVox.Practice.Sessions.RecordedTake([.. Enumerable.Range(0, 48000).Select(i => (float)(0.1 * Math.Sin(i * 0.03)))], 48000, 0) } : null!, null).Record!.Id);
        rig.Press("5");
        Until(rig, "1 kept here");
        rig.Press("Enter");
        Until(rig, "BEATS");
        Assert.StartsWith("▸ replay (Enter)  n handout", rig.Canvas().Row(23), StringComparison.Ordinal);
        rig.Press("Tab");
        Assert.Contains("r replay", rig.Canvas().Row(23), StringComparison.Ordinal);
        rig.Press("r");
        Assert.True(rig.Desk.IsSounding);
        Assert.True(SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.1);
                return rig.Heard.Any(sample => Math.Abs(sample) > 0.001);
            },
            TimeSpan.FromSeconds(20)));
        rig.Press("Space").Run(0.1);
        rig.Run(0.1);
        Assert.All(rig.Heard, sample => Assert.Equal(0, sample));
        Assert.False(rig.Desk.IsSounding);
    }

    // Only what does not wait for the writing is done within it.
    private static readonly TimeSpan WithoutWaiting = TimeSpan.FromSeconds(1);

    private static async Task Late(Task released, Action write)
    {
        await released.ConfigureAwait(false);
        write();
    }

    private static StandRig With(Action<string> fill)
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-stand-").FullName;
        fill(folder);
        return new StandRig(dataFolder: folder);
    }

    private static void Until(StandRig rig, string text) => Assert.True(
        SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.04);
                return rig.Screen().Contains(text, StringComparison.Ordinal);
            },
            TimeSpan.FromSeconds(20)),
        $"\"{text}\" never came:\n{rig.Screen()}");
}
