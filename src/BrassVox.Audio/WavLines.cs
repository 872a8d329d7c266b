using System.Diagnostics.CodeAnalysis;
using BrassVox.Audio.Wav;

namespace BrassVox.Audio;

/// <summary>Lines over WAV files and over nothing, for work without a sound device. They behave like any other line.</summary>
public static class WavLines
{
    /// <summary>A line that plays into a WAV file, as fast as it can, and ends by itself.</summary>
    /// <param name="path">Where the file shall be; it appears once the line has ended.</param>
    /// <param name="options">How the file is written.</param>
    /// <param name="samples">Length in samples per channel, at least 1.</param>
    /// <param name="fill">Called on the line's own thread for each block.</param>
    /// <param name="line">The line, not started.</param>
    /// <param name="failure">Why the file could not be begun.</param>
    /// <param name="blockSamples">Largest block in samples per channel, at least 1.</param>
    /// <returns>True when the line is there.</returns>
    public static bool TryPlayInto(
        string path,
        WavWriteOptions options,
        long samples,
        FillBlock fill,
        [NotNullWhen(true)] out IAudioLine? line,
        [NotNullWhen(false)] out WavWriteFailure? failure,
        int blockSamples = 256)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(samples, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(blockSamples, 1);
        line = null;
        if (!WavWriter.TryCreate(path, options, out WavWriter? writer, out failure))
            return false;
        var format = new LineFormat(options.SampleRateHz, options.Channels, blockSamples, 1);
        line = PcmLine.Output(new WavOutputPcm(path, writer, format, samples), fill, guarded: false, TimeProvider.System);
        return true;
    }

    /// <summary>A line that records from a WAV file, as fast as its listener takes it, and ends with the file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="take">Called on the line's own thread for each block.</param>
    /// <param name="line">The line, not started.</param>
    /// <param name="failure">Why the file could not be opened.</param>
    /// <param name="blockSamples">Largest block in samples per channel, at least 1.</param>
    /// <returns>True when the line is there.</returns>
    public static bool TryRecordFrom(
        string path,
        TakeBlock take,
        [NotNullWhen(true)] out IAudioLine? line,
        [NotNullWhen(false)] out WavFailure? failure,
        int blockSamples = 256)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(blockSamples, 1);
        line = null;
        if (!WavBlockReader.TryOpen(path, out WavBlockReader? reader, out failure))
            return false;
        line = PcmLine.Input(new WavInputPcm(path, reader, blockSamples), take, TimeProvider.System);
        return true;
    }

    /// <summary>A line that plays into nothing, at the pace of a clock.</summary>
    /// <param name="request">What is wished for; all of it is granted.</param>
    /// <param name="fill">Called on the line's own thread for each block.</param>
    /// <param name="time">The clock.</param>
    public static IAudioLine PlaySilently(LineRequest request, FillBlock fill, TimeProvider time) =>
        PcmLine.Output(new SilentPcm(request, time), fill, guarded: false, time);
}
