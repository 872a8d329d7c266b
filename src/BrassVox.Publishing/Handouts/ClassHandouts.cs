using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.ExceptionServices;
using System.Text;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Notation;
using BrassVox.Synthesis;

namespace BrassVox.Publishing.Handouts;

/// <summary>The handouts of a whole class, on several cores.</summary>
/// <remarks>
/// What students share is made once: a whole article where their settings are the same, else its sound or its notes where those are.
/// Articles go to disk as they are made and into the handouts from there, so that memory grows with the cores that work, not with the class.
/// </remarks>
/// <param name="makeEngine">Makes an unprepared engine with stems and the tones of an instrument and a voice; called from several threads.</param>
/// <param name="engraver">Engraves the notes.</param>
/// <param name="workers">How many work at once, at least 1.</param>
public sealed class ClassHandouts(Func<Instrument, VoiceKind, IPairEngine> makeEngine, Engraver engraver, int workers)
{
    // So many scores go into one run of the engraver, whose start takes as long as six of them; fewer where cores would idle at the end.
    private const int MostAtOnce = 12;
    private const int FewestAtOnce = 4;

    /// <summary>Writes NAME.html for every student. One that is told as written is whole, whatever comes after.</summary>
    /// <param name="members">The class.</param>
    /// <param name="title">Title of the sheets.</param>
    /// <param name="folder">Where they go; made when it is not there.</param>
    /// <param name="tell">Called with how far it is, from one thread at a time.</param>
    /// <param name="cancel">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> asked for it.</exception>
    /// <exception cref="IOException">A file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">A file may not be written.</exception>
    public void Write(IReadOnlyList<ClassMember> members, string title, string folder, Action<ClassProgress> tell, CancellationToken cancel = default)
    {
        Directory.CreateDirectory(folder);
        string making = Path.Combine(folder, ".making-" + Path.GetRandomFileName());
        Directory.CreateDirectory(making);
        Group[] groups =
        [
            .. members.GroupBy(member => (member.Player with { Name = "" }, string.Join('\n', member.Sheets.Select(sheet => sheet.FileName))))
                .Select((group, i) => new Group([.. group], Path.Combine(making, i.ToString(CultureInfo.InvariantCulture)))),
        ];
        int sheets = groups.Sum(group => group.Sheets.Count);
        int atOnce = Math.Clamp(sheets / (2 * workers), FewestAtOnce, MostAtOnce);
        var notes = new SharedNotes(engraver);
        var sounds = new SharedSounds(makeEngine, making);
        int made = 0;
        Lock telling = new();
        void Tell(int more, HandoutWritten? written)
        {
            lock (telling)
            {
                made += more;
                tell(new ClassProgress(made, sheets, sounds.Made, written));
            }
        }

        IEnumerable<(Group Group, int From)> parts = groups.SelectMany(group => Enumerable.Range(0, (group.Sheets.Count + atOnce - 1) / atOnce).Select(i => (group, i * atOnce)));
        try
        {
            foreach (Group group in groups)
            {
                foreach (SheetItem sheet in group.Sheets)
                {
                    sounds.Expect(sheet, group.Members[0].Player.Profile);
                }
            }

            Parallel.ForEach(
                Partitioner.Create(parts, EnumerablePartitionerOptions.NoBuffering),
                new ParallelOptions { MaxDegreeOfParallelism = workers, CancellationToken = cancel },
                part =>
                {
                    int count = Math.Min(atOnce, part.Group.Sheets.Count - part.From);
                    Make(part.Group, part.From, count, notes, sounds, () => Tell(1, null), cancel);
                    if (part.Group.IsLast(count))
                    {
                        foreach (ClassMember member in part.Group.Members)
                        {
                            Tell(0, Assemble(member, part.Group, title, folder, cancel));
                        }

                        part.Group.Clear();
                    }
                });
        }
        catch (AggregateException several)
        {
            ExceptionDispatchInfo.Throw(several.InnerExceptions.FirstOrDefault(error => error is not OperationCanceledException) ?? several.InnerExceptions[0]);
        }
        finally
        {
            Directory.Delete(making, recursive: true);
        }
    }

    private static void Make(Group group, int from, int count, SharedNotes notes, SharedSounds sounds, Action tell, CancellationToken cancel)
    {
        Player player = group.Members[0].Player;
        SheetItem[] sheets = [.. group.Sheets.Skip(from).Take(count)];
        cancel.ThrowIfCancellationRequested();
        IReadOnlyList<Engraving> engraved = notes.Of([.. sheets.Select(sheet => sheet.ScoreFor(player))], cancel);
        // A sound that another worker is at is put off; only when all that are left are such ones is one waited for.
        Queue<int> left = new(Enumerable.Range(0, sheets.Length));
        int putOff = 0;
        while (left.TryDequeue(out int i))
        {
            if (sounds.TryTake(sheets[i], player.Profile, wait: putOff > left.Count, cancel) is not { } sound)
            {
                putOff++;
                left.Enqueue(i);
                continue;
            }

            putOff = 0;
            using (var article = new StreamWriter(group.PathOf(from + i), append: false, new UTF8Encoding(false)))
            {
                article.Write(Handout.Article(player, new HandoutItem(sheets[i].Resolved, sound, engraved[i]), from + i + 1));
            }

            tell();
        }
    }

    private static HandoutWritten Assemble(ClassMember member, Group group, string title, string folder, CancellationToken cancel)
    {
        string path = Path.Combine(folder, (member.Player.Name.Length > 0 ? member.Player.Name : "player") + ".html");
        WholeFile.Write(path, file =>
        {
            using var page = new StreamWriter(file, new UTF8Encoding(false), leaveOpen: true);
            Handout.Write(page, member.Player, [.. member.Sheets.Select(sheet => sheet.Resolved)], title, member.SoFar, i =>
            {
                cancel.ThrowIfCancellationRequested();
                page.Flush();
                using FileStream article = File.OpenRead(group.PathOf(i));
                article.CopyTo(file);
            }, member.Reviews);
        });
        return new HandoutWritten(path, member.Sheets.Count, member.Reviews?.Count ?? 0, new FileInfo(path).Length);
    }

    /// <summary>Students who get the same.</summary>
    private sealed class Group(ClassMember[] members, string path)
    {
        private int _made;

        public ClassMember[] Members => members;

        public IReadOnlyList<SheetItem> Sheets => members[0].Sheets;

        public string PathOf(int sheet) => string.Create(CultureInfo.InvariantCulture, $"{path}-{sheet}.html");

        /// <summary>True for the caller with whom all are made.</summary>
        public bool IsLast(int more) => Interlocked.Add(ref _made, more) == Sheets.Count;

        public void Clear()
        {
            for (int i = 0; i < Sheets.Count; i++)
            {
                File.Delete(PathOf(i));
            }
        }
    }
}
