using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;

namespace BrassVox.Publishing.Handouts;

/// <summary>The sounds of a class, each rendered and packed once however many students have it; those that are shared lie on disk. From any thread.</summary>
/// <param name="makeEngine">Makes an unprepared engine with stems and the tones of an instrument and a voice.</param>
/// <param name="folder">Where shared sounds lie.</param>
internal sealed class SharedSounds(Func<Instrument, VoiceKind, IPairEngine> makeEngine, string folder)
{
    private readonly Dictionary<string, Entry> _entries = new(StringComparer.Ordinal);
    private int _made;

    /// <summary>How many have been rendered.</summary>
    public int Made => Volatile.Read(ref _made);

    /// <summary>Announces one use of a sound. Before <see cref="TryTake"/>, from one thread.</summary>
    public void Expect(SheetItem sheet, PlayerProfile profile)
    {
        string key = KeyOf(sheet, profile);
        if (!_entries.TryGetValue(key, out Entry? entry))
        {
            _entries.Add(key, entry = new Entry(Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"sound-{_entries.Count}"))));
        }

        entry.Left++;
    }

    /// <summary>The sound of an announced use; null when another thread is at it and this one does not wait.</summary>
    /// <param name="sheet">What sounds.</param>
    /// <param name="profile">For whom.</param>
    /// <param name="wait">True to wait for another thread.</param>
    /// <param name="cancel">Ends it early.</param>
    public HandoutSound? TryTake(SheetItem sheet, PlayerProfile profile, bool wait, CancellationToken cancel)
    {
        Entry entry = _entries[KeyOf(sheet, profile)];
        if (!entry.Lock.TryEnter(wait ? Timeout.InfiniteTimeSpan : TimeSpan.Zero))
        {
            return null;
        }

        try
        {
            return Take(entry, sheet, profile, cancel);
        }
        finally
        {
            entry.Lock.Exit();
        }
    }

    private HandoutSound Take(Entry entry, SheetItem sheet, PlayerProfile profile, CancellationToken cancel)
    {
        HandoutSound sound;
        entry.Left--;
        if (entry.IsKept)
        {
            sound = Read(entry.Path);
        }
        else
        {
            sound = HandoutSound.Of(sheet.Resolved, makeEngine(profile.Instrument, profile.Voice), cancel);
            Interlocked.Increment(ref _made);
            if (entry.Left > 0)
            {
                Keep(entry.Path, sound);
                entry.IsKept = true;
            }
        }

        if (entry is { IsKept: true, Left: 0 })
        {
            File.Delete(entry.Path);
        }

        return sound;
    }

    private string KeyOf(SheetItem sheet, PlayerProfile profile) => string.Create(
        CultureInfo.InvariantCulture,
        $"{profile.Instrument} {profile.Voice} {HandoutSound.KeyOf(sheet.Resolved, makeEngine(profile.Instrument, profile.Voice))}");

    private static void Keep(string path, HandoutSound sound)
    {
        using var file = new BinaryWriter(File.Create(path));
        file.Write(sound.Files.Count);
        foreach (byte[] bytes in sound.Files)
        {
            file.Write(bytes.Length);
            file.Write(bytes);
        }
    }

    private static HandoutSound Read(string path)
    {
        using var file = new BinaryReader(File.OpenRead(path));
        return new HandoutSound([.. Enumerable.Range(0, file.ReadInt32()).Select(_ => file.ReadBytes(file.ReadInt32()))]);
    }

    private sealed class Entry(string path)
    {
        public string Path => path;

        public Lock Lock { get; } = new();

        public int Left { get; set; }

        public bool IsKept { get; set; }
    }
}
