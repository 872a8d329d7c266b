using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>An engine that hands everything on to another; what is to be otherwise is overridden.</summary>
/// <param name="inner">The engine that sounds.</param>
public abstract class WrappedPair(IPairEngine inner) : IPairEngine
{
    /// <inheritdoc/>
    public Parameter CouplingDepth => inner.CouplingDepth;

    /// <inheritdoc/>
    public Parameter LevelDb => inner.LevelDb;

    /// <inheritdoc/>
    public Parameter PlayedDetuneCents => inner.PlayedDetuneCents;

    /// <inheritdoc/>
    public Parameter SungDetuneCents => inner.SungDetuneCents;

    /// <inheritdoc/>
    public Parameter SungDetuneHz => inner.SungDetuneHz;

    /// <inheritdoc/>
    public IReadOnlyList<Parameter> Parameters => inner.Parameters;

    /// <inheritdoc/>
    public IReadOnlyList<PairPart> Parts => inner.Parts;

    /// <inheritdoc/>
    public long SamplesRendered => inner.SamplesRendered;

    /// <inheritdoc/>
    public bool IsSounding => inner.IsSounding;

    /// <inheritdoc/>
    public void Prepare(RenderFormat format) => inner.Prepare(format);

    /// <inheritdoc/>
    public void Render(Span<float> output) => inner.Render(output);

    /// <inheritdoc/>
    public void Reset() => inner.Reset();

    /// <inheritdoc/>
    public virtual bool TryPost(in PairEvent pairEvent) => inner.TryPost(pairEvent);

    /// <inheritdoc/>
    public virtual PartReading Read(int partIndex) => inner.Read(partIndex);

    /// <inheritdoc/>
    public double PartialLevelDbfs(VoiceRole role, int harmonic) => inner.PartialLevelDbfs(role, harmonic);
}
