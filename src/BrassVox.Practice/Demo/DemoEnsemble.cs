using System.Globalization;
using System.Text;
using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.Practice.Demo;

/// <summary>
/// Fills a folder of its own with six weeks of an invented ensemble: every screen and report has something to show, and the truth behind each take
/// is known (<c>truth.csv</c>). Everything is labelled simulated. The same seed on the same day gives the same takes. Own data is never touched.
/// </summary>
public sealed class DemoEnsemble
{
    /// <summary>A file of this name marks a folder as invented; nothing is ever written into, or removed from, a folder with contents but without it.</summary>
    public const string MarkFile = "SIMULATED.txt";

    /// <summary>File of the truth behind the takes.</summary>
    public const string TruthFile = "truth.csv";

    private const string UnfinishedSuffix = ".unfinished";
    private const int Weeks = 6;
    private const int SampleRateHz = 48000;
    private const int TakesASession = 2;
    private const int SoundsOfRole = 1;
    private const int FirstHour = 17;
    private readonly string _folder;
    private readonly ExerciseLibrary _exercises;
    private readonly TrackerFactory _createTracker;
    private readonly TimeProvider _time;
    private readonly int _seed;

    /// <summary>Names the folder; nothing is written yet.</summary>
    /// <param name="folder">The folder, its own.</param>
    /// <param name="exercises">The shipped exercises.</param>
    /// <param name="createTracker">Measures the takes that have a sound.</param>
    /// <param name="time">The clock: the six weeks end on its day.</param>
    /// <param name="seed">Seed of all chance.</param>
    public DemoEnsemble(string folder, ExerciseLibrary exercises, TrackerFactory createTracker, TimeProvider time, int seed)
    {
        _folder = folder;
        _exercises = exercises;
        _createTracker = createTracker;
        _time = time;
        _seed = seed;
    }

    /// <summary>True when a folder was filled by <see cref="Fill"/>.</summary>
    /// <param name="folder">The folder.</param>
    public static bool IsMarked(string folder) => File.Exists(Path.Combine(folder, MarkFile));

    /// <summary>
    /// Fills the folder; what it invented earlier is replaced once all is there. Broken off, it leaves the folder as it was; only a
    /// crash leaves an unfinished one beside it, which the next filling removes.
    /// </summary>
    /// <param name="progress">Told how many roles are done; null for nobody.</param>
    /// <param name="ended">Asks for the end; heard between two sessions and before each sound.</param>
    /// <returns>The takes and the truth behind each, role by role, oldest first.</returns>
    /// <exception cref="InvalidDataException">The folder holds something else.</exception>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The end was asked for.</exception>
    public IReadOnlyList<DemoTruth> Fill(Action<int, int>? progress = null, CancellationToken ended = default)
    {
        bool holdsAnything = Directory.Exists(_folder) && Directory.EnumerateFileSystemEntries(_folder).Any();
        if (holdsAnything && !IsMarked(_folder))
        {
            throw new InvalidDataException($"{_folder} holds something that is not the invented ensemble and is left untouched. Name another folder with --data.");
        }

        string unfinished = _folder.TrimEnd(Path.DirectorySeparatorChar) + UnfinishedSuffix;
        Remove(unfinished);
        IReadOnlyList<DemoTruth> all;
        try
        {
            all = new DemoEnsemble(unfinished, _exercises, _createTracker, _time, _seed).Write(progress, ended);
        }
        catch (Exception fault) when (fault is OperationCanceledException or IOException or UnauthorizedAccessException)
        {
            try
            {
                Remove(unfinished);
            }
            catch (Exception second) when (second is IOException or UnauthorizedAccessException)
            {
                // The first fault is the one to tell; the next filling removes what is left.
            }

            throw;
        }

        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }

        Directory.Move(unfinished, _folder);
        return all;
    }

    private static void Remove(string folder)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private List<DemoTruth> Write(Action<int, int>? progress, CancellationToken ended)
    {
        OwnerOnly.MakeFolder(_folder);
        File.WriteAllText(Path.Combine(_folder, MarkFile), $"{DemoRoles.Ensemble} is invented: nobody played these takes. brassvox demo makes them anew and removes whatever is in this folder.\n");
        List<DemoTruth> all = [];
        var players = new PlayerFiles(_folder);
        for (int i = 0; i < DemoRoles.All.Count; i++)
        {
            ended.ThrowIfCancellationRequested();
            DemoRole role = DemoRoles.All[i];
            players.Write(role.Player);
            all.AddRange(new RoleHistory(this, role, i, ended).Write());
            progress?.Invoke(i + 1, DemoRoles.All.Count);
        }

        players.Choose(DemoRoles.All[1].Player.Name);
        WriteTruth(all);
        return all;
    }

    private void WriteTruth(List<DemoTruth> all)
    {
        var text = new StringBuilder("take_id,played_offset_cents,played_spread_cents,played_drift_cents,played_pull_cents,sung_offset_cents,sung_spread_cents,sung_drift_cents,sung_vibrato_cents\n");
        foreach (DemoTruth truth in all)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{truth.Take.Id},{truth.Played.OffsetCents:0.###},{truth.Played.SpreadCents:0.###},{truth.Played.DriftCents:0.###},{truth.Played.PullCents:0.###},{truth.Sung.OffsetCents:0.###},{truth.Sung.SpreadCents:0.###},{truth.Sung.DriftCents:0.###},{truth.Sung.VibratoCents:0.###}");
        }

        File.WriteAllText(Path.Combine(_folder, TruthFile), text.ToString());
    }

    /// <summary>Six weeks of one role.</summary>
    private sealed class RoleHistory(DemoEnsemble demo, DemoRole role, int index, CancellationToken ended)
    {
        private readonly DemoDice _dice = new((demo._seed * 1009) + index);
        private readonly List<DemoTruth> _takes = [];
        private readonly List<BodyNote> _notes = [];
        private readonly List<ListeningEntry> _listening = [];
        private readonly List<PracticeSpell> _spells = [];

        private string Name => role.Player.Name;

        public List<DemoTruth> Write()
        {
            TimeZoneInfo zone = demo._time.LocalTimeZone;
            DateTimeOffset now = demo._time.GetUtcNow();
            DateOnly today = WeekTrend.DayOf(now, zone);
            DateOnly monday = WeekTrend.MondayOf(today).AddDays(-7 * (Weeks - 1));
            int session = 0;
            for (int week = 0; week < Weeks; week++)
            {
                for (int day = 0; day < 5; day++)
                {
                    DateOnly date = monday.AddDays((7 * week) + day);
                    if (week == role.RestingWeek || date >= today || !IsPracticeDay(day))
                    {
                        continue;
                    }

                    var local = date.ToDateTime(new TimeOnly(FirstHour, index, 7 * index), DateTimeKind.Unspecified);
                    Session(new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime(), week, session++);
                }
            }

            WriteSounds();
            if (role.HasSpoiledTake && _takes.Count > 2)
            {
                DemoTruth spoiled = _takes[^3];
                _takes[^3] = spoiled with { Take = spoiled.Take with { Drone = new DroneInTake(true, -3.5, -11) } };
            }

            var log = new PracticeLog(demo._folder);
            log.Enter([.. _takes.Select(take => take.Take)]);
            log.Add(_notes);
            log.Add(_listening);
            log.Add(_spells);
            log.SetPlanMinutes(Name, PlanMinutes);
            return _takes;
        }

        private int PlanMinutes => role.DaysAWeek >= 4 ? Planning.PlanInputs.UsualMinutes : 20;

        private bool IsPracticeDay(int day) => day * role.DaysAWeek / 5 != (day - 1) * role.DaysAWeek / 5 || (day == 0 && role.DaysAWeek > 0);

        private void Session(DateTimeOffset at, int week, int session)
        {
            ended.ThrowIfCancellationRequested();
            Listen(at.AddMinutes(-12), session, week);
            string[] warmUps = ["alternate", "overlap", "sing-through-the-instrument"];
            _spells.Add(new PracticeSpell(at.AddMinutes(-2), Name, warmUps[session % warmUps.Length], 240, 90, IsSimulated: true));
            for (int i = 0; i < 2; i++)
            {
                DemoWork work = role.Works[((2 * session) + i) % role.Works.Count];
                for (int take = 0; take < TakesASession; take++)
                {
                    Take(work, at.AddMinutes((8 * i) + (2 * take)), week, take + 1);
                }
            }

            bool isHoarse = role.RestingWeek is { } resting && week == resting - 1;
            if (isHoarse || _dice.Chance(0.15))
            {
                _notes.Add(new BodyNote(_takes[^1].Take.MadeAt.AddSeconds(20), Name, isHoarse ? BodyTag.Throat : role.Tag, _takes[^1].Take.Id, IsSimulated: true));
            }
        }

        private void Take(DemoWork work, DateTimeOffset at, int week, int number)
        {
            PairChoice? choice = work.Played is null ? null : new PairChoice(Pitch.Parse(work.Played), Pitch.Parse(work.Sung!));
            if (demo._exercises.Find(work.ExerciseId) is not { } exercise || ExerciseResolver.Resolve(exercise, role.Player.Profile, choice).Resolved is not { } resolved)
            {
                return;
            }

            double left = 1 - (role.Learning * week / (Weeks - 1));
            int seed = 1 + _dice.Below(100000);
            var played = new SimulatedTone(
                (work.PlayedOffsetCents * left) + (1.5 * _dice.About()), work.PlayedSpreadCents * left, 2 * _dice.About(), PullCents: work.PullCents * left,
                LateSeconds: 0.05 + (0.05 * _dice.Share()), Seed: seed);
            var sung = new SimulatedTone(
                (work.SungOffsetCents * left) + (2.5 * _dice.About()), work.SungSpreadCents * left, (work.SungDriftCents * left) + (2 * _dice.About()), role.VibratoCents,
                LateSeconds: 0.08 + (0.1 * _dice.Share()), Seed: seed + 1);
            IReadOnlyList<AnalysisFrame> frames = new SimulatedTake(resolved, played, sung).Frames(SampleRateHz);
            var judged = new JudgedTake(
                resolved, number, new RecordedTake([], SampleRateHz, SimulatedTake.StartSeconds), frames, TakeJudge.Judge(resolved, frames, SimulatedTake.StartSeconds));
            Saying? said = _dice.Chance(0.92) ? DemoSayings.Of(judged.Result, role, _dice) : null;
            string id = TakeRecord.IdOf(at, exercise.Id, number);
            _takes.Add(new DemoTruth(
                TakeRecord.Of(judged, said, id, id + ".wav", at, withFrames: false) with { PlayerName = Name, IsSimulated = true }, played, sung));
        }

        private void Listen(DateTimeOffset at, int session, int week)
        {
            Exercise[] listening = [.. demo._exercises.Exercises.Where(exercise => exercise.IsListening)];
            if (listening.Length == 0)
            {
                return;
            }

            Exercise exercise = listening[Math.Min(session / 2, session % listening.Length)];
            int trials = exercise.Dose.Takes;
            double share = Math.Min(0.95, 0.55 + (0.06 * week) + (0.05 * role.RightShare));
            int right = Enumerable.Range(0, trials).Count(_ => _dice.Chance(share));
            double? error = exercise.Listening!.Answer is RateAnswer ? Math.Round(34 - (3 * week) + (4 * _dice.About()), 1) : null;
            double chance = exercise.Listening.Answer is ChoiceAnswer choice ? Math.Round(1.0 / choice.Options.Count, 6) : 0;
            _listening.Add(new ListeningEntry(at, Name, exercise.Id, trials, right, chance, error, IsSimulated: true));
            _spells.Add(new PracticeSpell(at, Name, exercise.Id, 300, 0, IsSimulated: true));
        }

        /// <summary>The newest takes of the role become sound and are measured from it, as a player's are.</summary>
        private void WriteSounds()
        {
            var files = new TakeFiles(Path.Combine(demo._folder, "takes"));
            files.Make();
            for (int i = Math.Max(0, _takes.Count - SoundsOfRole); i < _takes.Count; i++)
            {
                ended.ThrowIfCancellationRequested();
                DemoTruth truth = _takes[i];
                Exercise exercise = demo._exercises.Find(truth.Take.ExerciseId)!;
                ResolvedExercise resolved = ExerciseResolver.Resolve(exercise, role.Player.Profile, new PairChoice(truth.Take.Played, truth.Take.Sung)).Resolved!;
                var recorded = new RecordedTake(new SimulatedTake(resolved, truth.Played, truth.Sung).Sound(SampleRateHz), SampleRateHz, SimulatedTake.StartSeconds);
                JudgedTake judged = JudgedTake.Of(resolved, 1, recorded, demo._createTracker);
                TakeRecord record = TakeRecord.Of(judged, truth.Take.Said, truth.Take.Id, truth.Take.SoundFile, truth.Take.MadeAt, withFrames: true) with
                {
                    PlayerName = Name,
                    IsSimulated = true,
                };
                if (TakeFiles.WriteSound(recorded, files.SoundPath(record.SoundFile)) is { } failure)
                {
                    throw new IOException(failure.Message);
                }

                files.WriteRecord(record);
                _takes[i] = truth with { Take = record with { Frames = [] } };
            }
        }
    }
}
