using BrassVox.Analysis;
using BrassVox.Practice.Demo;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Practice.Log;
using Xunit;

namespace BrassVox.Tests.Practice.Demo;

public sealed class DemoEnsembleTests : IClassFixture<DemoEnsembleTests.Made>
{
    private readonly Made _made;

    public DemoEnsembleTests(Made made) => _made = made;

    [Fact]
    public void Every_role_has_weeks_of_takes_all_labelled_simulated()
    {
        IReadOnlyList<LoggedTake> takes = new TakeStore(_made.Folder, TimeProvider.System).List().Takes;
        Assert.Equal(_made.Takes.Count, takes.Count);
        Assert.All(takes, take => Assert.True(take.Take.IsSimulated));
        Assert.All(new PracticeLog(_made.Folder).Spells(TakeFilter.All), spell => Assert.True(spell.IsSimulated));
        Assert.Equal(new PlayerFiles(_made.Folder).Names, takes.Select(take => take.Take.PlayerName!).Distinct().Order(StringComparer.Ordinal));
        Assert.All(takes.GroupBy(take => take.Take.PlayerName), player => Assert.InRange(player.Count(), 20, 150));
        Assert.True(DemoEnsemble.IsMarked(_made.Folder));
        Assert.Equal(takes.Count + 1, File.ReadAllLines(Path.Combine(_made.Folder, DemoEnsemble.TruthFile)).Length);
    }

    [Fact]
    public void What_was_judged_is_the_declared_truth()
    {
        DemoTruth[] plain = [.. _made.Takes.Where(take => take.Take.Result is { Sung.OffsetCents: not null, Pair.FogSeconds: 0 } && take.Played.PullCents == 0)];
        Assert.InRange(plain.Length, 100, 1000);
        Assert.All(plain, take =>
        {
            Assert.Equal(take.Sung.OffsetCents, take.Take.Result.Sung!.OffsetCents!.Value, 2 + (0.35 * take.Sung.SpreadCents) + (0.1 * take.Sung.VibratoCents));
            Assert.Equal(take.Played.OffsetCents, take.Take.Result.Played!.OffsetCents!.Value, 2 + (0.35 * take.Played.SpreadCents));
        });
        DemoTruth[] wide = [.. plain.Where(take => take.Sung.SpreadCents > 5 && take.Take.ExerciseId == "open-home-pair")];
        Assert.Equal(1, Median.Of(wide.Select(take => take.Take.Result.Sung!.SpreadCents!.Value / take.Sung.SpreadCents)), 0.15);
    }

    [Fact]
    public void One_rests_one_is_too_sure_one_take_is_spoiled_one_learns_fast()
    {
        var log = new PracticeLog(_made.Folder);
        LoggedTake[] Of(string player) => [.. log.Takes(new TakeFilter(player))];
        ErrorCell cell = ErrorMap.Of(Of("Trombone-2")).Cells.MaxBy(cell => cell.Takes)!;
        Assert.Null(WeekTrend.Of(cell, Of("Trombone-2"), TimeZoneInfo.Utc).Weeks[2].Value);
        Assert.InRange(log.BodyNotes(new TakeFilter("Trombone-2")).Count(note => note.Tag == BodyTag.Throat), 2, 99);
        Assert.Single(log.Takes(TakeFilter.All), take => !take.IsScored);
        SurenessFigure certain = SurenessFigure.Of(Of("Trumpet-5"), last: 50).Single(figure => figure.Sure == Sureness.Certain);
        Assert.True(certain.Right < 0.6 * certain.Said);
        ErrorCell horn = ErrorMap.Of(Of("Horn-4")).Cells.MaxBy(cell => cell.Takes)!;
        IReadOnlyList<WeekFigure> weeks = WeekTrend.Of(horn, Of("Horn-4"), TimeZoneInfo.Utc).Weeks;
        Assert.True(weeks[^1].Value < 0.6 * weeks[0].Value);
    }

    [Fact]
    public void The_same_seed_on_the_same_day_gives_the_same_ensemble()
    {
        using var again = new Made();
        Assert.Equal(_made.Takes.Select(take => take.Take.ToJson(indented: false)), again.Takes.Select(take => take.Take.ToJson(indented: false)));
    }

    [Fact]
    public void A_folder_that_holds_something_else_is_left_alone()
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-own-").FullName;
        string own = Path.Combine(folder, "own.txt");
        File.WriteAllText(own, "mine");
        Assert.Throws<InvalidDataException>(() => Made.Ensemble(folder).Fill(null, TestContext.Current.CancellationToken));
        Assert.Equal("mine", File.ReadAllText(own));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Broken_off_it_leaves_nothing_of_itself()
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-demo-").FullName;
        using CancellationTokenSource ended = new();
        Assert.Throws<OperationCanceledException>(() => Made.Ensemble(Path.Combine(folder, "demo")).Fill((_, _) => ended.Cancel(), ended.Token));
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder));
        Directory.Delete(folder);
    }

    public sealed class Made : IDisposable
    {
        public Made() => Takes = Ensemble(Folder).Fill();

        public string Folder { get; } = Path.Combine(Directory.CreateTempSubdirectory("brassvox-demo-").FullName, "demo");

        public IReadOnlyList<DemoTruth> Takes { get; }

        internal static DemoEnsemble Ensemble(string folder) => new(
            folder, ShippedExercises.Library, (rate, prior) => new DuetTracker(rate, prior), new FixedTime(LogRig.Monday.AddDays(3)), 1);

        public void Dispose() => Directory.Delete(Path.GetDirectoryName(Folder)!, recursive: true);
    }

    private sealed class FixedTime(DateTimeOffset now) : TimeProvider
    {
        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

        public override DateTimeOffset GetUtcNow() => now;
    }
}
