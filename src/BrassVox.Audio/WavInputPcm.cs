using BrassVox.Audio.Wav;

namespace BrassVox.Audio;

/// <summary>A WAV file in the place of a microphone, as fast as its listener takes it.</summary>
internal sealed class WavInputPcm : IPcm
{
    private readonly WavBlockReader _reader;

    /// <summary>Records from a file.</summary>
    /// <param name="name">Path, for people.</param>
    /// <param name="reader">Opened file; disposed here.</param>
    /// <param name="blockSamples">Largest block in samples per channel.</param>
    internal WavInputPcm(string name, WavBlockReader reader, int blockSamples)
    {
        Name = name;
        _reader = reader;
        Format = new LineFormat(reader.Layout.SampleRateHz, reader.Layout.Channels, blockSamples, 1);
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
    public PcmStep Wait(int timeoutMs) => new(PcmState.Good, Format.PeriodSamples);

    /// <inheritdoc/>
    public PcmStep Write(ReadOnlySpan<float> interleaved) => throw new NotSupportedException("This line records.");

    /// <inheritdoc/>
    public PcmStep Read(Span<float> interleaved)
    {
        int samples = _reader.Read(interleaved);
        return samples == 0 ? new PcmStep(PcmState.Ended) : new PcmStep(PcmState.Good, samples);
    }

    /// <inheritdoc/>
    public void Halt()
    {
    }

    /// <inheritdoc/>
    public void Dispose() => _reader.Dispose();

    /// <inheritdoc/>
    public string Describe(PcmStep step) => "no reason given";
}
