using BrassVox.Audio.Wav;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;

namespace BrassVox.Practice.Takes;

/// <summary>
/// Keeps takes: sound and record as files, and in the log what is searched and summarised. A take counts as kept once all three are on the
/// disk; files that a crash left without their row are entered into the log when it is next read. Blocks on the disk: never on a sound thread.
/// </summary>
public sealed class TakeStore
{
    private const int MostNames = 100;
    private readonly TimeProvider _time;
    private readonly string? _player;
    private readonly bool _isSimulated;
    private readonly TakeFiles _files;

    /// <summary>Names the folder; nothing is created yet.</summary>
    /// <param name="dataFolder">The user's data folder, see <see cref="DataFolder.Find(string?)"/>.</param>
    /// <param name="time">Clock for the names of takes.</param>
    /// <param name="player">Name of the player whose takes are kept; null for the only one.</param>
    /// <param name="isSimulated">True to mark every take as one that nobody played.</param>
    public TakeStore(string dataFolder, TimeProvider time, string? player = null, bool isSimulated = false)
    {
        _files = new TakeFiles(Path.Combine(dataFolder, "takes"));
        Log = new PracticeLog(dataFolder);
        _time = time;
        _player = string.IsNullOrEmpty(player) ? null : player;
        _isSimulated = isSimulated;
    }

    /// <summary>The folder of the takes.</summary>
    public string Folder => _files.Folder;

    /// <summary>The log beside them.</summary>
    public PracticeLog Log { get; }

