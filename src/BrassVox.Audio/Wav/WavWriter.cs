using System.Diagnostics.CodeAnalysis;

namespace BrassVox.Audio.Wav;

/// <summary>
/// Writes a WAV file while its sound comes in. Until <see cref="Finish"/> the file is called NAME.wav.part; its header is
/// brought up to date about once a second, so that what a crash leaves behind is a readable WAV file under that name.
/// Blocks on the disk: never on a sound thread. One thread at a time.
/// </summary>
public sealed class WavWriter : IDisposable
{
    /// <summary>What is put after the name of a file that is not finished.</summary>
    public const string PartSuffix = ".part";

    private const int DiskFullOnUnix = 28;
    private const int QuotaFullOnLinux = 122;
    private const int QuotaFullOnMac = 69;
    private const int ThereOnUnix = 17;
    private const int ThereOnWindows = unchecked((int)0x80070050);
    private const int AlreadyOnWindows = unchecked((int)0x800700B7);
    private const int ReadOnlyOnUnix = 30;
    private const int DiskFullOnWindows = unchecked((int)0x80070070);
    private const int HandleDiskFullOnWindows = unchecked((int)0x80070027);

    private readonly string _path;
    private readonly WavWriteOptions _options;
    private readonly WavSampleEncoder _encoder;
    private readonly WavHeaderWriter _header;
    private readonly byte[] _buffer;
    private readonly int _blockBytes;
    private FileStream? _file;
    private int _buffered;
    private long _writtenBytes;
    private long _headerDueBytes;

    private WavWriter(string path, WavWriteOptions options, FileStream file)
    {
        _path = path;
        _options = options;
        _file = file;
        _encoder = new WavSampleEncoder(options.Encoding);
        _header = new WavHeaderWriter(options, _encoder.BytesPerSample);
        _blockBytes = _encoder.BytesPerSample * options.Channels;
        _buffer = new byte[Math.Max(1, 65536 / _blockBytes) * _blockBytes];
    }

    /// <summary>Where the file is while it is being written.</summary>
    public string PartPath => _path + PartSuffix;

    /// <summary>Samples per channel taken so far.</summary>
    public long SampleCount => (_writtenBytes + _buffered) / _blockBytes;

    /// <summary>Samples beyond full scale so far.</summary>
    public long ClippedSamples => _encoder.ClippedSamples;

    /// <summary>Samples that were no number so far.</summary>
    public long NonFiniteSamples => _encoder.NonFiniteSamples;

    /// <summary>Why no more is written, once that is so.</summary>
    public WavWriteFailure? Failure { get; private set; }

