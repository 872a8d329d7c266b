using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Crash;

/// <summary>An engine that sounds as another does, until a file is there: then its readings throw.</summary>
/// <param name="engine">The engine that sounds.</param>
/// <param name="trigger">Path of the file.</param>
internal sealed class FailingEngine(IPairEngine engine, string trigger) : IPairEngine
{
    /// <inheritdoc/>
    public Parameter CouplingDepth => engine.CouplingDepth;

    /// <inheritdoc/>
    public Parameter LevelDb => engine.LevelDb;

    /// <inheritdoc/>
    public Parameter PlayedDetuneCents => engine.PlayedDetuneCents;

    /// <inheritdoc/>
    public Parameter SungDetuneCents => engine.SungDetuneCents;

    /// <inheritdoc/>
    public Parameter SungDetuneHz => engine.SungDetuneHz;

    /// <inheritdoc/>
    public IReadOnlyList<Parameter> Parameters => engine.Parameters;

    /// <inheritdoc/>
    public IReadOnlyList<PairPart> Parts => engine.Parts;

    /// <inheritdoc/>
    public long SamplesRendered => engine.SamplesRendered;

    /// <inheritdoc/>
    public bool IsSounding => engine.IsSounding;

    /// <inheritdoc/>
    public void Prepare(RenderFormat format) => engine.Prepare(format);

    /// <inheritdoc/>
    public void Render(Span<float> output) => engine.Render(output);

    /// <inheritdoc/>
    public void Reset() => engine.Reset();

    /// <inheritdoc/>
    public bool TryPost(in PairEvent pairEvent) => engine.TryPost(pairEvent);

    /// <inheritdoc/>
    public PartReading Read(int partIndex) => File.Exists(trigger)
        ? throw new InvalidOperationException("made to fail by the test that runs this")
        : engine.Read(partIndex);

    /// <inheritdoc/>
    public double PartialLevelDbfs(VoiceRole role, int harmonic) => engine.PartialLevelDbfs(role, harmonic);
}
