using BrassVox.Audio.Wav;
using BrassVox.Publishing;
using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Publishing;

public sealed class PairTracksTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-tracks-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Ended_early_leaves_what_was_there_and_nothing_half_written()
    {
        string path = Path.Combine(_folder, "pair.wav");
        File.WriteAllText(path, "earlier");
        TonePresets tones = TonePresets.Load(Path.Combine(Repository.Root, "presets", "tones"));
        FlowPair pair = new(tones.Brass[0], tones.Voices[0], 1);
        Assert.Throws<OperationCanceledException>(() =>
            PairTracks.Write(pair, [PairEvent.Start()], 1, path, new WavWriteOptions(48_000, 1), withStems: true, new CancellationToken(canceled: true)));
        Assert.Equal([path], Directory.GetFiles(_folder));
        Assert.Equal("earlier", File.ReadAllText(path));
    }
}
