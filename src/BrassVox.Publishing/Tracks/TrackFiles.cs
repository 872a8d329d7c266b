using BrassVox.Audio.Wav;
using BrassVox.Practice.Files;

namespace BrassVox.Publishing.Tracks;

/// <summary>Writes a set of tracks into a folder; their names sort by exercise and number.</summary>
public static class TrackFiles
{
    private const int OpusBitsPerSecond = 96000;

    /// <summary>Writes the tracks. A file is whole or not there; only a disk that fills up within a track's last 64 KiB leaves that one short, and the fault says so.</summary>
    /// <param name="set">The tracks.</param>
    /// <param name="folder">Where they go; made if need be.</param>
    /// <param name="name">Begin of every file's name.</param>
    /// <param name="title">Name of the exercise, for the tags.</param>
    /// <param name="album">What the tracks belong to, for the tags.</param>
    /// <param name="format">How they are written; Opus needs 48 kHz.</param>
    /// <returns>The files in order.</returns>
    /// <exception cref="IOException">The place cannot be written; what was written before is whole.</exception>
    /// <exception cref="UnauthorizedAccessException">The place may not be written.</exception>
    public static IReadOnlyList<string> Write(PracticeTracks set, string folder, string name, string title, string album, TrackFormat format)
    {
        Directory.CreateDirectory(folder);
        List<string> files = [];
        foreach (PracticeTrack track in set.Tracks)
        {
            string path = Path.Combine(folder, $"{name}-{track.Number}-{track.Name}{(format == TrackFormat.Opus ? ".opus" : ".wav")}");
            string whole = $"{title}: {track.Title}";
            if (format == TrackFormat.Opus)
            {
                byte[] bytes = Opus(set, track, whole, album);
                WholeFile.Write(path, file => file.Write(bytes));
            }
            else
            {
                Wav(set, track, path, whole, album, format);
            }

            files.Add(path);
        }

        return files;
    }

    /// <summary>One track as the bytes of an Opus file.</summary>
    /// <param name="set">Its set, at 48 kHz.</param>
    /// <param name="track">The track.</param>
    /// <param name="title">Name for the tags.</param>
    /// <param name="album">What it belongs to, for the tags.</param>
    /// <param name="fromSample">First sample that is taken.</param>
    /// <exception cref="ArgumentException">The set has another rate.</exception>
    public static byte[] Opus(PracticeTracks set, PracticeTrack track, string title, string album, int fromSample = 0) => set.SampleRateHz != OpusFile.RateHz
        ? throw new ArgumentException($"Opus is written at {OpusFile.RateHz} Hz, not {set.SampleRateHz}.", nameof(set))
        : OpusFile.Of(track.ToSamples().AsSpan(fromSample), OpusBitsPerSecond,
            [("TITLE", title), ("ALBUM", album), ("TRACKNUMBER", $"{track.Number}"), ("GENRE", "Practice")]);

    private static void Wav(PracticeTracks set, PracticeTrack track, string path, string title, string album, TrackFormat format)
    {
        WavEncoding encoding = format switch
        {
            TrackFormat.Wav16 => WavEncoding.Pcm16,
            TrackFormat.Wav24 => WavEncoding.Pcm24,
            _ => WavEncoding.Floating32,
        };
        WavWriteOptions options = new(set.SampleRateHz, 1, encoding)
        {
            Tags = [new("INAM", title), new("IPRD", album), new("ITRK", $"{track.Number}"), new("IGNR", "Practice")],
        };
        if (!WavWriter.TryCreate(path, options, out WavWriter? writer, out WavWriteFailure? failure))
        {
            throw new IOException(failure.Message);
        }

        using (writer)
        {
            // Not finished it leaves nothing, and an older track of that name as it was.
            if (!writer.Write(track.ToSamples()))
            {
                throw new IOException(writer.Failure!.Message);
            }

            if (writer.Finish().Failure is { } fault)
            {
                throw new IOException(fault.Message);
            }
        }
    }
}
