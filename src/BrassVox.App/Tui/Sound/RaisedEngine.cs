using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>
/// An engine for a loudspeaker that does not carry low tones: a pair whose played note lies under the limit sounds whole octaves
/// higher, both tones alike, so that the interval and what it makes stay in proportion. What is read is told as written.
/// </summary>
/// <param name="engine">The engine that sounds.</param>
/// <param name="lowestHz">Lowest tone that is carried, in Hz.</param>
internal sealed class RaisedEngine(IPairEngine engine, double lowestHz) : WrappedPair(engine)
{
    private const int MostOctaves = 3;
    private PitchPath? _sung;

    /// <summary>Octaves by which it sounds higher than written, as of the last event.</summary>
    public int OctavesUp { get; private set; }

    /// <inheritdoc/>
    public override bool TryPost(in PairEvent pairEvent)
    {
        if (pairEvent is not { Kind: PairEventKind.Pitch, Path: { } path })
        {
            return base.TryPost(pairEvent);
        }

        if (pairEvent.Role == VoiceRole.Sung)
        {
            _sung = path;
            return base.TryPost(Raised(pairEvent, path, OctavesUp));
        }

        int octaves = 0;
        double hz = path.FrequencyHz(0);
        while (hz < lowestHz && octaves < MostOctaves)
        {
            hz *= 2;
            octaves++;
        }

        if (!base.TryPost(Raised(pairEvent, path, octaves)))
        {
            return false;
        }

        if (octaves != OctavesUp)
        {
            OctavesUp = octaves;
            if (_sung is { } sung)
            {
                base.TryPost(Raised(PairEvent.Pitch(VoiceRole.Sung, sung, pairEvent.AtSample), sung, octaves));
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public override PartReading Read(int partIndex)
    {
        PartReading reading = base.Read(partIndex);
        return reading with { FrequencyHz = reading.FrequencyHz / (1 << OctavesUp) };
    }

    private static PairEvent Raised(in PairEvent pairEvent, PitchPath path, int octaves) =>
        octaves == 0 ? pairEvent : pairEvent with { Path = path.Transposed(1200 * octaves) };
}