    /// <summary>Begins a file.</summary>
    /// <param name="path">Where it shall be once finished.</param>
    /// <param name="options">How it is written.</param>
    /// <param name="writer">The writer; the caller finishes and disposes it.</param>
    /// <param name="failure">Why it could not begin.</param>
    /// <returns>True when begun. Never throws for what a folder or a disk may do.</returns>
    public static bool TryCreate(
        string path, WavWriteOptions options, [NotNullWhen(true)] out WavWriter? writer, [NotNullWhen(false)] out WavWriteFailure? failure)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.SampleRateHz, 8000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.SampleRateHz, 384000);
        ArgumentOutOfRangeException.ThrowIfLessThan(options.Channels, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.Channels, 32);
        writer = null;
        failure = null;
        if (Directory.Exists(path))
            failure = new WavWriteFailure(WavWriteFailureKind.NotAllowed, $"{path} is a folder. Name a file in it.");
        else if (!options.Overwrite && File.Exists(path))
            failure = new WavWriteFailure(WavWriteFailureKind.AlreadyThere, $"{path} is already there. Choose another name.");
        if (failure is not null)
            return false;
        try
        {
            if (File.Exists(path) && !PlainFile.Is(path))
            {
                failure = new WavWriteFailure(WavWriteFailureKind.NotAllowed, $"{path} is no plain file but a device or pipe. Name a file.");
                return false;
            }

            var open = new FileStreamOptions
            {
                Mode = options.IsTake ? FileMode.CreateNew : FileMode.Create,
                Access = FileAccess.ReadWrite,
                Share = FileShare.Read | FileShare.Delete,
                BufferSize = 0,
            };
            if (options.IsTake && !OperatingSystem.IsWindows())
                open.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            var file = new FileStream(path + PartSuffix, open);
            writer = new WavWriter(path, options, file);
            if (writer.TryDisk(writer.WriteHeader))
                return true;
            failure = writer.Failure!.Kind == WavWriteFailureKind.DiskFull
                ? new WavWriteFailure(WavWriteFailureKind.DiskFull, $"the disk is full; {path} could not be begun. Free some space.")
                : writer.Failure;
            writer.TryDisk(writer._file!.Dispose);
            writer._file = null;
            File.Delete(path + PartSuffix);
            writer = null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            failure = Explain(path, fault);
        }

        return false;
    }

    /// <summary>Writes samples.</summary>
    /// <param name="interleaved">Samples of all channels in turn, full scale 1; a whole number of samples of all channels.</param>
    /// <returns>False once the disk has failed; <see cref="Failure"/> says how. What was written before is kept.</returns>
    public bool Write(ReadOnlySpan<float> interleaved)
    {
        if (interleaved.Length % _options.Channels != 0)
            throw new ArgumentException($"{interleaved.Length} values are no whole number of samples of {_options.Channels} channels.", nameof(interleaved));
        ObjectDisposedException.ThrowIf(_file is null, this);
        while (!interleaved.IsEmpty && Failure is null)
        {
            int count = Math.Min(interleaved.Length, (_buffer.Length - _buffered) / _encoder.BytesPerSample);
            _encoder.Encode(interleaved[..count], _buffer.AsSpan(_buffered));
            _buffered += count * _encoder.BytesPerSample;
            interleaved = interleaved[count..];
            if (!_options.IsTake && _writtenBytes + _buffered > WavHeaderWriter.LargestPlain)
            {
                _buffered = 0;
                Failure = new WavWriteFailure(WavWriteFailureKind.TooLarge, $"{_path} has reached 4 GB, the most a WAV file holds. Write it in parts.");
            }
            else if (_buffered == _buffer.Length)
            {
                Flush();
            }
        }

        if (Failure is null && _writtenBytes + _buffered >= _headerDueBytes)
        {
            Flush();
            TryDisk(WriteHeader);
        }

        return Failure is null;
    }

    /// <summary>Completes the file and gives it its name. Once.</summary>
    /// <returns>What it holds. With a failure, everything that reached the disk before it is kept and readable.</returns>
    public WavWritten Finish()
    {
        ObjectDisposedException.ThrowIf(_file is null, this);
        Flush();
        // A disk that filled up may have taken part of a block; the file ends where its header says.
        TryDisk(() => _file.SetLength(_header.Length + _writtenBytes));
        if (_writtenBytes % 2 == 1)
            TryDisk(() => WriteAt(_header.Length + _writtenBytes, [0]));
        TryDisk(WriteHeader);
        TryDisk(() => _file.Flush(flushToDisk: true));
        TryDisk(_file.Dispose);
        _file = null;
        string place = TryDisk(() => File.Move(PartPath, _path, _options.Overwrite)) ? _path : PartPath;
        return new WavWritten(
            place, _writtenBytes / _blockBytes, _options.SampleRateHz, ClippedSamples, NonFiniteSamples, Failure);
    }

    /// <summary>Lets go of a file that was not finished: a take is kept as its part, anything else is deleted.</summary>
    public void Dispose()
    {
        if (_file is null)
            return;
        if (_options.IsTake)
        {
            Flush();
            TryDisk(WriteHeader);
        }

        TryDisk(_file.Dispose);
        _file = null;
        if (!_options.IsTake)
            TryDisk(() => File.Delete(PartPath));
    }

    private static WavWriteFailure Explain(string path, Exception fault) => fault switch
    {
        DirectoryNotFoundException => new(WavWriteFailureKind.NoFolder, $"the folder of {path} is not there. Create it, or choose another."),
        UnauthorizedAccessException or IOException { HResult: ReadOnlyOnUnix } => new(WavWriteFailureKind.NotAllowed, $"{path} may not be written by this account. Choose another folder."),
        IOException { HResult: DiskFullOnUnix or QuotaFullOnLinux or QuotaFullOnMac or DiskFullOnWindows or HandleDiskFullOnWindows } =>
            new(WavWriteFailureKind.DiskFull, $"the disk is full; {path} holds what came before. Free some space."),
        IOException { HResult: ThereOnUnix or ThereOnWindows or AlreadyOnWindows } =>
            new(WavWriteFailureKind.AlreadyThere, $"{path} is already there or being written. Choose another name."),
        _ => new(WavWriteFailureKind.DiskFault, $"{path} could not be written: {fault.Message}"),
    };

    private void Flush()
    {
        if (_buffered == 0)
            return;
        if (TryDisk(() => WriteAt(_header.Length + _writtenBytes, _buffer.AsSpan(0, _buffered))))
            _writtenBytes += _buffered;
        _buffered = 0;
    }

    private void WriteHeader()
    {
        WriteAt(0, _header.Lay(_writtenBytes));
        _headerDueBytes = _writtenBytes + (long)_options.SampleRateHz * _blockBytes;
    }

    private void WriteAt(long position, ReadOnlySpan<byte> bytes)
    {
        _file!.Position = position;
        _file.Write(bytes);
    }

    private bool TryDisk(Action action)
    {
        try
        {
            action();
            return true;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            Failure ??= Explain(_path, fault);
            return false;
        }
    }
}
