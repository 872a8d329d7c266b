using BrassVox.Synthesis;

namespace BrassVox.Benchmarks.Crash;

/// <summary>An engine that sounds as another does, until a file is there: then its readings throw.</summary>
/// <param name="engine">The engine that sounds.</param>
/// <param name="trigger">Path of the file.</param>
internal sealed class FailingEngine(IPairEngine engine, string trigger) : WrappedPair(engine)
{
    /// <inheritdoc/>
    public override PartReading Read(int partIndex) => File.Exists(trigger)
        ? throw new InvalidOperationException("made to fail by the test that runs this")
        : base.Read(partIndex);
}