    /// <summary>Keeps a take and counts its singing. Never throws for what a disk may do.</summary>
    /// <param name="judged">The take.</param>
    /// <param name="said">What the player said; null when nothing.</param>
    /// <returns>The record with a message when the files are safe but the log could not be written.</returns>
    public TakeSaving Keep(JudgedTake judged, Saying? said)
    {
        DateTimeOffset now = _time.GetUtcNow();
        now = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond));
        TakeRecord record;
        try
        {
            _files.Make();
            string id;
            WavWriteFailure? failure;
            int names = 0;
            do
            {
                // Another instance may have taken the same name in this moment.
                id = _files.FreeId(TakeRecord.IdOf(now, judged.Exercise.Exercise.Id, judged.Number));
                failure = TakeFiles.WriteSound(judged.Recorded, _files.SoundPath(id + ".wav"));
            }
            while (failure?.Kind == WavWriteFailureKind.AlreadyThere && ++names < MostNames);

            if (failure is not null)
            {
                return new TakeSaving(null, failure.Message);
            }

            record = TakeRecord.Of(judged, said, id, id + ".wav", now, withFrames: true) with { PlayerName = _player, IsSimulated = _isSimulated };
            _files.WriteRecord(record);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return new TakeSaving(null, $"The take could not be kept in {Folder}: {fault.Message}");
        }

        return Logged(record, () => Log.Enter(record));
    }

    /// <summary>Keeps what a listening set came to. Never throws for what a disk may do.</summary>
    /// <param name="result">The set; nothing is kept of one without answers.</param>
    /// <param name="seconds">How long it took, in seconds; 0 when not known.</param>
    /// <returns>Null, or why it could not be kept.</returns>
    public string? Keep(ListeningResult result, double seconds = 0)
    {
        DateTimeOffset now = _time.GetUtcNow();
        if (ListeningEntry.Of(result, _player ?? "", now) is not { } entry)
        {
            return null;
        }

        try
        {
            Log.Add(entry with { IsSimulated = _isSimulated });
            if (seconds > 0)
            {
                Log.Add(new PracticeSpell(now, _player ?? "", result.ExerciseId, seconds, 0, _isSimulated));
            }

            return null;
        }
        catch (LogException fault)
        {
            return fault.Failure.Message;
        }
    }

    /// <summary>Adds to a kept take what the player said of it; one deleted meanwhile stays deleted. Never throws for what a disk may do.</summary>
    /// <param name="record">The take with its frames.</param>
    /// <param name="said">The sentence.</param>
    /// <returns>The record as it now is, with a message where the sentence could not be kept; no record where the take is gone.</returns>
    public TakeSaving Say(TakeRecord record, Saying said)
    {
        TakeRecord whole = record with { Said = said };
        bool WriteFile()
        {
            if (!File.Exists(_files.RecordPath(record.Id)))
            {
                return false;
            }

            _files.WriteRecord(whole);
            return true;
        }

        TakeSaving gone = new(null, $"The take {record.Id} was deleted meanwhile; what was said of it is not kept.");
        try
        {
            try
            {
                return Log.Change(whole, WriteFile) ? new TakeSaving(whole, null) : gone;
            }
            catch (LogException fault)
            {
                return WriteFile() ? new TakeSaving(whole, $"What was said is kept with the take's files; {fault.Failure.Message}") : gone;
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return new TakeSaving(record, $"The take in {Folder} could not be changed: {fault.Message}");
        }
    }

    /// <summary>The takes that are kept, oldest first. Where the log cannot be used the files are read instead, and the first problem says so.</summary>
    /// <param name="filter">Which; null takes all.</param>
    public TakeListing List(TakeFilter? filter = null)
    {
        filter ??= TakeFilter.All;
        try
        {
            IReadOnlyList<string> problems = CatchUp();
            return new TakeListing(Log.Takes(filter), problems);
        }
        catch (LogException fault)
        {
            return FromFiles(filter, fault.Failure.Message);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return new TakeListing([], [$"{Folder}: {fault.Message}"]);
        }
    }

    /// <summary>Body notes that belong to no take, oldest first; none where the log cannot be used, which <see cref="List"/> says.</summary>
    /// <param name="filter">Which; its exercise is passed over.</param>
    public IReadOnlyList<BodyNote> NotesBetween(TakeFilter filter)
    {
        try
        {
            return [.. Log.BodyNotes(filter).Where(note => note.TakeId is null)];
        }
        catch (LogException)
        {
            return [];
        }
    }

    /// <summary>Deletes body notes, for good. Never throws for what a disk may do.</summary>
    /// <param name="notes">The notes.</param>
    /// <returns>Null, or why they could not be deleted.</returns>
    public string? Delete(IReadOnlyList<BodyNote> notes)
    {
        try
        {
            Log.Delete(notes);
            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return $"The body notes in {Folder} could not be deleted: {fault.Message}";
        }
    }

    /// <summary>Reads a take whole, with its frames; null when its file is not there or not readable.</summary>
    /// <param name="id">The take.</param>
    public TakeRecord? Read(string id) => _files.Read(id).Record;

    /// <summary>Why a take's file cannot be read; null when it can, or is not there.</summary>
    /// <param name="id">The take.</param>
    public string? ProblemOf(string id) => File.Exists(_files.RecordPath(id)) ? _files.Read(id).Problem : null;

    /// <summary>Path of a take's sound.</summary>
    /// <param name="record">The take.</param>
    public string SoundPath(TakeRecord record) => _files.SoundPath(record.SoundFile);

    /// <summary>Deletes takes, for good: sound, record and rows. What was sung stays counted. Never throws for what a disk may do.</summary>
    /// <param name="takes">The takes.</param>
    /// <returns>Null, or why they could not be deleted.</returns>
    public string? Delete(params IReadOnlyList<TakeRecord> takes)
    {
        try
        {
            string[] ids = [.. takes.Select(take => take.Id)];
            Log.BeginDeleting(ids);
            foreach (TakeRecord take in takes)
            {
                File.Delete(_files.RecordPath(take.Id));
                File.Delete(SoundPath(take));
            }

            Log.Delete(ids);
            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return $"The takes in {Folder} could not be deleted: {fault.Message}";
        }
    }

    /// <summary>Copies a take's sound and record, for its owner only.</summary>
    /// <param name="take">The take.</param>
    /// <param name="folder">Where to; made when missing.</param>
    /// <returns>Null, or why it could not be copied.</returns>
    public string? Export(TakeRecord take, string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
            File.Copy(SoundPath(take), Path.Combine(folder, Path.GetFileName(take.SoundFile)), overwrite: true);
            File.Copy(_files.RecordPath(take.Id), Path.Combine(folder, take.Id + ".json"), overwrite: true);
            return null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return $"The take could not be copied to {folder}: {fault.Message}";
        }
    }

    /// <summary>Finishes deletions that were cut short, and enters takes that are there as files only.</summary>
    private List<string> CatchUp()
    {
        List<string> problems = [];
        IReadOnlyList<string> leaving = Log.Leaving();
        foreach (string id in leaving)
        {
            File.Delete(_files.RecordPath(id));
            File.Delete(_files.SoundPath(id + ".wav"));
        }

        if (leaving.Count > 0)
        {
            Log.Delete(leaving);
        }

        string[] files = [.. _files.Ids()];
        IReadOnlySet<string> known = files.Length == 0 ? new HashSet<string>() : Log.Ids();
        List<TakeRecord> found = [];
        foreach (string id in files.Where(id => !known.Contains(id)))
        {
            (TakeRecord? record, string? problem) = _files.Read(id);
            if (record is not null)
            {
                found.Add(record);
            }
            else
            {
                problems.Add(problem!);
            }
        }

        if (found.Count > 0)
        {
            Log.EnterFound(found);
        }

        problems.AddRange(_files.SoundsAlone().Select(CutShort));
        return problems;
    }

    private static string CutShort(string path) => $"{path} is sound without a take's record, as a full disk or a crash leaves it. Listen to it, keep it elsewhere or remove it.";

    private TakeListing FromFiles(TakeFilter filter, string why)
    {
        List<LoggedTake> takes = [];
        List<string> problems = [why];
        try
        {
            foreach (string id in _files.Ids())
            {
                (TakeRecord? record, string? problem) = _files.Read(id);
                if (problem is not null)
                {
                    problems.Add(problem);
                }
                else if (Fits(record!, filter))
                {
                    takes.Add(new LoggedTake(record! with { Frames = [] }, []));
                }
            }

            problems.AddRange(_files.SoundsAlone().Select(CutShort));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            problems.Add($"{Folder}: {fault.Message}");
        }

        return new TakeListing([.. takes.OrderBy(take => take.Take.MadeAt)], problems);
    }

    private static bool Fits(TakeRecord take, TakeFilter filter) =>
        (filter.Player is null || filter.Player == (take.PlayerName ?? ""))
        && (filter.ExerciseId is null || filter.ExerciseId == take.ExerciseId)
        && (filter.From is not { } from || take.MadeAt >= from)
        && (filter.Before is not { } before || take.MadeAt < before);

    private static TakeSaving Logged(TakeRecord record, Action write)
    {
        try
        {
            write();
            return new TakeSaving(record, null);
        }
        catch (LogException fault)
        {
            return new TakeSaving(record, $"The take is kept as files; {fault.Failure.Message}");
        }
    }
}
