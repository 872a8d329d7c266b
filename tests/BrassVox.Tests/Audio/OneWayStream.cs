namespace BrassVox.Tests.Audio;

/// <summary>Bytes that come like those of a pipe: forwards only, of unknown length, in small portions.</summary>
internal sealed class OneWayStream(byte[] bytes) : Stream
{
    private int _position;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count)
    {
        int given = Math.Min(Math.Min(count, 1000), bytes.Length - _position);
        Array.Copy(bytes, _position, buffer, offset, given);
        _position += given;
        return given;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
