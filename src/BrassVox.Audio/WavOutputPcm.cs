using BrassVox.Audio.Wav;

namespace BrassVox.Audio;

/// <summary>A WAV file in the place of a device to play on, as fast as the disk takes it, up to a set length.</summary>
internal sealed class WavOutputPcm : IPcm
{
    private readonly WavWriter _writer;
    private readonly int _blockSamples;
    private long _leftSamples;
    private bool _finished;

    /// <summary>Plays into a writer.</summary>
    /// <param name="name">Path, for people.</param>
    /// <param name="writer">Writer; finished and disposed here.</param>
    /// <param name="format">Format of the line.</param>
    /// <param name="samples">Samples per channel after which the line ends by itself.</param>
    internal WavOutputPcm(string name, WavWriter writer, LineFormat format, long samples)
    {
        Name = name;
        Format = format;
        _writer = writer;
        _leftSamples = samples;
        _blockSamples = format.PeriodSamples;
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public bool KeepsTime => false;

    /// <inheritdoc/>
    public LineFormat Format { get; }

    /// <inheritdoc/>
    public long DropoutCount => 0;

    /// <inheritdoc/>
    public PcmStep Start() => PcmStep.Idle;

    /// <inheritdoc/>
    public PcmStep Wait(int timeoutMs)
    {
        if (_leftSamples > 0)
            return new PcmStep(PcmState.Good, (int)Math.Min(_blockSamples, _leftSamples));
        // Before the line says that it has ended, so that whoever waits for that finds the file.
        Halt();
        return new PcmStep(_writer.Failure is null ? PcmState.Ended : PcmState.Failed);
    }

    /// <inheritdoc/>
    public PcmStep Write(ReadOnlySpan<float> interleaved)
    {
        _leftSamples -= interleaved.Length / Format.Channels;
        return _writer.Write(interleaved) ? PcmStep.Idle : new PcmStep(PcmState.Failed);
    }

    /// <inheritdoc/>
    public PcmStep Read(Span<float> interleaved) => throw new NotSupportedException("This line plays.");

    /// <inheritdoc/>
    public void Halt()
    {
        if (!_finished)
            _writer.Finish();
        _finished = true;
    }

    /// <inheritdoc/>
    public void Dispose() => _writer.Dispose();

    /// <inheritdoc/>
    public string Describe(PcmStep step) => _writer.Failure?.Message ?? "no reason given";
}
