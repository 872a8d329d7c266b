using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>
/// A played and a sung tone sounding together, separate or coupled: everything the program sounds comes from one of these.
/// Output is mono, limited to -1 dBTP, finite and ramped whatever is asked.
/// </summary>
public interface IPairEngine : ISoundSource
{
    /// <summary>Depth of coupling: 0 separate (a plain sum), 1 the voice opens and shuts the flow. Loudness is held.</summary>
    Parameter CouplingDepth { get; }

    /// <summary>Output level in dB relative to the engine's reference; the header of every screen shows it.</summary>
    Parameter LevelDb { get; }

    /// <summary>Cents added to the played tone's path.</summary>
    Parameter PlayedDetuneCents { get; }

    /// <summary>Cents added to the sung tone's path.</summary>
    Parameter SungDetuneCents { get; }

    /// <summary>Hz added to the sung tone after its cents, so that beats can be set directly.</summary>
    Parameter SungDetuneHz { get; }

    /// <summary>All parameters of this engine, those above included, for screens made from their specs.</summary>
    IReadOnlyList<Parameter> Parameters { get; }

    /// <summary>P, S, then every resultant to order 4 (both counts non-zero), in a fixed order.</summary>
    IReadOnlyList<PairPart> Parts { get; }

    /// <summary>Samples rendered since Prepare or Reset: the clock that events are timed on. Any thread.</summary>
    long SamplesRendered { get; }

    /// <summary>True from Start until the ramp after Stop or Tacet has ended. Any thread.</summary>
    bool IsSounding { get; }

    /// <summary>Hands an event to the sound thread. One producer at a time. False when the queue (64 events or more) is full: the caller tries again.</summary>
    /// <param name="pairEvent">The event.</param>
    bool TryPost(in PairEvent pairEvent);

    /// <summary>Where a part stood at the end of the last block. Any thread; allocates nothing.</summary>
    /// <param name="partIndex">Index into <see cref="Parts"/>.</param>
    PartReading Read(int partIndex);

    /// <summary>Level of one partial as it stood at the end of the last block, in dBFS; -200 when there is none. Any thread.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="harmonic">Harmonic number from 1.</param>
    double PartialLevelDbfs(VoiceRole role, int harmonic);
}
